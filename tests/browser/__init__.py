"""The page as its users meet it: in a browser, with a keyboard, on paper from there."""
