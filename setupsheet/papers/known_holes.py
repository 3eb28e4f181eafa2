"""Labels of holes that earlier setups made, on the plan view of a later one. Paper mm."""

from __future__ import annotations

from collections.abc import Sequence

from setupsheet.drawing.ink import Circle, Pen, Stroke
from setupsheet.papers.labels import Label, Places
from setupsheet.papers.views import Paper
from setupsheet.plan.record import Plan, Setup
from setupsheet.plane import Point2, distance
from setupsheet.solid.frame import apply

_HEIGHT = 2.2
_SAME_MM = 0.02
"""A hole and a circle with middles no further apart are the same thing (readings are rounded)."""


def known_holes(plan: Plan, setup: Setup, circles: Sequence[Circle], paper: Paper, places: Places) -> list[Stroke]:
    """Return small labels at the holes seen from above in which this setup does no work; none where room is short."""
    worked = {position.label for step in setup.steps for position in step.positions}
    worked |= {setup.witness.label} if setup.witness else set()
    seen = [circle for circle in circles if circle.pen is Pen.VISIBLE]
    strokes: list[Stroke] = []
    met: list[Point2] = []
    for f, feature in enumerate(plan.features):
        for n, (label, place) in enumerate(zip(feature.labels, feature.places, strict=False)):
            x, y, _ = apply(setup.part_to_setup, place)
            at = paper.point((x, y))
            radii = [circle.radius for circle in seen if distance(circle.centre, at) < _SAME_MM * max(1.0, paper.scale)]
            if label in worked or not radii or any(distance(at, other) < _SAME_MM for other in met):
                continue
            met.append(at)
            one = Label(at, max(radii), label, _HEIGHT, f"/features/{f}/labels/{n}", bold=False)
            strokes += places.place(one, or_on_it=False)
    return strokes
