"""hemcalc: count, thread and margin sums for hemstitched, mitred edges."""
