"""The centre line of a pipe: lines, arcs and rounded corners."""
