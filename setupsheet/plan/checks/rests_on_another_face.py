"""The part rests on another face than the spec says.

What: the words of ``on:`` (a face or datum, raw or not) against the face that is down, as it is at that moment.
Why at the machine: the sheet names a finished face to stand on where a raw one is, or the other way round: not
parallel.
What to do: write the face that is down, or bring that face up in an earlier setup.
Source: open vertical-mill textbook (CC BY-SA 4.0), ch. 5 (faces that later ones stand against).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case
from setupsheet.plan.places import face_of

CODE = "rests-on-another-face"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each setup that does not rest on what its spec names."""
    for held in case.clamped:
        rest = held.asked.hold.rest if held.asked.hold else None
        words = rest.under.split() if rest else []
        face = face_of(case.part, words[-1]) if words else None
        if face is None:
            continue
        down = held.laid.up.opposite
        finished = abs(held.rest_z - held.laid.along(2, case.part.box.at(down))) < 0.01
        is_ = f"{'finished' if finished else 'raw'} {down.value}"
        raw = words[0] == "raw"
        bought = down in case.part.stock.as_bought
        if face is not down or (not bought and raw == finished):
            yield _bite(At(case, held), " ".join(words), is_)


def _bite(at: At, said: str, is_: str) -> Bite:
    return at.caution(
        CODE,
        f"the part rests on its {is_} face, not on {said}",
        found=said,
        allowed=is_,
        because="what is cut is parallel to what it rests on, and to nothing else",
        try_=f"write under {is_}, or finish that face in an earlier setup",
    )
