"""Heat conduction through a layered floor solved in numbers: steady, in the plane and in time."""
