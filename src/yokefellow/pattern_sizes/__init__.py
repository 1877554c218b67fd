"""From a pattern's numbers to the size to follow, and its rounds at another gauge."""
