"""What one circuit is to fill, and what a way of laying it answers."""
