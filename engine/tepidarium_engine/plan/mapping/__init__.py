"""Rooms stretched and drawn in along their axes, so that a pattern of one spacing fits, and patterns carried back."""
