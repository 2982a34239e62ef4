"""What a room loses through its envelope: ISO 6946, ISO 13370 and EN 12831-1."""
