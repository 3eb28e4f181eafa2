"""Which work in which setup: the words of ``do:`` and the rules of the trade."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.part.face import Face
from setupsheet.part.feature import CornerRadius, EdgeCut, Feature, Level, RoundBoss
from setupsheet.part.part import Part, SetupAsked
from setupsheet.part.shape import BoxShape
from setupsheet.plan.jobs import Job, allot, sides_of
from tests.parts import HERE, block, hole, size
from tests.plan.planned import asked

BELOW, ABOVE = asked(Face.BOTTOM), asked(Face.TOP)
FOUR = (Face.FRONT, Face.BACK, Face.LEFT, Face.RIGHT)
HOLE = hole(Face.TOP, (8.0, 8.0), size(5.0), 20.0, 0.0, "through-hole")
BLIND = replace(hole(Face.TOP, (30.0, 8.0), size(5.0), 20.0, 12.0, "blind-hole"), through=False, depth_mm=8.0)
LOW = Level("low", HERE, Face.TOP, BoxShape((0.0, 0.0), (10.0, 30.0)), size(8.0))
HIGH = Level("high", HERE, Face.TOP, BoxShape((0.0, 0.0), (20.0, 30.0)), size(14.0))
BOSS = RoundBoss("boss", HERE, Face.TOP, (30.0, 15.0), size(10.0), size(20.0))
END = EdgeCut("end", HERE, Face.TOP, ((0.0, 0.0), (0.0, 30.0)), (-1.0, 0.0), Face.LEFT, None, size(20.0), "bore")


def _named(setup: SetupAsked, *words: str) -> SetupAsked:
    return replace(setup, do=words)


def _jobs(setups: tuple[SetupAsked, ...], *features: Feature, part: Part | None = None) -> list[list[Job]]:
    jobs, findings = allot(part or block(*features), setups)
    assert findings == []
    return jobs


def test_words_become_jobs() -> None:
    """A datum or face name, outline with exceptions, all holes, ids; neighbouring holes are one job."""
    (jobs,) = _jobs(
        (_named(ABOVE, "face top", "outline except left and front", "through-hole", "blind-hole"),), HOLE, BLIND
    )
    assert jobs == [
        Job("face", face=Face.TOP),
        Job("outline", sides=(Face.BACK, Face.RIGHT)),
        Job("holes", ids=("through-hole", "blind-hole")),
    ]


def test_all_holes_except() -> None:
    """'all holes except x' leaves one out; side holes are not reached from the top."""
    across = hole(Face.FRONT, (10.0, 10.0), size(4.0), 0.0, 30.0, "across")
    (jobs,) = _jobs((_named(ABOVE, "all holes except blind-hole"),), HOLE, BLIND, across)
    assert jobs == [Job("holes", ids=("through-hole",))]


def test_a_boss_before_the_level_about_it() -> None:
    """The corners of a boss cannot be cut while the level about it stands; after it, and beside another, they can."""
    about = Level("about", HERE, Face.TOP, None, size(14.0))
    _, findings = allot(block(BOSS, about), (_named(ABOVE, "boss", "about"),))
    assert [(finding.code, finding.feature) for finding in findings] == [("boss-before-its-level", "boss")]
    _jobs((_named(ABOVE, "about", "boss"),), BOSS, about)
    _jobs((_named(ABOVE, "boss", "low"),), BOSS, LOW)


def test_words_that_name_nothing() -> None:
    """An unknown word and a face that is not up are errors, and the rest is still done."""
    jobs, findings = allot(block(HOLE), (_named(ABOVE, "polish", "face bottom", "through-hole"),))
    assert [finding.code for finding in findings] == ["unknown-work", "face-not-up"]
    assert jobs == [[Job("holes", ids=("through-hole",))]]


def test_rules_of_the_trade() -> None:
    """Without do: face, outline, levels from the highest down, the boss after them, holes."""
    clear = replace(HOLE, id="clear", spots=BLIND.spots)
    (jobs,) = _jobs((ABOVE,), LOW, BOSS, HIGH, clear)
    assert [job.kind for job in jobs] == ["face", "outline", "feature", "feature", "feature", "holes"]
    assert [job.ids for job in jobs[2:5]] == [("high",), ("low",), ("boss",)]


def test_a_hole_on_the_edge_of_a_level_comes_before_it() -> None:
    """Its drill would start half on the floor: it is drilled from the whole face, the others after the levels."""
    clear = replace(HOLE, id="clear", spots=BLIND.spots)
    (jobs,) = _jobs((ABOVE,), LOW, HOLE, clear)
    assert [job.ids for job in jobs[2:]] == [("through-hole",), ("low",), ("clear",)]


def test_end_measured_from_a_bore_comes_last() -> None:
    """An edge cut that is measured from a bore waits for the last setup, and its side is no outline."""
    first, second = _jobs((BELOW, ABOVE), END, HOLE)
    assert [job.ids for job in first if job.kind == "feature"] == []
    assert [job.ids for job in second if job.kind == "feature"] == [("end",)]
    assert Face.LEFT not in first[1].sides


def test_corners_are_asked_for_in_both_setups() -> None:
    """A rounded corner is cut from both sides where the jaws hide a part of it; the second cuts only what is left."""
    corner = CornerRadius("corner", HERE, Face.TOP, (5.0, 5.0), size(5.0), (-1, -1), "front left")
    first, second = _jobs((BELOW, ABOVE), corner)
    assert [job.ids for job in first if job.kind == "feature"] == [("corner",)]
    assert [job.ids for job in second if job.kind == "feature"] == [("corner",)]


def test_outline_is_asked_for_in_both_setups() -> None:
    """What the jaws hide in the first is left for the second; side setups take no outline."""
    first, second, third = _jobs((BELOW, ABOVE, asked(Face.FRONT, Face.BOTTOM)))
    assert (first[1], second[1]) == (Job("outline", sides=FOUR), Job("outline", sides=FOUR))
    assert [job.kind for job in third] == []


def test_faces_as_bought_are_left_alone() -> None:
    """A face used as it comes is neither faced nor milled as a side."""
    part = block(HOLE)
    part = replace(part, stock=replace(part.stock, as_bought={Face.TOP: 0.2, Face.LEFT: 0.2}))
    (jobs,) = _jobs((ABOVE,), part=part)
    assert [job.kind for job in jobs] == ["outline", "holes"]
    assert sides_of(part, ABOVE, frozenset({"front"})) == (Face.BACK, Face.RIGHT)
