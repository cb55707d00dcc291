"""Figures of one edge: the ruler of threads, the section, the margin rule, the count."""
