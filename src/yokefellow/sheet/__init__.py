"""What the knitter holds: the whole plan as a page, a PDF, plain text or data."""
