"""Forty random sound specs: each is planned and proved, or refused with findings that say why."""

from __future__ import annotations

import functools
import json
import re
import shutil
import tempfile
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

import pytest

from setupsheet.finding import Finding, Severity, has_errors
from setupsheet.plan.make import Planned, make_plan, prove
from setupsheet.plan.record import Setup, as_json
from setupsheet.solid.solids import make_solids
from setupsheet.spec.reader import read_part
from tests.plan.planned import CORPUS, parse_shown
from tests.plan.random_specs import CELLS, SHOPS, random_spec

SEEDS = range(40)
_LEAST_PROVED = 20
"""Of forty; some are refused: jaws hide an edge cut, a wall lies between two divisions, a cut starts in metal."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of a spec: the plan, and all findings."""

    planned: Planned
    findings: tuple[Finding, ...]

    @property
    def errors(self) -> list[Finding]:
        """Return what stops the papers."""
        return [finding for finding in self.findings if finding.severity is Severity.ERROR]


def _read(seed: int, folder: Path) -> Path:
    for shop in set(SHOPS):
        shutil.copy(CORPUS / shop, folder / shop)
    path = folder / "part.yaml"
    path.write_text(random_spec(seed), encoding="utf-8")
    return path


@functools.cache
def outcome(seed: int) -> Outcome:
    """Plan and prove the spec of a seed."""
    with tempfile.TemporaryDirectory() as folder:
        part, shop, found = read_part(_read(seed, Path(folder)))
    assert part is not None, [f.message for f in found]
    assert shop is not None
    assert not has_errors(found), [f.message for f in found]
    solids, faults = make_solids(part)
    planned = prove(make_plan(part, shop, solids), solids)
    return Outcome(planned, (*found, *faults, *planned.findings))


@pytest.mark.parametrize("seed", SEEDS)
def test_proved_or_refused_with_reasons(seed: int) -> None:
    """A plan without errors is proved, metal left only as named; errors say what, where and what to try."""
    made = outcome(seed)
    verdict = made.planned.plan.replay
    assert verdict is not None
    assert verdict.proved == (not [f for f in made.errors if f.code.startswith("replay-")])
    assert bool(verdict.not_proved) <= bool(made.planned.plan.not_proved)
    for fault in made.errors:
        assert fault.message
        assert fault.try_
        assert fault.feature or "setup" in fault.message or "part x" in fault.message


def _texts(setup: Setup) -> list[str]:
    """Return the positions whose printed text is another number."""
    wrong = []
    for step in setup.steps:
        for place in step.positions:
            for axis in ("x", "y"):
                text = place.shown.get(axis, "")
                if not re.fullmatch(r"[-+]?\d*\.?\d+|-?\d+ \+ \d*\.\d+", text):
                    continue
                shown = parse_shown(text, setup.readout[axis], setup.counts[axis])
                if abs(shown - getattr(place, axis)) > 1e-6:
                    wrong.append(f"{setup.number}.{step.number} {place.label} {axis}: {text}")
    return wrong


@pytest.mark.parametrize("seed", SEEDS)
def test_every_position_text_is_its_number(seed: int) -> None:
    """A reader of the sheet sets what the replay cuts."""
    assert [text for setup in outcome(seed).planned.plan.setups for text in _texts(setup)] == []


@pytest.mark.parametrize("seed", [1, 17, 33])
def test_same_bytes_again(seed: int, tmp_path: Path) -> None:
    """The same text gives the same plan, byte by byte."""
    part, shop, _ = read_part(_read(seed, tmp_path))
    assert part is not None
    assert shop is not None
    solids, _ = make_solids(part)
    again = prove(make_plan(part, shop, solids), solids)
    assert json.dumps(as_json(again.plan)) == json.dumps(as_json(outcome(seed).planned.plan))


def test_most_are_proved() -> None:
    """Half of the specs and more come out without an error."""
    assert sum(not outcome(seed).errors for seed in SEEDS) >= _LEAST_PROVED


def test_every_kind_stands_in_three_of_them() -> None:
    """The forty texts hold each kind of feature, each way of making a hole, and each shop three times at least."""
    words = (
        "drill:",
        "tap:",
        "fit:",
        "clearance:",
        "diameter: 20",
        "countersink:",
        "counterbore:",
        "bolt-circle:",
        "grid:",
    )
    kinds = ("pocket", "slot", "ring groove", "level", "round boss", "edge cut", "corner radius", "edge chamfer")
    asked = (
        *words,
        *(f"kind: {kind}" for kind in kinds),
        "from: front",
        "from: bottom",
        "setups:",
        *(f"shop: {shop}" for shop in set(SHOPS)),
    )
    counts = Counter(word for seed in SEEDS for word in asked if word in random_spec(seed))
    assert {word: counts[word] for word in asked if counts[word] < 3} == {}
    assert len(CELLS) >= 10
