"""The double spiral: rings, the seam between them, spacings fitted to the room."""
