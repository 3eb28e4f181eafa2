"""Look at the bodies of a plan: from above in each setup, and obliquely for the small pictures."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from setupsheet.drawing import ink
from setupsheet.papers.views import SetupViews, Strokes, Views
from setupsheet.plan.record import Matrix, Plan
from setupsheet.solid import flat
from setupsheet.solid.body import Body
from setupsheet.solid.outline import outlines
from setupsheet.solid.view import oblique_view

_TOWARDS_READER = (-0.55, -1.0, 0.9)
"""From where the small pictures look, in the setup frame: the reader's side, a little left, from above."""


def views(plan: Plan, finished: Body, bodies: Sequence[Body]) -> Views:
    """Return what the pages show; ``bodies`` are the stock and the body after each setup, in order."""
    oblique = oblique_view(_TOWARDS_READER)
    made: list[SetupViews] = []
    for index, setup in enumerate(plan.setups):
        before, after = bodies[index], bodies[index + 1]
        turned = _then(setup.part_to_setup, oblique)
        made.append(
            SetupViews(
                _seen(before, setup.part_to_setup),
                _seen(after, setup.part_to_setup),
                _seen(before, turned),
                _seen(after, turned),
            )
        )
    return Views(_seen(finished, oblique), tuple(made))


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
