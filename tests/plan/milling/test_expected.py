"""What the part should measure before the last pass."""

from __future__ import annotations

from tests.plan.planned import plan_of, setup_of


def _words(name: str, number: int) -> list[str]:
    return [words for step in setup_of(name, number).steps for words in step.words if "should" in words]


def test_floors_say_what_stands_before_the_last_pass() -> None:
    """Flange 6 and pad 8 above the bottom: 0.1 more before the last pass; the relief is 1.5 deep, so 1.4."""
    assert "before the last pass the depth should measure 1.4" in _words("worm-bracket", 1)
    assert "before the last pass the height should measure 8.1" in _words("worm-bracket", 2)
    assert "before the last pass the height should measure 6.1" in _words("worm-bracket", 2)


def test_a_side_is_measured_over_the_finished_one() -> None:
    """54 long and the far end finished: 0.2 more before the last pass; over a raw far side nothing is measured."""
    assert "34 ±0.05 from bore: measure before the last pass, it should be 34.2 then" in _words("worm-bracket", 2)
    sides = [step for step in setup_of("drive-cover", 1).steps if "side" in step.title]
    said = [any("over" in words for words in step.words if "should" in words) for step in sides]
    assert said == [False, False, True, True]  # front and left against raw, back and right against those


def test_a_pass_that_is_no_thin_one_says_nothing() -> None:
    """A through slot has no floor to finish: no reading is asked for between its passes."""
    slots = [step for step in plan_of("motor-plate").setups[1].steps if "tension" in step.title]
    assert slots
    assert not any("should" in words for step in slots for words in step.words)
