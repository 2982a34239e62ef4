"""Two-dimensional heat conduction in the section of a heated floor: steady, in time, and as a picture."""
