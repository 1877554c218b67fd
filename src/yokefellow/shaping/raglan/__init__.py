"""The raglan: four pieces between four lines, each with rates of its own."""
