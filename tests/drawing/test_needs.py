"""What a drawing must give, and that every kind of feature has its rows."""

from __future__ import annotations

from typing import get_args

from setupsheet.drawing.dimensions import RULES, wants
from setupsheet.drawing.needs import NEEDS, needs
from setupsheet.drawing.wanted import Callout, Place, Span, Turn
from setupsheet.part.feature import Feature
from tests.drawing import parts


def test_every_kind_has_a_rule_and_a_need() -> None:
    """One row a kind in both tables."""
    kinds = {kind.__dataclass_fields__["kind"].default for kind in get_args(Feature)}
    assert set(RULES) == kinds
    assert set(NEEDS) == kinds


def test_wants_meet_all_needs() -> None:
    """Whatever a part needs is asked for, by rules that do not know the list of needs."""
    whole = parts.everything()
    given = [n for w in wants(whole) if isinstance(w, Place | Span | Callout | Turn) for n in w.needs]
    places = {(n.what, round(n.value, 6)) for n in given if n.is_place}
    sizes = {(n.feature, n.what, round(n.value, 6)) for n in given}
    for need in needs(whole):
        value = round(need.value, 6)
        assert (need.what, value) in places if need.is_place else (need.feature, need.what, value) in sizes, need


def test_a_place_is_asked_for_once() -> None:
    """Two features at one coordinate share one place."""
    two = (parts.plain_hole("P1", (20.0, 20.0), 5.0, 15.0), parts.plain_hole("P2", (20.0, 40.0), 5.0, 15.0))
    keys = [(w.axis, w.value) for w in wants(parts.part(two)) if isinstance(w, Place)]
    assert len(keys) == len(set(keys))
