"""Details: places that are too small at the scale of the drawing are shown again, larger, with their sizes there.

A ring groove shallow or narrow on paper is enlarged from a section through its centre, a fine chamfer and a narrow
open slot from the view that shows them edge on. A size that moves into a detail leaves the view that it stood in.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from setupsheet.drawing.assign import ViewWants
from setupsheet.drawing.clip import Round
from setupsheet.drawing.dimensions_rules import depth_of
from setupsheet.drawing.frames import lift, project
from setupsheet.drawing.needs import AXES, Need
from setupsheet.drawing.scales import ENLARGED, scale_words
from setupsheet.drawing.seen import Seen
from setupsheet.drawing.signs import DEPTH
from setupsheet.drawing.wanted import Callout, Span
from setupsheet.drawing.words import Words
from setupsheet.part.feature import EdgeChamfer, RingGroove, Slot
from setupsheet.part.part import Part
from setupsheet.plane import Point2

_SMALL_MM = 2.0
"""A groove or slot that is smaller than this on paper gets a detail (own choice: less than an arrowhead)."""
_FINE_MM = 1.0
"""The same for a bevel, whose callout needs no room between two edges."""
_SHOWN_MM = 3.5
"""What a detail shows is at least as large as a figure is high."""
_TIMES = 4.0
"""A detail that is less than this much larger than its view tells nothing new."""
_LEAST_RADIUS_MM = 3.0
_MOST_RADIUS_MM = 30.0
"""The circle round the place, on the paper of the view, and the rim of the detail."""
_LETTERS = "ZYXWVU"
"""From the end of the alphabet, so that sections and views keep theirs."""


@dataclass(frozen=True, slots=True)
class Detail:
    """A place of a view, in the view's millimetres, and how it is shown again."""

    parent: str
    letter: str
    window: Round
    scale: float
    wants: ViewWants

    def seen(self, view: Seen) -> Seen:
        """Return the detail as a view of its own."""
        (x, y), r = self.window
        box = ((x - r, y - r), (x + r, y + r))
        words = scale_words(self.scale)
        return replace(
            view, name=f"detail {self.letter}", box=box, letter=self.letter, scale_words=words, window=self.window
        )


@dataclass(frozen=True, slots=True)
class _Small:
    """Something too small: where, how large, the sizes that its detail gives, and the views' sizes without them."""

    view: str
    at: Point2
    extent: float
    least: float
    wants: ViewWants
    rest: dict[str, ViewWants]


def details_of(
    part: Part, words: Words, seen: Sequence[Seen], taken: Mapping[str, ViewWants], scale: float
) -> tuple[tuple[Detail, ...], dict[str, ViewWants]]:
    """Return the details at a scale, and the sizes that are left for the views."""
    letters = iter(letter for letter in _LETTERS if letter not in {datum.letter for datum in part.datums})
    found: list[Detail] = []
    rest = dict(taken)
    for feature in part.features:
        small = _small(feature, words, seen, rest, scale)
        window = (small.at, max(0.9 * small.extent, _LEAST_RADIUS_MM / scale)) if small else None
        larger = _larger(small.least, window[1], scale) if small and window else None
        if small is None or window is None or larger is None or _touches(window, small.view, found):
            continue
        letter = next(letters, None)
        if letter is None:
            break
        found.append(Detail(small.view, letter, window, larger, small.wants))
        rest |= small.rest
    return tuple(found), rest


def _larger(least: float, radius: float, scale: float) -> float | None:
    """Return the first scale of ISO 5455 at which the smallest thing reads and the rim stays small."""
    fit = (k for k in ENLARGED if k >= _TIMES * scale and least * k >= _SHOWN_MM)
    larger = next(fit, None)
    return larger if larger is not None and radius * larger <= _MOST_RADIUS_MM else None


def _touches(window: Round, view: str, found: Sequence[Detail]) -> bool:
    (x, y), radius = window
    mine = (d.window for d in found if d.parent == view)
    return any(math.dist((x, y), centre) < radius + other for centre, other in mine)


def _small(
    feature: object, words: Words, seen: Sequence[Seen], taken: dict[str, ViewWants], scale: float
) -> _Small | None:
    match feature:
        case RingGroove():
            return _groove(feature, words, seen, taken, scale)
        case EdgeChamfer():
            return _chamfer(feature, taken, scale)
        case Slot():
            return _slot(feature, taken, scale)
    return None


def _groove(
    groove: RingGroove, words: Words, seen: Sequence[Seen], taken: dict[str, ViewWants], scale: float
) -> _Small | None:
    """Return a groove that is too small, in the section that runs through its centre."""
    wide = (groove.outer.nominal_mm - groove.inner.nominal_mm) / 2
    deep = abs(groove.mouth_mm - groove.floor.nominal_mm)
    if min(wide, deep) * scale >= _SMALL_MM or groove.face.axis != 2:
        return None
    ways = ((view, sign) for view in seen if view.cut for sign in (1, -1) if _runs_through(view, groove, sign))
    view, sign = next(ways, (None, 0))
    home = next((n for n, w in taken.items() if any(_is_of(c, groove.id, AXES[2]) for c in w.callouts)), None)
    if view is None or view.cut is None or home is None:
        return None
    middle, along = list(groove.centre), view.cut.along
    middle[along] += sign * (groove.inner.nominal_mm / 2 + wide / 2)
    at = project(lift((middle[0], middle[1]), groove.face, (groove.mouth_mm + groove.floor.nominal_mm) / 2), view.frame)
    extent = math.hypot(wide, deep)
    size = depth_of(groove)
    needs = (Need(groove.id, "depth", size.nominal_mm), Need(groove.id, AXES[2], groove.floor.nominal_mm))
    right = 1 if sign * (view.frame.u_sign) > 0 else -1
    mouth = project(lift(groove.centre, groove.face, groove.mouth_mm), view.frame)[1]
    floor = project(lift(groove.centre, groove.face, groove.floor.nominal_mm), view.frame)[1]
    reach = math.sqrt(max(0.0, max(0.9 * extent, _LEAST_RADIUS_MM / scale) ** 2 - (mouth - at[1]) ** 2))
    a, b = (at[0] + right * reach, mouth), (at[0] + right * wide / 2, floor)
    span = Span(view.frame.face, 2, a, b, words.size(size), needs)
    callouts = [_without_depth(c) if _is_of(c, groove.id, AXES[2]) else c for c in taken[home].callouts]
    rest = {home: replace(taken[home], callouts=callouts)}
    return _Small(view.name, at, extent, min(wide, deep), ViewWants(spans=[span]), rest)


def _runs_through(view: Seen, groove: RingGroove, sign: int) -> bool:
    """Tell whether a section cuts a groove square on one side of its centre."""
    cut = view.cut
    if cut is None:
        return False
    place, at = groove.centre[cut.along], groove.centre[cut.across]
    radii = (groove.inner.nominal_mm / 2 - 1.0, groove.outer.nominal_mm / 2 + 1.0)
    return all(abs(cut.at(place + sign * r) - at) < 1e-6 for r in radii)


def _is_of(callout: Callout, feature: str, what: str) -> bool:
    """Tell whether a callout gives this size of this feature, and of no other."""
    mine = any(need.feature == feature and need.what == what for need in callout.needs)
    return mine and all(need.feature == feature for need in callout.needs)


def _without_depth(callout: Callout) -> Callout:
    """Return a groove's callout without the depth that its detail gives."""
    lines = tuple(line.split(DEPTH)[0].rstrip() for line in callout.lines)
    return replace(callout, lines=lines, needs=tuple(n for n in callout.needs if n.what != AXES[2]))


def _chamfer(chamfer: EdgeChamfer, taken: dict[str, ViewWants], scale: float) -> _Small | None:
    """Return a fine bevel in the view that its callout stands in."""
    leg = chamfer.size.nominal_mm
    if leg * scale >= _FINE_MM:
        return None
    for name, wants in taken.items():
        for callout in wants.callouts:
            if _is_of(callout, chamfer.id, "chamfer"):
                target = callout.targets[-1]
                rest = {name: replace(wants, callouts=[c for c in wants.callouts if c is not callout])}
                moved = ViewWants(callouts=[replace(callout, targets=(target,))])
                return _Small(name, target.at, 2 * leg, leg, moved, rest)
    return None


def _slot(slot: Slot, taken: dict[str, ViewWants], scale: float) -> _Small | None:
    """Return a slot, open at both ends, that is too narrow, in the view along it."""
    wide = slot.width.nominal_mm
    if wide * scale >= _SMALL_MM or slot.floor is None:
        return None
    deep = abs(slot.mouth_mm - slot.floor.nominal_mm)
    for name, wants in taken.items():
        for span in wants.spans:
            if span.needs == (Need(slot.id, "width", wide),) and span.axis != slot.face.axis:
                at = ((span.a[0] + span.b[0]) / 2, (span.a[1] + span.b[1]) / 2)
                rest = {name: replace(wants, spans=[s for s in wants.spans if s is not span])}
                return _Small(name, at, max(wide, min(deep, 1.5 * wide)), wide, ViewWants(spans=[span]), rest)
    return None
