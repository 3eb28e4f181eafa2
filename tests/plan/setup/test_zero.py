"""Zero: where it is, what is touched on which side, and what the readout is set to."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setupsheet.part.face import Face
from setupsheet.part.feature import RoundBoss
from setupsheet.part.part import Part, SetupAsked
from setupsheet.plan.bench import Removed
from setupsheet.plan.record import AxisZero
from setupsheet.plan.setup.zero import default_face, find_zero, laid_for, measured_words
from setupsheet.solid.volume import Cone, EdgeLoop, LineEdge, Prism
from tests.parts import HERE, block, hole, size
from tests.plan.planned import INCH_DIAL, READOUT, asked, bench, small_shop


def _zero(part: Part, setup: SetupAsked, removed: Removed = (), tip: float = 10.0) -> tuple[list[AxisZero], list[str]]:
    zeros, findings = find_zero(bench(part, setup, removed=removed), removed, tip)
    return list(zeros), [finding.code for finding in findings]


def test_edge_finder_stands_half_its_tip_outside() -> None:
    """Raw left face 2 outside the finished one, tip 10: X -7.000, Y -7.000; forgetting it is out by 5."""
    zeros, faults = _zero(block(), asked(x="left: stock left", y="front: stock front"))
    assert [z.key_in for z in zeros[:2]] == ["X -7.000", "Y -7.000"]
    assert [z.side for z in zeros[:2]] == ["your left", "your side of it"]
    assert faults == []


def test_published_edge_finder() -> None:
    """Tip 0.200 in: the spindle is 0.100 from the edge at the kick.

    Open machine-shop tutorials (MIT), snapshot 2025-08-12, edge_finding_techniques.md, E52. On dials that begin at
    19 turns for zero, so that all are positive: 1.900 - 0.0787 (2 mm of raw) - 0.100 = 1.721.
    """
    part = block()
    clamped = bench(part, asked(x="left: stock left"), small_shop(INCH_DIAL))
    zero = find_zero(clamped, (), 5.08)[0][0]
    offset = clamped.scales["x"].offset_mm
    assert (zero.reading + 2.0) / 25.4 == pytest.approx(-0.1, abs=0.0005)
    turns, _, rest = zero.key_in.removeprefix("X ").partition(" + ")
    assert int(turns) * 2.54 + float(rest) * 25.4 - offset == pytest.approx(zero.reading)
    assert "raise the finder" in zero.words


@pytest.mark.parametrize(
    ("found", "key_in", "side"), [("stock right", "X +47.000", "your right"), ("stock left", "X -7.000", "your left")]
)
def test_side_of_the_finder(found: str, key_in: str, side: str) -> None:
    """From the right end of 40 with 2 of raw metal: 42 + 5."""
    zeros, _ = _zero(block(), asked(x=f"left: {found}"))
    assert (zeros[0].key_in, zeros[0].side) == (key_in, side)


def test_turned_over_the_right_end_is_at_the_left() -> None:
    """Underside up: zero at the part's right end, found from it; it lies at the reader's left."""
    zeros, _ = _zero(block(), asked(Face.BOTTOM, x="right: stock right"))
    assert (zeros[0].key_in, zeros[0].side) == ("X -7.000", "your left")


def test_raw_and_faced_height() -> None:
    """2 mm over the finished top and a feeler of 0.10: Z +2.100 with zero on the faced top."""
    zeros, _ = _zero(block(), asked(z="top: faced"))
    assert zeros[2].key_in == "Z +2.100"
    assert "the first cut leaves" in zeros[2].words


def test_zero_below_by_measured_thickness() -> None:
    """Zero on the bottom: first the raw top at 22 + 0.1, then the measured thickness."""
    zeros, _ = _zero(block(), asked(z="bottom: measure over bottom and top"))
    assert (zeros[2].key_in, zeros[2].method) == ("Z +22.100", "measure")
    assert "rough" in zeros[2].words
    clamped = bench(block(), asked(z="bottom: measure over bottom and top"))
    assert measured_words(clamped).endswith("set Z to t")
    above = bench(block(), asked(z="top: measure over bottom and top"))
    assert measured_words(above).endswith("set Z to t - 20.000")


def test_an_edge_that_does_not_lie_along_the_axis() -> None:
    """X cannot be found from the front face."""
    assert "zero-edge-wrong-axis" in _zero(block(), asked(x="left: stock front"))[1]


def test_a_place_that_is_none() -> None:
    """A name without a place along the axis is told, and the default face taken."""
    laid, findings = laid_for(block(), asked(x="nowhere: stock left"))
    assert [finding.code for finding in findings] == ["zero-has-no-place"]
    assert laid.zero[0] == 0.0
    assert default_face(laid, 0) is Face.LEFT


def test_indicating_needs_an_open_bore() -> None:
    """A bore that is not made yet cannot be indicated; once it is drilled it can, at its own coordinates."""
    bore = hole(Face.TOP, (12.0, 9.0), size(8.0), 20.0, 0.0, "bore")
    part, setup = block(bore), asked(x="left: indicate bore", y="bore: indicate bore")
    assert _zero(part, setup)[1] == ["indicated-hole-not-there"] * 2
    drilled = (Cone(2, (12.0, 9.0), -3.0, 23.0, 4.0, 4.0),)
    zeros, faults = _zero(part, setup, drilled)
    assert faults == []
    assert [z.key_in for z in zeros[:2]] == ["X +12.000", "Y 0.000"]


def test_a_face_is_nothing_to_indicate() -> None:
    """Only a single hole or a round boss can be gone round with an indicator."""
    assert _zero(block(), asked(x="left: indicate bottom"))[1] == ["nothing-to-indicate"]
    boss = RoundBoss("boss", HERE, Face.TOP, (20.0, 15.0), size(10.0), size(20.0))
    zeros, faults = _zero(block(boss), asked(x="boss: indicate boss"))
    assert faults == []
    assert zeros[0].words == "indicator round boss, the same all round within 0.01 mm"


def test_a_raw_lip_is_touched_before_the_finished_side() -> None:
    """The left side is finished from the bottom up to 19; a lip of raw metal, X -2 from 19 to 22, is met first."""
    corners = ((-3.0, -3.0), (0.0, -3.0), (0.0, 33.0), (-3.0, 33.0))
    outline = EdgeLoop(tuple(LineEdge(corners[i], corners[(i + 1) % 4]) for i in range(4)))
    below, all_of_it = Prism(2, outline, (), -3.0, 19.0), Prism(2, outline, (), -3.0, 23.0)
    lipped, _ = _zero(block(), asked(x="left: finished left"), (below,))
    assert (lipped[0].touch, lipped[0].key_in) == ("raw lip of the left face", "X -7.000")
    assert "the lip 2.000, and half the tip 5.000; measure first how far it stands out" in lipped[0].words
    clean, _ = _zero(block(), asked(x="left: finished left"), (all_of_it,))
    assert (clean[0].touch, clean[0].key_in) == ("finished left face", "X -5.000")


@pytest.mark.parametrize(("feeler", "step", "used"), [(0.05, 0.1, 0.1), (0.1, 0.005, 0.1), (0.08, 0.05, 0.1)])
def test_a_feeler_that_the_machine_can_show(feeler: float, step: float, used: float) -> None:
    """0.05 does not show on a step of 0.1: one of 0.1 is taken, and keyed in whole."""
    shop = replace(small_shop(replace(READOUT, step_mm=step)), feeler_mm=feeler)
    zero = find_zero(bench(block(), None, shop), (), 10.0)[0][2]
    assert zero.feeler_mm == pytest.approx(used)
    assert float(zero.key_in.split()[1]) == pytest.approx(2.0 + used)  # 2 of raw metal over the face that is zero
