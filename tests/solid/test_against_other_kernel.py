"""The finished solid against an independent kernel, built again from the spec's numbers typed in here.

Circles are 64-gons with the area of the circle: radius x sqrt((2 pi / n) / sin(2 pi / n)), so volumes of
straight and conical round shapes come out exact and only crossings of round shapes differ (3e-7 here).
"""

from __future__ import annotations

import math

import pytest
from manifold3d import CrossSection, Manifold

from setupsheet.solid.body import finished, volume_mm3
from tests.solid.bracket_part import bracket

_SIDES = 64
_FAT = math.sqrt((2 * math.pi / _SIDES) / math.sin(2 * math.pi / _SIDES))
_RELATIVE = 2e-6


def _box(x0: float, y0: float, z0: float, x1: float, y1: float, z1: float) -> Manifold:
    return Manifold.cube((x1 - x0, y1 - y0, z1 - z0)).translate((x0, y0, z0))


def _round(x: float, y: float, z0: float, z1: float, d0: float, d1: float) -> Manifold:
    """Return a cone or cylinder along Z from its two diameters."""
    return Manifold.cylinder(z1 - z0, d0 / 2 * _FAT, d1 / 2 * _FAT, _SIDES).translate((x, y, z0))


def _plate(points: list[tuple[float, float]], z0: float, z1: float) -> Manifold:
    return Manifold.extrude(CrossSection([points]), z1 - z0).translate((0, 0, z0))


def _bracket() -> Manifold:
    corner = _box(70, -1, -1, 81, 10, 16) - _round(70, 10, -2, 17, 20, 20)
    flange = _box(-1, -1, 6, 81, 63, 16) - _round(34, 29, 5, 17, 24, 24) - _box(62, 0, 5, 80, 62, 17)
    cuts = [
        flange,
        _box(62, 0, 8, 80, 62, 16),
        _plate([(68, 62), (80, 50), (80, 62)], -1, 16),
        corner,
        _box(24, 0, -1, 60, 62, 1.5),
        _round(34, 29, -1, 16, 12, 12),
        _round(34, 29, 14.5, 15, 12, 13),
        _round(34, 29, 1.5, 2, 13, 12),
        _round(70, 10, -1, 9, 6.6, 6.6),
        _round(8, 54, -1, 7, 4.5, 4.5),
        _round(8, 54, 6 - 2.25, 6, 4.5, 9),
    ]
    for angle in (15, 75, 135, 195, 255, 315):
        x, y = 34 + 21 * math.cos(math.radians(angle)), 29 + 21 * math.sin(math.radians(angle))
        cuts.append(_round(x, y, -1, 7, 4.5, 4.5))
    for y in (26, 42):
        cuts += [_round(71, y, -1, 9, 4.134, 4.134), _round(71, y, 8 - 0.683, 8, 4.134, 5.5)]
        cuts.append(_round(71, y, 0, 0.683, 5.5, 4.134))
    solid = _box(0, 0, 0, 80, 62, 15)
    for cut in cuts:
        solid -= cut
    return solid


def test_the_worm_bracket() -> None:
    """Both kernels agree on the bracket's volume to 2e-6, so that no chamfer can be missing."""
    body = finished(bracket())
    assert body.findings == ()
    assert volume_mm3(body) == pytest.approx(_bracket().volume(), rel=_RELATIVE)
