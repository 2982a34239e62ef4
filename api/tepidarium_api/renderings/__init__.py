"""Representations of results for people and their programs, beside JSON."""
