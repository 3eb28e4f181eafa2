"""Sides of sizes and running places: what would cross goes to the other side."""

from __future__ import annotations

from setupsheet.drawing.stack_sides import Way, share_out

SIDES = ("below", "above")


def ways(low: float, high: float, tail: float = 0.0) -> list[Way]:
    """Return the ways of a size between two places; with a tail its value stands beside it, after or before."""
    found = []
    for side in SIDES:
        if tail:
            found.append(Way(side, True, (low, high), (low - tail, high + 5.0), 0.0))
        found.append(Way(side, False, (low, high), (low - 5.0 if tail else low, high + tail), 0.0))
    return found


def test_a_place_within_a_size_goes_to_the_other_side() -> None:
    """Places within one size on either side: all of them end up opposite the size, none is crossed."""
    shared = share_out([ways(10.0, 40.0)], [(20.0, "below"), (30.0, "above"), (60.0, "below")], SIDES)
    inner = {side for s, side in zip((20.0, 30.0), shared.sides[:2], strict=True)}
    assert shared.crossings == 0
    assert inner.isdisjoint({shared.ways[0].side})
    assert shared.sides[2] == "below"


def test_a_place_at_the_end_of_a_size_stays() -> None:
    """An extension line at the end of a size runs along the size's own and crosses nothing."""
    shared = share_out([ways(10.0, 40.0)], [(10.0, "below"), (40.0, "below")], SIDES)
    assert (shared.crossings, shared.sides) == (0, ("below", "below"))


def test_sizes_that_overlap_stand_on_two_sides() -> None:
    """The outer size's extension line would cross the inner size's line: they part."""
    shared = share_out([ways(0.0, 20.0), ways(10.0, 50.0)], [], SIDES)
    assert shared.crossings == 0
    assert shared.ways[0].side != shared.ways[1].side


def test_a_value_beside_its_size_goes_where_no_line_runs() -> None:
    """Places after the size on both sides: the value stands before it."""
    shared = share_out([ways(30.0, 34.0, 20.0)], [(45.0, "below"), (46.0, "above")], SIDES)
    assert shared.crossings == 0
    assert shared.ways[0].before or len(set(shared.sides)) == 1


def test_many_sizes_are_placed_one_after_the_other() -> None:
    """Twelve nested sizes and a place in the midst of all: no crossing, and it takes no time."""
    sizes = [ways(50.0 - k, 50.0 + k) for k in range(5, 17)]
    shared = share_out(sizes, [(50.0, "below")], SIDES)
    assert shared.crossings == 0
    assert len(shared.ways) == 12
