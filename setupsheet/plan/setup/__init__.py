"""One setup: how the part lies and is held, where zero is, in which order, and where each cutter finds Z again."""
