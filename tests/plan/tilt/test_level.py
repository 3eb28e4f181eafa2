"""Which faces lie level at which tilt, and what is said where none does."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setupsheet.part.face import Face
from setupsheet.part.feature import EdgeChamfer
from setupsheet.part.part import Part, SetupAsked, TiltAsked
from setupsheet.plan.tilt.jobs import level_faults, level_ids
from setupsheet.plan.tilt.level import level_slopes, raised_words, turn_deg
from tests.plan.planned import read


def _part(name: str = "tilted-sine-bar") -> tuple[Part, SetupAsked]:
    part, _ = read(name)
    return part, part.setups[-1]


def _stated(asked: SetupAsked, raised: str, degrees: float) -> SetupAsked:
    return replace(asked, tilt=TiltAsked(f"raise {raised} {degrees:g}", "", raised, degrees, asked.place))


def test_the_named_edge_comes_level() -> None:
    """A face that falls 20 degrees to the right is brought level by raising the right end by 20."""
    part, asked = _part()
    turn, faults = turn_deg(part, asked)
    assert faults == []
    assert turn == pytest.approx(-20.0)
    assert [slope.feature.id for slope in level_slopes(part, asked, turn)] == ["slant"]
    assert raised_words(turn) == "raise right 20"


def test_stated_angle_does_the_same() -> None:
    """Stating the angle finds the same work; half a degree off finds none, and says what would."""
    part, asked = _part()
    assert level_ids(part, _stated(asked, "right", 20.0)) == ("slant",)
    said = level_faults(part, replace(_stated(asked, "right", 20.5), do=()))
    assert [finding.code for finding in said] == ["nothing-level-here"]
    assert "raise right 20" in said[0].allowed


def test_other_work_is_refused() -> None:
    """A hole square to the fixed jaw is no work for a setup at an angle."""
    part, asked = _part()
    said = level_faults(part, replace(asked, do=("slant", "pivot")))
    assert [(finding.code, finding.found) for finding in said] == [("not-level-here", "pivot")]


@pytest.mark.parametrize(("up", "back"), [(Face.BOTTOM, Face.BACK), (Face.TOP, Face.LEFT)])
def test_no_tilt_brings_it_up(up: Face, back: Face) -> None:
    """An edge that leans down, or that runs along the jaws, cannot be laid level: the faces that do it are named."""
    part, asked = _part()
    _, faults = turn_deg(part, replace(asked, up=up, back=back))
    assert [finding.code for finding in faults] == ["tilt-not-possible"]
    assert "up: top or right with fixed-jaw: back or front" in faults[0].allowed


def test_bevels_on_two_sides_need_a_side() -> None:
    """A chamfer on the left and on the right lies level in two ways: the spec has to say which."""
    part, asked = _part("tilted-bevel-inch")
    bevel = part.features[0]
    assert isinstance(bevel, EdgeChamfer)
    both = replace(part, features=(replace(bevel, sides=(Face.LEFT, Face.RIGHT)),))
    _, faults = turn_deg(both, asked)
    assert [finding.code for finding in faults] == ["tilt-has-two-ways"]
    assert faults[0].allowed == "raise left 45 or raise right 45"
