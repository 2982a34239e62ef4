"""Movement joints: those that are given, and those that the rules of the trade ask for."""
