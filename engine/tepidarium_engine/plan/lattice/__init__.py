"""The double spiral on a lattice of cells, second engine for right-angled rooms."""
