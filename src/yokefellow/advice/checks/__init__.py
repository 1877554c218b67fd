"""What to check while knitting, each at its row."""
