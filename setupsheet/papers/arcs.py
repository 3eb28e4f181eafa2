"""Split the arcs of pictures before they go into a PDF. Paper mm, Y downwards as in SVG.

The HTML-to-PDF library draws any arc up to a half turn as one cubic curve. Over a half turn that curve is 1.8 %
of the radius outside of the circle (between its ends and its middle), which is seen: over 60 degrees it is exact
to a millionth.
"""

from __future__ import annotations

import math
import re

from setupsheet.drawing.svg import number
from setupsheet.plane import Point2

_NUMBER = r"-?[0-9.]+"
_ARC = rf"A{_NUMBER} {_NUMBER} {_NUMBER} [01] 0 {_NUMBER} {_NUMBER}"
_CHAIN = re.compile(rf"M({_NUMBER} {_NUMBER})((?:{_ARC})+)")
_ONE = re.compile(_ARC)
_LONGEST_DEG = 60.0


def split_arcs(html: str) -> str:
    """Return pages whose pictures have no arc longer than 60 degrees; everything else stays as it is."""
    return _CHAIN.sub(lambda found: f"M{found[1]}{_chain(found[1], found[2])}", html)


def _chain(start: str, arcs: str) -> str:
    x, y = (float(part) for part in start.split())
    pieces: list[str] = []
    for arc in _ONE.findall(arcs):
        pieces.append(_split((x, y), arc))
        x, y = (float(part) for part in arc.split()[-2:])
    return "".join(pieces)


def _split(start: Point2, arc: str) -> str:
    """Return one arc command as several: worked out on the circle that the ellipse is when squeezed to radius 1."""
    wide, high, turn, large, _, x, y = (float(part) for part in arc[1:].split())
    if wide <= 0 or high <= 0:
        return arc
    cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))

    def squeezed(point: Point2) -> Point2:
        return (cos * point[0] + sin * point[1]) / wide, (cos * point[1] - sin * point[0]) / high

    centre, first, sweep = _on_circle(squeezed(start), squeezed((x, y)), long_way=large > 0)
    count = max(1, math.ceil(sweep / math.radians(_LONGEST_DEG) - 1e-6))
    ends: list[Point2] = []
    for piece in range(1, count):
        angle = first - sweep * piece / count
        u, v = (centre[0] + math.cos(angle)) * wide, (centre[1] + math.sin(angle)) * high
        ends.append((cos * u - sin * v, sin * u + cos * v))
    head = " ".join(arc[1:].split()[:3])
    return "".join(f"A{head} 0 0 {number(px)} {number(py)}" for px, py in (*ends, (x, y)))


def _on_circle(start: Point2, end: Point2, *, long_way: bool) -> tuple[Point2, float, float]:
    """Return centre, first angle and sweep (radians, running down) of the arc between two points of a unit circle."""
    across = (end[0] - start[0], end[1] - start[1])
    chord = math.hypot(*across) or 1.0
    off = math.sqrt(max(0.0, 1.0 - chord * chord / 4.0)) / chord
    side = -1.0 if long_way else 1.0
    centre = (
        (start[0] + end[0]) / 2 + side * off * across[1],
        (start[1] + end[1]) / 2 - side * off * across[0],
    )
    first = math.atan2(start[1] - centre[1], start[0] - centre[0])
    last = math.atan2(end[1] - centre[1], end[0] - centre[0])
    return centre, first, (first - last) % math.tau
