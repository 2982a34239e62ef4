"""Many loops made one pipe."""
