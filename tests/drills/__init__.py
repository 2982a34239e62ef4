"""Drills: the served process under load, abandoned, killed, starved. Each prints its figure against its target."""
