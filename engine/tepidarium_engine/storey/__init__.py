"""A whole floor: division of rooms, tails between rooms, the manifold's place."""
