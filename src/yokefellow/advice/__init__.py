"""What to check, what to beware of, which needle: advice for the knitter."""
