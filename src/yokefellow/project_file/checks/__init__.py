"""What the fields of a project say about each other, checked together."""
