"""Which view takes which want: the first that shows it, never a hidden edge.

A place goes to the first of its views in which a visible line, corner or circle lies at its coordinate;
plain views come before sections. Everything else stands in the view of its own face.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from setupsheet.drawing.seen import Seen, circles, corners_at, lines_at, shows_circle
from setupsheet.drawing.wanted import Callout, Flag, Place, Span, Turn, Want
from setupsheet.plane import distance


@dataclass(frozen=True, slots=True)
class Sighting:
    """A place as one view shows it: paper axis (0 across, 1 up), coordinate there, extent along the other."""

    place: Place
    across: int
    at: float
    extent: tuple[float, float]


@dataclass
class ViewWants:
    """All wants of one view."""

    places: list[Sighting] = field(default_factory=list)
    spans: list[Span] = field(default_factory=list)
    callouts: list[Callout] = field(default_factory=list)
    turns: list[Turn] = field(default_factory=list)
    flags: list[Flag] = field(default_factory=list)


def assign(wants: Sequence[Want], views: Sequence[Seen]) -> tuple[dict[str, ViewWants], list[Want]]:
    """Return the wants of each view by its name, and those that no view shows."""
    taken = {view.name: ViewWants() for view in views}
    homeless: list[Want] = []
    for want in wants:
        if isinstance(want, Place):
            found = _first_sighting(want, views)
            if found is None:
                homeless.append(want)
            else:
                taken[found[0]].places.append(found[1])
            continue
        view = next((v for v in views if v.frame.face is want.face and v.cut is None and not v.is_picture), None)
        if view is None:
            homeless.append(want)
        else:
            _list_for(want, taken[view.name]).append(want)
    return taken, homeless


def _list_for(want: Want, into: ViewWants) -> list[Want]:
    lists = {Span: into.spans, Callout: into.callouts, Turn: into.turns, Flag: into.flags}
    return lists[type(want)]  # type: ignore[return-value]


def _first_sighting(place: Place, views: Sequence[Seen]) -> tuple[str, Sighting] | None:
    """Return view and sighting of a place, by another thing at its coordinate if no view shows the first.

    Views that show the zero come before those where it is cut away: a dimension has two ends.
    """
    found: tuple[str, Sighting] | None = None
    for thing in (place, *place.others):
        for view in in_turn(thing, views):
            sighting = sight(replace(thing, text=place.text, needs=place.needs), view)
            if sighting is not None and shows_zero(view, sighting.across):
                return view.name, sighting
            if sighting is not None and found is None:
                found = view.name, sighting
    return found


def is_sighted(place: Place, view: Seen) -> bool:
    """Tell whether a view shows both a place and the zero that it is measured from."""
    sighting = sight(place, view)
    return sighting is not None and shows_zero(view, sighting.across)


def shows_zero(view: Seen, across: int) -> bool:
    """Tell whether a view shows anything at zero along a paper axis, from which a place could be measured."""
    return bool(corners_at(view, across, 0.0) or any(abs(c.centre[across]) < 1e-4 for c in circles(view)))


def in_turn(place: Place, views: Sequence[Seen]) -> list[Seen]:
    """Return the views that could show a place: its own in their order, then every other, sections last."""

    def rank(view: Seen) -> tuple[bool, int]:
        face = view.frame.face
        return view.cut is not None, place.faces.index(face) if face in place.faces else len(place.faces)

    fit = [v for v in views if not v.is_picture and place.axis in (v.frame.u_axis, v.frame.v_axis)]
    if not place.edge:
        fit = [v for v in fit if v.frame.face in place.faces and v.cut is None]
    return sorted(fit, key=rank)


def sight(place: Place, view: Seen) -> Sighting | None:
    """Return how a view shows a place, None if it does not."""
    across = 0 if view.frame.u_axis == place.axis else 1
    sign = view.frame.u_sign if across == 0 else view.frame.v_sign
    at = place.value * sign
    if place.centre is not None and not place.edge:
        middle = place.centre[1 - across]
        if place.ring and not shows_circle(view, place.centre):
            return _ring_centre(place, view, across, at)
        if not shows_circle(view, place.centre) and place.radius:
            return _slot_axis(place, view, across, at)
        return Sighting(place, across, at, (middle - place.radius, middle + place.radius))
    extents = lines_at(view, across, at)
    if extents:
        return Sighting(place, across, at, (min(e[0] for e in extents), max(e[1] for e in extents)))
    ends = corners_at(view, across, at)
    return Sighting(place, across, at, (min(ends), max(ends))) if ends else None


def _ring_centre(place: Place, view: Seen, across: int, at: float) -> Sighting | None:
    """Return the sighting of a pitch circle's bare centre, where a hole of the circle can be seen."""
    if place.centre is None or not any(
        abs(distance(c.centre, place.centre) - place.radius) < 1e-3 for c in circles(view)
    ):
        return None
    return Sighting(place, across, at, (place.centre[1 - across], place.centre[1 - across]))


def _slot_axis(place: Place, view: Seen, across: int, at: float) -> Sighting | None:
    """Return the sighting of an axis that no circle shows (an open slot): flanks on both sides of it."""
    low, high = lines_at(view, across, at - place.radius), lines_at(view, across, at + place.radius)
    if not low or not high:
        return None
    every = low + high
    return Sighting(place, across, at, (min(e[0] for e in every), max(e[1] for e in every)))
