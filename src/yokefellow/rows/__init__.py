"""From the shape in integers to sections of rows."""
