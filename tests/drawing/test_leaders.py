"""Leaders: where a callout's line runs when it has the choice."""

from __future__ import annotations

from pathlib import Path

import pytest

from setupsheet.drawing.completeness import dimensions_of
from setupsheet.drawing.compose import outline_of
from setupsheet.drawing.draw import draw
from setupsheet.drawing.ink import Circle
from setupsheet.plane import distance_to_segment
from setupsheet.solid.body import finished
from setupsheet.spec.reader import read_part

_CORPUS = Path(__file__).parents[1] / "corpus"


@pytest.mark.parametrize("name", ["six-faces", "window-shaped"])
def test_a_leader_leaves_the_view_beside_its_corners(name: str) -> None:
    """Datum flags and values stand all round; no line of a callout passes a corner within a millimetre and a half."""
    part = read_part(_CORPUS / f"{name}.yaml")[0]
    assert part is not None
    sheets, _ = draw(part, finished(part))
    callouts = [dim for dim in dimensions_of(sheets) if dim.kind == "callout"]
    assert callouts
    (top,) = [group for group in sheets[0].groups if group.name == "top"]
    (x0, y0), (x1, y1) = outline_of(top)
    for dim in callouts:
        for corner in ((x0, y0), (x1, y0), (x0, y1), (x1, y1)):
            assert distance_to_segment(corner, dim.points[0], dim.line_at) >= 1.5, dim.text


@pytest.mark.parametrize("name", ["hinge-block", "indicator-foot"])
def test_a_leader_to_an_open_slot_crosses_no_hole(name: str) -> None:
    """Holes stand before the slot's one round end: the leader ends on a flank, and runs through no circle."""
    part = read_part(_CORPUS.parents[1] / "specs" / f"{name}.yaml")[0]
    assert part is not None
    sheets, _ = draw(part, finished(part))
    (top,) = [group for group in sheets[0].groups if group.name == "top"]
    (slot,) = [dim for dim in dimensions_of(sheets) if dim.kind == "callout" and "slot" in dim.text.lower()]
    rims = [s for s in top.items if isinstance(s, Circle)]
    assert len(rims) >= 4
    assert all(distance_to_segment(rim.centre, slot.points[0], slot.line_at) > rim.radius for rim in rims)
