"""What routes are asked for, refused and answered."""
