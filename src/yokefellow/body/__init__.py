"""From a few measurements to a complete body, with the sizing tables."""
