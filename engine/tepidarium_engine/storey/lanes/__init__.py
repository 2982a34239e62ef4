"""The ways of pairs of pipes from the manifold through rooms and doorways to the rooms that they serve."""
