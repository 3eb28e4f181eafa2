"""The exact solid of a part, its frames, and the outlines seen from a frame."""
