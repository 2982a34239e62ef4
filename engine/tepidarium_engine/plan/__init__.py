"""Geometry of rooms and of the pipe in plan."""
