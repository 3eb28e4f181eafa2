"""Clamps on the table: places, packing, bolts."""

from __future__ import annotations

import math

from setupsheet.plan.record import Body
from tests.plan.planned import setup_of

NAME = "clamped-on-table"


def _body(name: str) -> Body:
    return next(body for body in setup_of(NAME, 1).hold.bodies if body.name == name)


def test_two_clamps_stand_on_opposite_ends() -> None:
    """A plate 160 x 100: the toes lie 15 on its left and right ends, on the top, which is zero."""
    left, right = _body("clamp 1"), _body("clamp 2")
    assert (left.high[0], right.low[0]) == (15.0, 145.0)
    assert (left.low[2], right.low[2]) == (0.0, 0.0)
    assert left.low[0] < 0.0
    assert right.high[0] > 160.0


def test_bolt_stands_a_third_of_the_way_from_the_part() -> None:
    """Planning rule M40: the bolt nearer the work; packing from the table, 20 under the part, up to the clamp."""
    packing, bolt = _body("packing of clamp 1"), _body("bolt of clamp 1")
    far = (packing.low[0] + packing.high[0]) / 2
    middle = (bolt.low[0] + bolt.high[0]) / 2
    assert math.isclose(middle, far / 3, abs_tol=1e-6)  # the part's edge is X 0
    assert (packing.low[2], packing.high[2]) == (-32.0, 0.0)
    assert bolt.high[2] > _body("clamp 1").high[2]


def test_no_cutter_comes_near_a_clamp() -> None:
    """Every way of a cutter, its radius and 1 mm more, stays off bar and bolt."""
    setup = setup_of(NAME, 1)
    bars = [body for body in setup.hold.bodies if body.name.startswith("clamp ")]
    for step in setup.steps:
        if step.tool is None:
            continue
        places = [(at.x, at.y) for at in step.positions] + [point for move in step.moves for point in move.path]
        for x, y in places:
            for bar in bars:
                off = (max(bar.low[0] - x, 0.0, x - bar.high[0]), max(bar.low[1] - y, 0.0, y - bar.high[1]))
                assert math.hypot(*off) >= step.tool.diameter_mm / 2 + 1.0


def test_words_say_where_each_clamp_stands() -> None:
    """Each clamp has its line; nothing on that page speaks of jaws."""
    setup = setup_of(NAME, 1)
    assert [line.split(":")[0].split(",")[0] for line in setup.hold.words if line.startswith("clamp ")][-2:] == [
        "clamp 1 over the edge at your left",
        "clamp 2 over the edge at your right",
    ]
    said = [*setup.hold.words, *setup.cautions, setup.mark, *(words for step in setup.steps for words in step.words)]
    assert not [line for line in said if "jaw" in line]
