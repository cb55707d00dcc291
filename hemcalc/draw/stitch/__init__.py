"""Figures of the stitches: a side's groups, the path of one, thread and needle in the gap."""
