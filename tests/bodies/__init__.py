"""Five thousand bodies that might be real, and the few that hardly are: each gets a sweater."""
