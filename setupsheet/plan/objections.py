"""The objections of the replay as few sentences: one fault that shows at many steps or places is said once.

A hold that is in the way makes the proof object at every step that passes there; a reader who is given each of
them does not see that there is one thing to mend.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

_AT_A_STEP = re.compile(r"(setup \d+) step (\d+): (.*)", re.DOTALL)
_NUMBER = re.compile(r"-?\d+(\.\d+)?")


def gathered(objections: Iterable[str]) -> list[str]:
    """Return the objections, one at several steps as one, and of those that differ in numbers the first."""
    steps: dict[tuple[str, str], list[str]] = {}
    told: list[str] = []
    for words in objections:
        match = _AT_A_STEP.fullmatch(words)
        if match is None:
            told.append(words)
            continue
        setup, step, fault = match.groups()
        numbers = steps.setdefault((setup, fault), [])
        if step not in numbers:
            numbers.append(step)
    alike: dict[tuple[str, tuple[str, ...], str], list[str]] = {}
    for (setup, fault), numbers in steps.items():
        alike.setdefault((setup, tuple(numbers), _NUMBER.sub("0", fault)), []).append(fault)
    return [*told, *(_sentence(setup, numbers, faults) for (setup, numbers, _), faults in alike.items())]


def _sentence(setup: str, steps: tuple[str, ...], faults: list[str]) -> str:
    more = f" (and at {len(faults) - 1} more {'place' if len(faults) == 2 else 'places'})" if len(faults) > 1 else ""
    return f"{setup} {'step' if len(steps) == 1 else 'steps'} {', '.join(steps)}: {faults[0]}{more}"
