"""Heat through the floor: EN 1264-2 and EN 1264-3."""
