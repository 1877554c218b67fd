"""What may spoil the sweater, told before it is knitted."""
