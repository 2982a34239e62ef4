"""Plans as architects have them, read into the rooms of a design."""
