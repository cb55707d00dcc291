"""A small picture for each movement of the finish: what the hands do with thread, needle and fold."""
