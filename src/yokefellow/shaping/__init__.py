"""From finished dimensions and gauge to integers."""
