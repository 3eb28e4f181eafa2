"""Look at the bodies of a plan: from above in each setup, and obliquely for the small pictures."""

from __future__ import annotations

from collections.abc import Iterable

from setupsheet.drawing import ink
from setupsheet.papers.views import SetupViews, Strokes, Views
from setupsheet.part.part import Part
from setupsheet.plan.make import Planned
from setupsheet.plan.record import Matrix
from setupsheet.solid import flat
from setupsheet.solid.body import Body, finished
from setupsheet.solid.outline import outlines
from setupsheet.solid.thinned import is_thinned, thinned
from setupsheet.solid.view import oblique_view

_TOWARDS_READER = (-0.55, -1.0, 0.9)
"""From where the small pictures look, in the setup frame: the reader's side, a little left, from above."""


def views(part: Part, nominal: Body, planned: Planned) -> Views:
    """Return what the pages show of the finished part and of the metal before and after each setup."""
    oblique = oblique_view(_TOWARDS_READER)
    fewer = is_thinned(part)
    made: list[SetupViews] = []
    for index, setup in enumerate(planned.plan.setups):
        before, after = planned.bodies[index : index + 2]
        raw, done = planned.pictured[index : index + 2]
        turned = _then(setup.part_to_setup, oblique)
        made.append(
            SetupViews(
                _seen(before, setup.part_to_setup),
                _seen(after, setup.part_to_setup),
                _seen(raw, turned),
                _seen(done, turned),
                fewer,
            )
        )
    return Views(_seen(finished(thinned(part)) if fewer else nominal, oblique), tuple(made))


def _seen(body: Body, view: Matrix) -> Strokes:
    return strokes(outlines(body, view, hidden=False).visible)


def strokes(flats: Iterable[flat.Flat]) -> Strokes:
    """Return the kernel's flat records as visible ink."""
    return tuple(_stroke(one) for one in flats)


def _stroke(one: flat.Flat) -> ink.Stroke:
    pen = ink.Pen.VISIBLE
    match one:
        case flat.Line():
            return ink.Line(pen, one.a, one.b)
        case flat.Circle():
            return ink.Circle(pen, one.centre, one.radius)
        case flat.Arc():
            return ink.Arc(pen, one.centre, one.radius, one.from_deg, one.to_deg)
        case flat.Ellipse():
            return ink.Ellipse(pen, one.centre, one.major, one.ratio, one.from_deg, one.to_deg)
        case flat.Polyline():
            return ink.Polyline(pen, one.points, one.closed)


def _then(first: Matrix, second: Matrix) -> Matrix:
    """Return the motion that does ``first`` and then ``second``."""
    rows = [tuple(sum(row[k] * first[k][column] for k in range(4)) for column in range(4)) for row in second]
    return tuple((row[0], row[1], row[2], row[3]) for row in rows)
