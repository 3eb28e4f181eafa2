"""Values of ISO 2768-1 as printed at handfest.engineer/Toleranz/Allgemeintol.html."""

from __future__ import annotations

import pytest

from setupsheet.tables.general import angle_deg, broken_edge_mm, linear_mm


@pytest.mark.parametrize(
    ("grade", "size", "value"),
    [
        ("f", 0.5, 0.05),
        ("f", 6, 0.05),
        ("f", 30, 0.1),
        ("f", 120, 0.15),
        ("f", 2000, 0.5),
        ("m", 3, 0.1),
        ("m", 6, 0.1),
        ("m", 6.01, 0.2),
        ("m", 30, 0.2),
        ("m", 30.01, 0.3),
        ("m", 120, 0.3),
        ("m", 400, 0.5),
        ("m", 1000, 0.8),
        ("m", 4000, 2),
        ("c", 3, 0.2),
        ("c", 25, 0.5),
        ("c", 100, 0.8),
        ("c", 300, 1.2),
        ("v", 5, 0.5),
        ("v", 25, 1),
        ("v", 100, 1.5),
        ("v", 3000, 8),
    ],
)
def test_lengths(grade: str, size: float, value: float) -> None:
    """Table 1; a size on an edge belongs to the range that ends there."""
    assert linear_mm(grade, size) == value


@pytest.mark.parametrize(
    ("grade", "size", "value"),
    [("f", 0.5, 0.2), ("m", 3, 0.2), ("m", 4, 0.5), ("m", 8, 1), ("c", 1, 0.4), ("c", 6, 1), ("v", 20, 2)],
)
def test_broken_edges(grade: str, size: float, value: float) -> None:
    """Table 2, outside radii and chamfer heights."""
    assert broken_edge_mm(grade, size) == value


@pytest.mark.parametrize(
    ("grade", "leg", "degrees"),
    [
        ("m", 10, 1),
        ("m", 11, 1 / 2),
        ("f", 120, 1 / 3),
        ("m", 400, 1 / 6),
        ("m", 401, 1 / 12),
        ("c", 5, 1.5),
        ("c", 50, 1),
        ("c", 120, 0.5),
        ("c", 400, 0.25),
        ("v", 8, 3),
        ("v", 500, 1 / 3),
    ],
)
def test_angles(grade: str, leg: float, degrees: float) -> None:
    """Table 3, by the shorter leg."""
    assert angle_deg(grade, leg) == pytest.approx(degrees, rel=1e-12)
