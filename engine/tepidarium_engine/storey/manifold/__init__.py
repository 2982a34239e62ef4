"""Where manifolds stand, and which serves which room."""
