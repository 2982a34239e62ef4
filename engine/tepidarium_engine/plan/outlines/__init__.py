"""Rooms as polygons: checked outlines, their own frame, where pipe may lie."""
