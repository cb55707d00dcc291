"""Figures of a corner: from flat to folded, and its layers."""
