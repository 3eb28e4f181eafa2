"""What a drawing must give, and that every kind of feature has its rows."""

from __future__ import annotations

from dataclasses import replace
from typing import get_args

from setupsheet.drawing.dimensions import RULES, wants, without_leader
from setupsheet.drawing.needs import NEEDS, needs
from setupsheet.drawing.wanted import Callout, Place, Span, Turn
from setupsheet.part.face import Face
from setupsheet.part.feature import Feature, Level, Pocket, Size
from setupsheet.part.shape import BoxShape, CircleShape
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


def test_notes_and_finish_are_said() -> None:
    """At the leader where there is one, else among the notes; nothing is lost."""
    hole = replace(parts.plain_hole("P1", (20.0, 20.0), 6.0, 15.0), finish="Ra 1.6", note="ream after assembly")
    level = Level("step", parts.HERE, Face.TOP, BoxShape((40.0, 0.0), (80.0, 60.0)), parts.size(10.0), note="scrape")
    part = parts.part((hole, level))
    (callout,) = (w for w in wants(part) if isinstance(w, Callout))
    assert callout.lines[1:] == ("ream after assembly",)
    assert callout.texture == "Ra 1.6"
    assert without_leader(part) == ("step: scrape",)


def test_a_written_width_stands_with_its_limits() -> None:
    """A round recess of 24 H8 prints its fit; a box with a fitted width has a size across, and no double place."""
    fit = Size(24.0, 24.0, 24.033, "24 H8", "fit", "H8", "ISO 286-2")
    round_ = Pocket(
        "recess", parts.HERE, Face.TOP, CircleShape((20.0, 20.0), 24.0), 15.0, parts.size(5.0), 5.0, width=fit
    )
    box = replace(round_, id="box", shape=BoxShape((40.0, 10.0), (70.0, 34.0), 3.0))
    found = wants(parts.part((round_, box)))
    assert any(isinstance(w, Callout) and w.lines == ("⌀24 H8 (+0.033/0)",) for w in found)
    (span,) = (w for w in found if isinstance(w, Span))
    assert (span.text, span.axis) == ("24 H8 (+0.033/0)", 1)
    assert not any(isinstance(w, Place) and w.axis == 1 and w.value == 34.0 for w in found)


def test_a_pocket_that_runs_out_over_an_edge() -> None:
    """Where it ends in the air is no size: two edges, one end and two of four round corners are left."""
    face = parts.part(()).box
    shape = BoxShape((50.0, 20.0), (face.high[0] + 15.0, 40.0), 4.0)
    fork = Pocket("fork", parts.HERE, Face.TOP, shape, face.high[2], None, face.low[2])
    whole = parts.part((fork,))
    mine = {(need.what, need.value) for need in needs(whole) if need.feature == "fork"}
    assert mine == {("x", 50.0), ("y", 20.0), ("y", 40.0), ("corner radius", 4.0)}
    (callout,) = [want for want in wants(whole) if isinstance(want, Callout)]
    assert len(callout.targets) == 2
    assert callout.lines[0].startswith("2")
