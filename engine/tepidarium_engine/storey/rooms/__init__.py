"""The circuits of one room in the floor that pipes of others leave of it."""
