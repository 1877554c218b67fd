"""The body and the sleeves, from the underarm down."""
