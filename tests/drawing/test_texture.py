"""Surface and edge symbols: legs, value and bar stand as the standards' figures show them."""

from __future__ import annotations

import math

import pytest

from setupsheet.drawing import signs, texture
from setupsheet.drawing.ink import Line, Polyline, Stroke, Text
from setupsheet.length import Unit


def _angle(a: tuple[float, float], b: tuple[float, float]) -> float:
    return math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))


def _value(strokes: list[Stroke]) -> str:
    return " ".join(s.text for s in strokes if isinstance(s, Text))


@pytest.mark.parametrize("iso", [True, False])
@pytest.mark.parametrize("h", [2.5, 3.5])
def test_the_check_mark_has_two_unequal_legs_at_60_degrees(h: float, iso: bool) -> None:
    """Both legs lean 60 degrees, the long one twice as high or more; closed: metal has to be removed (ISO 1302)."""
    strokes = texture.symbol("Ra 1.6", (10.0, 20.0), h, iso)
    mark, shut = (next(s for s in strokes if isinstance(s, kind)) for kind in (Polyline, Line))
    assert isinstance(mark, Polyline)
    assert isinstance(shut, Line)
    knee, foot, end = mark.points
    assert _angle(foot, knee) == pytest.approx(120.0)
    assert _angle(foot, end) == pytest.approx(60.0)
    assert end[1] - foot[1] >= 2 * (knee[1] - foot[1])
    assert foot[1] == 20.0
    assert shut.a == knee
    assert shut.b == pytest.approx((2 * foot[0] - knee[0], knee[1]))


def test_the_iso_value_stands_under_a_bar_and_the_asme_value_left_of_the_mark() -> None:
    """ISO 1302: parameter and value under the bar. ASME Y14.36: the value over the short leg."""
    iso, asme = (texture.symbol("Ra 1.6", (0.0, 0.0), 3.0, is_iso) for is_iso in (True, False))
    bar = [s for s in iso if isinstance(s, Line)][-1]
    text = next(s for s in iso if isinstance(s, Text))
    assert bar.a[1] == bar.b[1] == texture.height(3.0)
    assert bar.b[0] - bar.a[0] > signs.width("Ra 1.6", 3.0)
    assert text.at[1] + 3.0 < bar.a[1]
    left = next(s for s in asme if isinstance(s, Text))
    mark = next(s for s in asme if isinstance(s, Polyline))
    assert left.at[0] <= mark.points[2][0]
    assert left.at[1] > mark.points[0][1]


@pytest.mark.parametrize("iso", [True, False])
def test_a_symbol_keeps_within_its_own_size(iso: bool) -> None:
    """Nothing sticks out of the width and height that the layout counts with."""
    wide, tall = texture.width("Ra 12.5", 3.5, iso), texture.height(3.5)
    for stroke in texture.symbol("Ra 12.5", (0.0, 0.0), 3.5, iso):
        points = signs.box(stroke) if isinstance(stroke, Text) else getattr(stroke, "points", None)
        points = points or (getattr(stroke, "a"), getattr(stroke, "b"))  # noqa: B009 - a Line
        assert all(-1e-6 <= x <= wide + 1e-6 and -1e-6 <= y <= tall + 1e-6 for x, y in points)


@pytest.mark.parametrize(
    ("finish", "iso", "unit", "shown"),
    [
        ("Ra 3.2", True, Unit.MM, "Ra 3.2"),
        ("Rz 25", True, Unit.MM, "Rz 25"),
        ("Ra 3.2", False, Unit.MM, "3.2"),
        ("Ra 1.6", False, Unit.INCH, "1.6 µm"),
        ("Ra 63 µin", False, Unit.INCH, "63 µin"),
    ],
)
def test_a_value_says_its_unit_where_it_could_be_read_wrongly(finish: str, iso: bool, unit: Unit, shown: str) -> None:
    """An inch drawing may count in microinches, so micrometres say that they are; ASME leaves Ra out."""
    assert texture.is_texture(finish)
    assert texture.shown(finish, iso, unit, ".") == shown


def test_words_are_no_texture() -> None:
    """'as sawn' stays words: a symbol would claim a value."""
    assert not texture.is_texture("as sawn")
    assert not texture.is_texture("Ravelled 3")


def test_the_edge_symbol_leads_an_angle_to_the_corner_of_a_solid() -> None:
    """ISO 13715: two legs square to each other, led to the edge, with the signed limit between them."""
    strokes = texture.edge_symbol("-0.3", (0.0, 0.0), 2.5)
    corner, angle = (s for s in strokes if isinstance(s, Polyline))
    leader = next(s for s in strokes if isinstance(s, Line))
    assert leader.a == corner.points[1]
    assert leader.b == angle.points[1]
    assert angle.points[0][0] == angle.points[1][0]
    assert angle.points[1][1] == angle.points[2][1]
    assert _value(strokes) == "-0.3"
