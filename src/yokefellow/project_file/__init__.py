"""The project file: what a knitter writes, read into frozen models or refused with reasons."""
