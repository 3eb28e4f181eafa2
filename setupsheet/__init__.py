"""setupsheet: from a written part to the papers a manual machinist works from."""

__version__ = "0.1.0"
