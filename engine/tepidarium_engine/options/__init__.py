"""What a house can be instead: choices of its rooms, weighed for the house as a whole."""
