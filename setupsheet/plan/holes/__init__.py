"""Holes laid over the setups: positions, depths, the order in which places are driven to."""
