"""The chains of holes laid over the setups: which cutter where, in which order, as which steps."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setupsheet.finding import Severity
from setupsheet.part.feature import Hole
from setupsheet.plan.holes.holes import need_of, plan_holes, verdict_words
from setupsheet.plan.record import Step
from tests.plan.planned import checked, plan_of, read, setup_of


def _steps(name: str, number: int) -> list[Step]:
    return [step for step in setup_of(name, number).steps if step.positions]


def _order(name: str, number: int) -> list[tuple[str, str]]:
    return [(step.operation, ",".join(sorted(at.label for at in step.positions))) for step in _steps(name, number)]


def test_with_a_readout_one_cutter_serves_all_holes() -> None:
    """Spot all, then each drill on all its holes by size, taps last."""
    assert [operation for operation, _ in _order("pattern-arc-skipped", 1)] == ["spot", "drill", "drill", "tap"]
    spotted = _order("pattern-arc-skipped", 1)[0][1].split(",")
    assert len(spotted) == 5 + 6


def test_with_dials_each_hole_is_finished_first() -> None:
    """Spot and drill S1 before S2; the table moves once for each hole."""
    order = _order("inch-dials", 1)
    assert order[:4] == [("spot", "S1"), ("drill", "S1"), ("spot", "S2"), ("drill", "S2")]
    assert all("," not in label for _, label in order)


def test_a_located_hole_is_made_in_one_place() -> None:
    """Spot, pilot, drill, ream one after the other, told to keep the table locked."""
    steps = [step for step in _steps("rounded-end", 2) if "pivot" in step.features]
    assert [step.operation for step in steps][-1] == "ream"
    assert any("table locked" in word for word in steps[-1].words)
    assert len({(at.x, at.y) for step in steps for at in step.positions}) == 1


def test_far_end_is_chamfered_where_it_is_up() -> None:
    """Drilled from below in setup 1, where the spot makes that end's chamfer; the other end's in setup 2."""
    first, second = _order("hole-through-from-below", 1), _order("hole-through-from-below", 2)
    assert [operation for operation, _ in first] == ["spot", "drill"]
    assert [operation for operation, _ in second] == ["chamfer"]
    assert any("chamfer" in word for word in _steps("hole-through-from-below", 1)[0].words)


def test_countersink_at_the_far_end_waits_for_its_side() -> None:
    """Drilled from the top, countersunk when the underside is up, with no word about it in do:."""
    assert [operation for operation, _ in _order("hole-countersink-below", 1)] == ["spot", "drill"]
    assert [operation for operation, _ in _order("hole-countersink-below", 2)] == ["countersink"]


@pytest.mark.parametrize(
    ("name", "operations"),
    [
        ("hole-counterbore", ["spot", "drill", "counterbore"]),
        ("hole-spotface", ["spot", "drill", "spotface"]),
        ("hole-tapped-blind", ["spot", "drill", "tap"]),
        ("hole-blind", ["spot", "drill"]),
    ],
)
def test_chains(name: str, operations: list[str]) -> None:
    """Each kind of mouth and thread has its own chain, in the order of the trade."""
    assert [operation for operation, _ in _order(name, 1)] == operations


def test_hole_that_no_setup_reaches() -> None:
    """A setup that lists no hole leaves it out: a caution names it."""
    part, shop = read("hole-blind")
    _, findings = plan_holes(part, shop, part.setups, [set()])
    assert [finding.code for finding in findings] == ["hole-in-no-setup"]


def test_end_that_faces_up_in_no_setup_is_hand_work() -> None:
    """A chamfer at the lower end that no later setup reaches: a caution, a step that says how, not proved."""
    codes = [f.code for f in checked("hole-far-end-by-hand").findings if f.severity is Severity.CAUTION]
    assert "hole-end-in-no-setup" in codes
    (step,) = [s for s in setup_of("hole-far-end-by-hand", 1).steps if s.not_proved]
    assert (step.method, step.operation) == ("by_hand", "chamfer")
    assert step.words[0].startswith("turn the part over in the hand")


def test_what_the_picker_is_asked() -> None:
    """A through hole's depth is its length; a fit or a position makes it located."""
    part, _ = read("worm-bracket")
    bore, cover = part.feature("bearing-bore"), part.feature("cover-screws")
    assert isinstance(bore, Hole)
    assert isinstance(cover, Hole)
    assert need_of(part, bore, "exit").depth_mm == pytest.approx(13.5)
    assert (need_of(part, bore, "exit").located, need_of(part, cover, "exit").located) == (True, True)


def test_short_holes_say_who_opens_them() -> None:
    """R1-R6 and K1 stop past the flange's height; the step says that a later setup opens them."""
    step = next(s for s in _steps("worm-bracket", 1) if "cover-screws" in s.features and s.operation == "drill")
    assert any("a later setup cuts away" in word for word in step.words)
    assert "R1-R6" in step.title


def test_nothing_to_watch_where_all_is_inside() -> None:
    """Every cutter of the bracket's holes gives a size inside its limits."""
    part, shop = read("worm-bracket")
    ids = [{f.id for f in part.features if isinstance(f, Hole)}] * 2
    plans, _ = plan_holes(part, shop, part.setups, ids)
    assert [verdict_words(plan) for plan in plans.values()] == [""] * 5
    assert [words for words in plan_of("worm-bracket").watch if not words.startswith("from memory")] == []


def test_a_blind_hole_that_is_bored_is_refused() -> None:
    """26 H7 blind: no drill makes the point that it is drawn with; the same bore right through is fine."""
    part, shop = read("hole-bored-limits")
    bearing = part.feature("bearing")
    assert isinstance(bearing, Hole)
    blind = replace(bearing, through=False, chamfers=())
    found = [
        plan_holes(replace(part, features=(hole,)), shop, part.setups, [{"bearing"}])[1] for hole in (bearing, blind)
    ]
    assert [[f.code for f in row if f.severity is Severity.ERROR] for row in found] == [[], ["blind-bore"]]
