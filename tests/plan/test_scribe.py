"""Layout lines of what a level leaves."""

from __future__ import annotations

import pytest

from tests.plan.planned import setup_of


def test_box_is_pricked_at_its_corners_before_the_level() -> None:
    """The step comes before the level and after the face, takes nothing away, and stands on the face."""
    setup = setup_of("level-leave-box", 2)
    scribed = next(s for s in setup.steps if s.operation == "scribe")
    milled = next(s for s in setup.steps if s.operation == "mill" and "floor" in s.features)
    faced = next(s for s in setup.steps if s.operation == "face")
    assert faced.number < scribed.number < milled.number
    assert not scribed.removes
    assert len(scribed.positions) == 4
    assert len({p.x for p in scribed.positions}) == len({p.y for p in scribed.positions}) == 2
    assert any("2.000 outside" in words for words in scribed.words)


def test_circle_is_pricked_round() -> None:
    """16 about (25, 18): every prick 8 from the middle, and what to set the dividers to, 8 and 10."""
    scribed = next(s for s in setup_of("level-leave-circle", 2).steps if s.operation == "scribe")
    for place in scribed.positions:
        assert ((place.x - 25) ** 2 + (place.y - 18) ** 2) ** 0.5 == pytest.approx(8.0, abs=0.004)
    assert any("8.000 and 10.000" in words for words in scribed.words)


def test_a_shape_is_scribed_once() -> None:
    """Two levels that leave the same boss: one step for both, and no label twice."""
    setup = setup_of("worm-bracket", 2)
    (scribed,) = [s for s in setup.steps if s.operation == "scribe"]
    names = scribed.title.removeprefix("scribe ").split(", ")
    assert len(names) == len(set(names)) > 1
    labels = [p.label for p in scribed.positions]
    assert len(labels) == len(set(labels))
