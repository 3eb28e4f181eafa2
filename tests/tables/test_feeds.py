"""Feeds, depths and widths of cut."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.tables import feeds, loader, material
from setupsheet.tables.unknown import NotInTables

GROUPS = material.groups()
DIAMETERS = st.floats(0.3, 60)


def test_tables_cover_every_group_without_gap() -> None:
    """Drill feeds run without a break; every other table has a line for every group of materials."""
    assert loader.ranges("feeds_drill", ("group",))
    for name in ("feeds_bore", "feeds_mill", "depths_mill", "cutting_force"):
        assert {row["group"] for row in loader.rows(name)} == set(GROUPS)


@given(st.sampled_from(GROUPS), st.sampled_from(feeds.operations()), DIAMETERS)
def test_feeds_per_turn_lie_inside_their_range(group: str, operation: str, diameter: float) -> None:
    """Every group, operation and diameter has a start value inside its range, with a source."""
    found = feeds.feed_per_rev_mm(operation, diameter, group)
    assert 0 < found.low <= found.start <= found.high
    assert found.source
    assert found.status


@given(st.sampled_from(GROUPS), st.sampled_from(["hss", "carbide"]), DIAMETERS, DIAMETERS)
def test_a_larger_end_mill_never_takes_less(group: str, tool: str, one: float, other: float) -> None:
    """Feed per tooth grows with the diameter or stays, inside its range."""
    small, large = (feeds.feed_per_tooth_mm(diameter, group, tool) for diameter in sorted((one, other)))
    assert 0 < small.low <= small.start <= small.high
    assert small.start <= large.start


@given(st.sampled_from(GROUPS), st.sampled_from(["level", "slot", "side", "finish"]), DIAMETERS)
def test_depths_stay_below_the_cutter_s_diameter(group: str, cut: str, diameter: float) -> None:
    """A pass is some depth and never more than one diameter; a slot no more than half of it."""
    depth = feeds.depth_of_cut_mm(cut, diameter, group).start
    assert 0 < depth <= round(diameter, 3)
    assert feeds.depth_of_cut_mm("slot", diameter, group).start <= diameter / 2


@pytest.mark.parametrize(
    ("call", "near"),
    [
        (lambda: feeds.feed_per_rev_mm("dril", 6, "aluminium"), "drill"),
        (lambda: feeds.feed_per_rev_mm("tap", 6, "aluminium"), ""),
        (lambda: feeds.feed_per_rev_mm("drill", 6, "aluminum"), "aluminium"),
        (lambda: feeds.feed_per_tooth_mm(6, "aluminium", "carbid"), "carbide"),
        (lambda: feeds.depth_of_cut_mm("slott", 6, "aluminium"), "slot"),
        (lambda: feeds.feed_per_rev_mm("drill", math.nan, "aluminium"), ""),
        (lambda: feeds.feed_per_tooth_mm(0, "aluminium"), ""),
    ],
)
def test_unknown_words_are_refused(call: object, near: str) -> None:
    """One thing that exists is offered where one is near."""
    assert callable(call)
    with pytest.raises(NotInTables) as caught:
        call()
    assert caught.value.nearest == near
