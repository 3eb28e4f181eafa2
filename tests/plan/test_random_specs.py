"""Random sound specs: each is planned and proved, or refused with findings that name what is wrong and where."""

from __future__ import annotations

import hashlib
import json
import os
import re
import subprocess
import sys
from collections import Counter

import pytest

from setupsheet.plan.record import Setup, as_json
from tests.plan.planned import PROJECT, parse_shown
from tests.plan.random_outcome import outcome
from tests.plan.random_specs import SHOPS, random_spec, shop_of

SEEDS = range(10, 40)
"""So many as a minute of one processor plans and proves; tests/benchmarks/bench_random.py goes on from there."""
_LEAST_PROVED = 29
"""Of thirty. Others are refused rightly: a bore that comes out on the parallels that the shop has, for example."""
_AGAIN = 18
_LINE = """
import hashlib, json
from setupsheet.plan.record import as_json
from tests.plan.random_outcome import outcome
text = json.dumps(as_json(outcome({seed}).planned.plan))
print(hashlib.sha256(text.encode("utf-8")).hexdigest())
"""


@pytest.mark.parametrize("seed", SEEDS)
def test_proved_or_refused_with_reasons(seed: int) -> None:
    """A plan without errors is proved; each error names a feature or a setup, and says what to try."""
    made = outcome(seed)
    verdict = made.planned.plan.replay
    assert verdict is not None
    assert verdict.proved == (not [f for f in made.errors if f.code.startswith("replay-")])
    assert bool(verdict.not_proved) <= bool(made.planned.plan.not_proved)
    for fault in made.errors:
        assert fault.message
        assert fault.try_
        assert fault.feature or re.search(r"setup (\d|')", fault.message), fault.message


def _texts(setup: Setup) -> tuple[int, list[str]]:
    """Return how many positions are printed as numbers, and those whose text is another number."""
    wrong, seen = [], 0
    for step in setup.steps:
        for place in step.positions:
            for axis in ("x", "y"):
                text = place.shown.get(axis, "")
                if not re.fullmatch(r"[-+]?\d*\.?\d+|-?\d+ \+ \d*\.\d+", text):
                    continue
                seen += 1
                shown = parse_shown(text, setup.readout[axis], setup.counts[axis])
                if abs(shown - getattr(place, axis)) > 1e-6:
                    wrong.append(f"{setup.number}.{step.number} {place.label} {axis}: {text}")
    return seen, wrong


def test_every_position_text_is_its_number() -> None:
    """A reader of the sheet sets what the replay cuts, in every part; hundreds of texts are read back."""
    read = [_texts(setup) for seed in SEEDS for setup in outcome(seed).planned.plan.setups]
    assert [text for _, wrong in read for text in wrong] == []
    assert sum(seen for seen, _ in read) > 300


def test_same_bytes_in_another_process() -> None:
    """The same text gives the same plan, byte by byte, whatever was planned before and however sets are ordered."""
    env = {**os.environ, "PYTHONPATH": str(PROJECT), "PYTHONHASHSEED": "4711"}
    command = [sys.executable, "-c", _LINE.format(seed=_AGAIN)]
    alone = subprocess.run(command, env=env, cwd=PROJECT, capture_output=True, text=True, check=True)
    for seed in (*SEEDS[:3], _AGAIN):
        outcome(seed)
    here = json.dumps(as_json(outcome(_AGAIN).planned.plan))
    assert alone.stdout.strip() == hashlib.sha256(here.encode("utf-8")).hexdigest()


def test_nearly_all_are_proved() -> None:
    """All but very few of the specs come out without an error and without work that nothing proves."""
    refused = {seed: [f.code for f in outcome(seed).errors] for seed in SEEDS if not outcome(seed).proved}
    assert len(SEEDS) - len(refused) >= _LEAST_PROVED, refused


def test_every_kind_stands_in_three_of_them() -> None:
    """The texts hold each kind of feature, each way of making a hole, each shop and unit three times at least."""
    words = ("drill:", "tap:", "fit:", "clearance:", "diameter: 20", "countersink:", "counterbore:", "bolt-circle:")
    kinds = ("pocket", "slot", "ring groove", "level", "round boss", "edge cut", "corner radius", "edge chamfer")
    asked = (*words, "grid:", *(f"kind: {kind}" for kind in kinds), "from: front", "from: bottom", "setups:")
    counts = Counter(word for seed in SEEDS for word in asked if word in random_spec(seed))
    assert {word: counts[word] for word in asked if counts[word] < 3} == {}
    shops = Counter(shop_of(seed) for seed in SEEDS)
    assert set(shops) == {" ".join(pair) for pair in SHOPS}
    assert min(shops.values()) >= 3
