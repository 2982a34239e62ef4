"""A drawn pipe as it is laid on site: turns with metre marks, fixings, distances from walls."""
