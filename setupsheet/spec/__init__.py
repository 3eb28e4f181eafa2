"""Spec text to checked part: read, shape, arithmetic, build, sense."""
