"""Setups at an angle: a slanted edge or a bevel lies level and is milled as a flat face."""
