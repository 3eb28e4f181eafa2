"""The objections of the replay, gathered: one fault at many steps or places is one sentence."""

from __future__ import annotations

from setupsheet.plan.objections import gathered


def test_one_fault_at_many_steps_is_said_once() -> None:
    """The same words at five steps of one setup become one sentence with five numbers; another setup keeps its own."""
    met = [f"setup 7 step {n}: the cutter meets parallel at the back" for n in (2, 4, 6, 8, 10)]
    assert gathered([*met, "setup 8 step 2: the cutter meets parallel at the back"]) == [
        "setup 7 steps 2, 4, 6, 8, 10: the cutter meets parallel at the back",
        "setup 8 step 2: the cutter meets parallel at the back",
    ]


def test_places_that_differ_in_numbers_are_counted() -> None:
    """Three places of one step: the first is told, the other two are counted; other faults stay whole."""
    words = [
        f"setup 2 step 13: the cut at Z 12 should start outside, but at X {x} Y 4.5 it stands in it" for x in (1, 2, 3)
    ]
    other = "setup 4: zero X reads -4.975 on cut left face"
    assert gathered([*words, other, other.replace("4:", "5:")]) == [
        other,
        other.replace("4:", "5:"),
        f"{words[0]} (and at 2 more places)",
    ]
