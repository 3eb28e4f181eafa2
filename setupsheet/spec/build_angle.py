"""A part set to an angle: the words of ``tilt:`` in a setup."""

from __future__ import annotations

import re

from setupsheet.part.part import TiltAsked
from setupsheet.spec.desk import Desk
from setupsheet.spec.tree import Node

_RAISE = re.compile(r"^raise\s+(?P<side>left|right)\s+(?P<angle>\d+(?:\.\d+)?)\s*(?:°|deg)?$")
_LEAST_DEG, _MOST_DEG = 0.1, 89.9
"""Nearer to upright or to a quarter turn than this is no setup at an angle."""


def tilt_asked(desk: Desk, node: Node | None) -> TiltAsked | None:
    """Return what ``tilt:`` asks for: a feature's id to lie level, or the end to raise and the degrees."""
    scalar = desk.scalar(node) if node is not None else None
    if scalar is None:
        return None
    words = scalar.text.strip()
    if not words.startswith("raise"):
        return TiltAsked(words, words, "", 0.0, scalar.place)
    match = _RAISE.match(words)
    degrees = float(match["angle"]) if match else 0.0
    if not match or not _LEAST_DEG <= degrees <= _MOST_DEG:
        desk.wrong(
            "tilt-not-clear",
            f"tilt: {words}: which end goes up, and by how many degrees?",
            scalar.place,
            found=words,
            allowed=f"raise left 20, raise right 37.5 ({_LEAST_DEG:g} to {_MOST_DEG:g} degrees), or the id of an edge",
            try_="name the slanted edge or the bevel that is to lie level: its angle is worked out",
        )
        return None
    return TiltAsked(words, "", match["side"], degrees, scalar.place)
