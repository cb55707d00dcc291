"""Figures of the drawn threads at a corner, crossing by crossing."""
