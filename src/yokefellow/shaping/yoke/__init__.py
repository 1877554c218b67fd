"""The yoke: one search from a state, under constraints, for the least cost."""
