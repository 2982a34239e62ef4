"""From the corners of a draft to a pipe that can be bent."""
