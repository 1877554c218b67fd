"""A row and the trade's written form of it, both ways."""
