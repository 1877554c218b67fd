"""Colour charts: pictures of stitches, read, checked for workability, and turned into steps."""
