"""The drawing's words tell another number of holes than are made.

What: a number of holes in a feature's note, or in a note of the part that says 'in all', against the places planned.
Why at the machine: a hole too few is found when the bolts go in, and one too many spoils the part.
What to do: read the drawing back as a count, and correct the pattern or the note.
Source: a story told on a model engineers' forum (workshop mistakes): hexagons asked for, an octagon drawn.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from setupsheet.part.feature import Hole
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "count-told-otherwise"

_NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_ALL = re.compile(r"\b(\d+|[a-z]+) holes (?:in all|in total|altogether)\b", re.IGNORECASE)
_OWN = re.compile(r"\b(\d+|[a-z]+) (?:holes?|places|off|threads)\b", re.IGNORECASE)


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each number of holes that is told and not made."""
    made = _made(case)
    for feature in case.part.features:
        if isinstance(feature, Hole):
            yield from _bites(case, feature.id, _told(_OWN, feature.note), len(made.get(feature.id, ())))
    for words in case.part.notes:
        yield from _bites(case, "", _told(_ALL, words), sum(len(places) for places in made.values()))


def _made(case: Case) -> dict[str, set[str]]:
    """Return the places of each hole feature at which the plan takes metal."""
    made: dict[str, set[str]] = {}
    for _, step in case.steps():
        for at in step.positions if step.removes else ():
            if isinstance(case.feature(at.feature), Hole):
                made.setdefault(at.feature, set()).add(at.label)
    return made


def _told(pattern: re.Pattern[str], words: str) -> int | None:
    """Return the one number of holes that a note tells; None where it tells none, or several."""
    found = [_number(text.lower()) for text in pattern.findall(words)]
    told = [number for number in found if number]
    return told[0] if len(told) == 1 else None


def _number(text: str) -> int:
    if text.isdecimal():
        return int(text)
    return _NUMBERS.index(text) + 1 if text in _NUMBERS else 0


def _bites(case: Case, id_: str, told: int | None, made: int) -> Iterator[Bite]:
    if told is None or told == made:
        return
    name = id_ or "the part"
    yield At(case, feature=id_).caution(
        CODE,
        f"a note tells of {told} holes in {name}, and {made} are made",
        found=f"{made}",
        allowed=f"{told}, as the note says",
        because="a hole too few is found when the bolts go in, one too many spoils the part",
        try_="count the holes on the drawing again, and correct the pattern or the note",
    )
