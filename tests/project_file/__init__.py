"""Tests of the project file: reading, refusing, writing fresh."""
