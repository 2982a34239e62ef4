"""Runs to and fro as the outline of a comb."""
