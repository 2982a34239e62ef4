"""The centre line of a pipe: lines and arcs, rounded corners, shortest bounded curves."""
