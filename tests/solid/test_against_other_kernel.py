"""The finished solid against an independent kernel, built again from the spec's numbers typed in here.

Circles are 64-gons with the area of the circle: radius x sqrt((2 pi / n) / sin(2 pi / n)), so volumes of
straight and conical round shapes come out exact and only crossings of round shapes differ (3e-7 here).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path

import pytest
from manifold3d import CrossSection, Manifold

from setupsheet.solid.body import finished, volume_mm3
from setupsheet.spec.reader import read_part

_SIDES = 64
_FAT = math.sqrt((2 * math.pi / _SIDES) / math.sin(2 * math.pi / _SIDES))
_RELATIVE = 2e-6
_SPECS = Path(__file__).parents[2] / "specs"


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


def _foot() -> Manifold:
    """Return the foot in inches: 1/4-20 and 10-32 at basic minor diameters, number 30 drill 0.1285, points of 118."""
    post = 0.25 - 1.08253175 / 20
    plate = 0.19 - 1.08253175 / 32
    tip = 1 / math.tan(math.radians(59))
    leg = 1 / 32
    cuts = [
        _box(-1, 0.75 - 0.1875, -1, 0.6, 0.75 + 0.1875, 1),
        _round(0.6, 0.75, -1, 1, 0.375, 0.375),
        _round(1.25, 0.75, -1, 1, post, post),
        _round(1.25, 0.75, 0.5 - (0.27 - post) / 2, 0.5, post, 0.27),
        _round(2, 0.45, -1, 1, 17 / 64, 17 / 64),
        _round(2, 0.45, 0.5 - 0.275, 1, 7 / 16, 7 / 16),
    ]
    for x in (1.625, 2.125):
        cuts += [
            _round(x, 1.125, 0.12, 1, plate, plate),
            _round(x, 1.125, 0.12 - plate / 2 * tip, 0.12, 0, plate),
            _round(x, 1.125, 0.5 - (0.21 - plate) / 2, 0.5, plate, 0.21),
        ]
    for x in (0.3, 0.9):
        cuts += [_round(x, 1.3, 0.25, 1, 0.1285, 0.1285), _round(x, 1.3, 0.25 - 0.1285 / 2 * tip, 0.25, 0, 0.1285)]
    bevel = Manifold.extrude(CrossSection([[(0, 0), (leg, 0), (0, leg)]]), 4).translate((0, 0, -1))
    right, front = bevel.rotate((-90, 0, 0)), bevel.rotate((90, 0, 90))
    cuts += [right.translate((0, 0, 0.5)), right.rotate((0, 0, 180)).translate((2.5, 1.5, 0.5))]
    cuts += [front.rotate((0, 180, 0)).translate((2.5, 0, 0.5)), front.rotate((0, 180, 180)).translate((0, 1.5, 0.5))]
    solid = _box(0, 0, 0, 2.5, 1.5, 0.5)
    for cut in cuts:
        solid -= cut
    return solid.scale((25.4, 25.4, 25.4))


@pytest.mark.parametrize(("name", "other"), [("worm-bracket", _bracket), ("indicator-foot", _foot)])
def test_the_demo_parts(name: str, other: Callable[[], Manifold]) -> None:
    """Both kernels agree on the part's volume to 2e-6, so that no chamfer can be missing, no depth wrong."""
    part, _, findings = read_part(_SPECS / f"{name}.yaml")
    assert part is not None, findings
    body = finished(part)
    assert body.findings == ()
    assert volume_mm3(body) == pytest.approx(other().volume(), rel=_RELATIVE)
