"""The last resort: a size that no view shows, or has room for, is said in words among the notes.

Why not refuse: a sound part must get its papers, and a size in words can be read. Why not draw it all the same:
a value that a line runs through, or that lies on another, is read wrong. So the search tries other sheets and
scales first, then the size leaves the view, with a caution that names it. A size that no rule wants to draw
stays an error.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TypeVar

from setupsheet.drawing.assign import Sighting, ViewWants
from setupsheet.drawing.ink import Dimension
from setupsheet.drawing.needs import AXES, given
from setupsheet.drawing.profile import Profile
from setupsheet.drawing.wanted import Callout, Flag, Place, Span, Turn, Want

Key = tuple[str, str, float]
"""A size: feature, what, value."""
_W = TypeVar("_W", Sighting, Span, Callout, Turn)


def said(want: Want) -> str:
    """Return a want as a note: whose it is, what it is, and its value as it would stand in a view."""
    if isinstance(want, Flag):
        return ""
    names = ", ".join(dict.fromkeys(need.feature for need in want.needs))
    if isinstance(want, Place):
        return f"{names}: {AXES[want.axis].upper()} {want.text}"
    if isinstance(want, Callout):
        datum = (f"datum {want.datum}",) if want.datum else ()
        texture = (f"surface {want.texture}",) if want.texture else ()
        return f"{names}: {', '.join((*want.lines, *map(' '.join, want.frames), *texture, *datum))}"
    return f"{names}: {want.needs[0].what} {want.text}"


def told_sizes(told: Sequence[Want], profile: Profile) -> list[Dimension]:
    """Return what the notes give, as dimensions without strokes: the notes' own texts are drawn already."""
    return [_dimension(want, profile) for want in told if not isinstance(want, Flag)]


def _dimension(want: Want, profile: Profile) -> Dimension:
    assert not isinstance(want, Flag)
    first = want.needs[0]
    value = first.value if first.what in ("count", "note", "start") else profile.shown(first.value)
    sizes = given(want.needs)
    return Dimension("note", first.feature, first.what, value, said(want), (), (0.0, 0.0), 0.0, (), gives=sizes)


def take_out(taken: Mapping[str, ViewWants], keys: set[Key]) -> tuple[dict[str, ViewWants], list[Want]]:
    """Return the wants of the views without those that give one of the sizes, and these."""
    gone: list[Want] = []
    rest: dict[str, ViewWants] = {}
    for name, wants in taken.items():
        places, out = _parted(wants.places, keys)
        spans, more = _parted(wants.spans, keys)
        callouts, told = _parted(wants.callouts, keys)
        turns, angles = _parted(wants.turns, keys)
        rest[name] = replace(wants, places=places, spans=spans, callouts=callouts, turns=turns)
        gone += [*(sighting.place for sighting in out), *more, *told, *angles]
    return rest, gone


def _parted(wants: Sequence[_W], keys: set[Key]) -> tuple[list[_W], list[_W]]:
    """Return the wants that give none of the sizes, and those that do."""
    out = [want for want in wants if gives_one(want.place if isinstance(want, Sighting) else want, keys)]
    return [want for want in wants if want not in out], out


def gives_one(want: Want, keys: set[Key]) -> bool:
    """Tell whether a want gives one of the sizes."""
    return not isinstance(want, Flag) and not keys.isdisjoint(given(want.needs))
