"""From the limits of a hole to the cutters that reach them, and what comes out."""
