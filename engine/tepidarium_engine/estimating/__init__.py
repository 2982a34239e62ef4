"""Ranges for a quotation: what is assumed, the likely value by rules and physics, the measured spread about it."""
