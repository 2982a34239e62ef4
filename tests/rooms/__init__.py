"""Invented rooms, and what the route engine makes of them."""
