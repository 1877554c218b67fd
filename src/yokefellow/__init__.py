"""Yokefellow: a body, a swatch and a pile of yarn in; a row-by-row sweater schedule out."""

__version__ = "0.1.0"
