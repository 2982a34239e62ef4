"""A room's floor cut in cells, one for each circuit."""
