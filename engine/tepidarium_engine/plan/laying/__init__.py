"""One circuit in one room: the ways to lay it and the choice among them."""
