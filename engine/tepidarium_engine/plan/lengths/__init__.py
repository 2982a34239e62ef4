"""Habits of the trade about lengths of pipe."""
