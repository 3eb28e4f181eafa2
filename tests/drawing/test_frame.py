"""Sheets and frames against published sizes."""

from __future__ import annotations

from itertools import pairwise

import pytest

from setupsheet.drawing import frame
from setupsheet.drawing.ink import Line, Pen, Polyline, Text


@pytest.mark.parametrize(
    ("name", "wide", "high"),
    [("A4", 180, 277), ("A3", 390, 277), ("A2", 564, 400)],
)
def test_drawing_space_of_iso_sheets(name: str, wide: float, high: float) -> None:
    """Drawing space of A4 and A3 from a textbook (W2 page 7), of A2 computed from the same margins."""
    (x0, y0), (x1, y1) = frame.sheet_size(name).space
    assert (x1 - x0, y1 - y0) == (wide, high)


def test_letter_and_b_in_inches() -> None:
    """ANSI sizes A and B are 8.5 x 11 and 11 x 17 inches (encyclopedia)."""
    letter, b = frame.sheet_sizes("asme")
    assert (letter.width / 25.4, letter.height / 25.4) == pytest.approx((8.5, 11))
    assert (b.width / 25.4, b.height / 25.4) == pytest.approx((17, 11))


def test_an_unknown_sheet_is_refused() -> None:
    """There is no sheet A9."""
    with pytest.raises(KeyError):
        frame.sheet_size("A9")


@pytest.mark.parametrize("name", ["A4", "A3", "A2", "Letter", "B"])
def test_all_ink_lies_on_the_paper(name: str) -> None:
    """Lines end and texts stand inside the sheet; zones are named once a side without I and O."""
    size = frame.sheet_size(name)
    group = frame.frame(size)
    points = [p for i in group.items if isinstance(i, Polyline) for p in i.points]
    points += [p for i in group.items if isinstance(i, Line) for p in (i.a, i.b)]
    points += [i.at for i in group.items if isinstance(i, Text)]
    assert all(0 <= x <= size.width and 0 <= y <= size.height for x, y in points)
    names = [i.text for i in group.items if isinstance(i, Text)]
    assert not set(names) & {"I", "O"}
    assert len(set(names)) == size.zones_across + size.zones_up


def test_zones_are_50_mm_from_the_centring_mark() -> None:
    """All zones but those at the corners are 50 mm long (textbook W2 page 7)."""
    size = frame.sheet_size("A3")
    borders = frame.zone_borders(20, 410, size.width / 2, size.zones_across)
    lengths = [high - low for low, high in pairwise(borders)]
    assert lengths[1:-1] == [50.0] * 6
    assert sum(lengths) == 390


def test_check_bar_is_100_mm() -> None:
    """The bar and its outer ticks stand 100 mm apart."""
    ticks = [s for s in frame.check_bar((7.0, 3.0)) if isinstance(s, Line) and s.a[0] == s.b[0]]
    assert max(t.a[0] for t in ticks) - min(t.a[0] for t in ticks) == 100.0
    assert all(s.pen is Pen.THIN for s in ticks)
