"""Water in the circuits: fluids, friction, valves, the manifold, pump, mixing and expansion."""

__all__: list[str] = []
