"""Small specs, one for each kind of feature and each trap: every one is planned, and its plan proved by replay.

A file says at its top what is expected besides: ``# expects: code`` for each finding that has to appear, and
``# by hand: id, id`` for features that the plan does not give as moves. ``# drawing lacks: code`` lets an error of the
drawing stage pass until that stage can do it; the plan is held to its proof all the same.
"""

from __future__ import annotations

import re

import pytest

from setupsheet.finding import Severity
from setupsheet.plan.milling.work import MAKERS
from tests.plan.planned import DEMOS, SPECS, checked, path_of, plan_of, read

EVERY = (*DEMOS, *SPECS)
"""The demo parts and the small ones."""


def _said(name: str, word: str) -> set[str]:
    """Return what a file says about itself after a word, as a set."""
    text = path_of(name).read_text(encoding="utf-8")
    lines = re.findall(rf"^# {word}: (.+)$", text, flags=re.MULTILINE)
    return {item.strip() for line in lines for item in line.split(",")}


@pytest.mark.parametrize("name", EVERY)
def test_no_error_but_the_expected(name: str) -> None:
    """A sound part has no error; what its file expects is found."""
    expected, lacks = _said(name, "expects"), _said(name, "drawing lacks")
    errors = [f"{f.code}: {f.message}" for f in checked(name).findings if f.severity is Severity.ERROR]
    assert [text for text in errors if text.split(":")[0] not in expected | lacks] == []
    assert expected <= {finding.code for finding in checked(name).findings}


@pytest.mark.parametrize("name", EVERY)
def test_replay_proves_it(name: str) -> None:
    """The plan's own numbers cut the part; metal of work that is no moves stands only where the plan names it."""
    verdict = plan_of(name).replay
    assert verdict is not None
    assert verdict.proved, verdict.words
    assert bool(verdict.not_proved) <= bool(plan_of(name).not_proved)


@pytest.mark.parametrize("name", EVERY)
def test_hand_work_is_named(name: str) -> None:
    """A feature that is not given as moves is the one that the file says, and its step tells what to do."""
    open_steps = [step for setup in plan_of(name).setups for step in setup.steps if step.not_proved]
    assert {id_ for step in open_steps for id_ in step.features} == _said(name, "by hand")
    assert [step.title for step in open_steps if not step.words or step.region_mm is None] == []


@pytest.mark.parametrize("name", EVERY)
def test_every_feature_is_made(name: str) -> None:
    """Each feature is worked on in some setup."""
    assert [feature.id for feature in plan_of(name).features if not feature.made_in] == []


@pytest.mark.parametrize("name", EVERY)
def test_volume_comes_down_to_the_part(name: str) -> None:
    """Setups only take metal, and what is left is the finished solid (a tap drill cuts 4 % more than is drawn)."""
    plan = plan_of(name)
    volumes = [plan.setups[0].volume_before_mm3, *(setup.volume_after_mm3 for setup in plan.setups)]
    assert volumes == sorted(volumes, reverse=True)
    taken = volumes[0] - plan.solid.volume_mm3
    assert volumes[-1] == pytest.approx(plan.solid.volume_mm3, abs=0.04 * taken + 6.0)


def test_the_corpus_has_every_kind() -> None:
    """All kinds of features but marks, and both ends of every choice that the planner makes, have a spec here."""
    parts = [read(name)[0] for name in SPECS]
    kinds = {feature.kind for part in parts for feature in part.features}
    assert {*MAKERS, "hole"} - {"mark"} <= kinds
    assert {part.unit.value for part in parts} == {"mm", "inch"}
    assert {feature.face.value for part in parts for feature in part.features} >= {"top", "bottom", "front", "right"}
