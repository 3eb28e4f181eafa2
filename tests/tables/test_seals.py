"""Grooves for round seals, against published practice."""

from __future__ import annotations

import pytest

from setupsheet.tables import loader, seals
from setupsheet.tables.unknown import NotInTables

METRIC = [float(row["cord_mm"]) for row in loader.rows("seal_grooves")]
INCH = [float(row["cord_in"]) for row in loader.rows("seal_grooves_inch")]


@pytest.mark.parametrize(
    ("cord", "depth", "width"), [(1.5, 1.1, 2.1), (1.78, 1.3, 2.6), (2.0, 1.5, 2.8), (3.0, 2.3, 4.0), (5.33, 4.3, 7.3)]
)
def test_metric_grooves(cord: float, depth: float, width: float) -> None:
    """Housing dimensions for axial installation (G1): depth h +0.1, width b4 +0.2."""
    found = seals.groove(cord)
    assert (found.depth, found.width) == (depth, width)
    assert (found.depth_over, found.width_over) == (0.1, 0.2)


@pytest.mark.parametrize(
    ("cord", "depths", "widths", "squeeze"),
    [
        (0.070, (0.050, 0.054), (0.101, 0.107), (19, 32)),
        (0.103, (0.074, 0.080), (0.136, 0.142), (20, 30)),
        (0.139, (0.101, 0.107), (0.177, 0.187), (20, 30)),
        (0.210, (0.152, 0.162), (0.270, 0.290), (21, 30)),
        (0.275, (0.201, 0.211), (0.342, 0.362), (21, 29)),
    ],
)
def test_inch_grooves(
    cord: float, depths: tuple[float, float], widths: tuple[float, float], squeeze: tuple[int, int]
) -> None:
    """Static axial face seal glands for AS568B cords (G2), whose squeeze counts the cord's own tolerance too."""
    found = seals.groove(cord, inch=True)
    assert (found.depth, found.depth + found.depth_over) == pytest.approx(depths)
    assert (found.width, found.width + found.width_over) == pytest.approx(widths)
    least, most = found.squeeze_percent
    assert squeeze[0] - 0.5 <= least < most <= squeeze[1] + 0.5


@pytest.mark.parametrize(("cord", "inch"), [(c, False) for c in METRIC] + [(c, True) for c in INCH])
def test_squeeze_and_fill(cord: float, inch: bool) -> None:
    """A seal that does not move is squeezed by 15 to 30 % (G3: ISO 3601-2), and its groove is never full."""
    found = seals.groove(cord, inch=inch)
    assert 15 <= found.squeeze_percent[0] < found.squeeze_percent[1] <= 30.001
    assert 50 < found.fill_percent[0] < found.fill_percent[1] < 90
    assert found.width > cord > found.depth + found.depth_over


def test_sources_are_explained() -> None:
    """Every G-number in a source stands in seal_sources."""
    known = {row["id"] for row in loader.rows("seal_sources")}
    for row in (*loader.rows("seal_grooves"), *loader.rows("seal_grooves_inch")):
        assert row["source"].split()[0] in known


def test_unknown_cord() -> None:
    """A cord that nobody sells names the nearest one."""
    with pytest.raises(NotInTables) as caught:
        seals.groove(2.2)
    assert caught.value.nearest in ("2", "2.4")
