"""The figure of a cloth that is cut up: its pieces, its cuts, its key and what is written on it."""
