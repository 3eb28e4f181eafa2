"""The measuring page: size, limits, gauge, and a blank to write in, in the order of the work."""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.papers.chart import Chart, fit_charts
from setupsheet.papers.said import NOTHING, Said, shown
from setupsheet.plan.record import Measure, Plan


@dataclass(frozen=True, slots=True)
class MeasureRow:
    """One size to measure. ``anchor`` names its blank for the browser page."""

    anchor: str
    limits: Said
    what: Said
    gauge: Said
    words: Said
    step: Said


@dataclass(frozen=True, slots=True)
class MeasureGroup:
    """Sizes that are measured in one setup; number '' for those measured on the finished part."""

    setup: Said
    rows: tuple[MeasureRow, ...]


@dataclass(frozen=True, slots=True)
class FitPicture:
    """A fit: what it belongs to, whether the cutters hold it, and its bands."""

    feature: Said
    verdict: Said
    chart: Chart


@dataclass(frozen=True, slots=True)
class MateRow:
    """A feature and its mate: room between them, kind of fit, what it is for, and sentences."""

    feature: Said
    size: Said
    mate: Said
    clearance: Said
    kind: Said
    use: Said
    words: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class MeasurePage:
    """The whole measuring page: what to measure, the fits, and what goes into or over the part."""

    groups: tuple[MeasureGroup, ...]
    fits: tuple[FitPicture, ...]
    mates: tuple[MateRow, ...] = ()
    parts: tuple[int, ...] = ()
    """The numbers of the parts of a set, each with a place for its own sizes; () for a single part."""


def measure_page(plan: Plan) -> MeasurePage:
    """Return the measuring page of a plan; sizes without a setup come last."""
    groups: list[MeasureGroup] = []
    for setup in (*range(1, len(plan.setups) + 1), 0):
        rows = [
            (index, one) for index, one in enumerate(plan.measure) if (one.after.setup if one.after else 0) == setup
        ]
        rows.sort(key=lambda row: row[1].after.step if row[1].after else 0)
        if rows:
            number = Said(str(setup), f"/setups/{setup - 1}/number") if setup else NOTHING
            groups.append(MeasureGroup(number, tuple(_row(one, index) for index, one in rows)))
    parts = tuple(range(1, plan.quantity + 1)) if plan.quantity > 1 else ()
    return MeasurePage(tuple(groups), _fits(plan), _mates(plan), parts)


def _fits(plan: Plan) -> tuple[FitPicture, ...]:
    return tuple(
        FitPicture(
            Said(band.feature, f"/fits/{i}/feature"),
            Said(band.verdict, f"/fits/{i}/verdict"),
            chart,
        )
        for i, (band, chart) in enumerate(zip(plan.fits, fit_charts(plan.fits), strict=True))
    )


def _mates(plan: Plan) -> tuple[MateRow, ...]:
    return tuple(
        MateRow(
            Said(one.feature, f"/mates/{i}/feature"),
            Said(one.size, f"/mates/{i}/size"),
            Said(one.mate, f"/mates/{i}/mate"),
            shown(one.shown, "clearance", f"/mates/{i}/shown"),
            Said(one.kind, f"/mates/{i}/kind") if one.kind else NOTHING,
            Said(one.use, f"/mates/{i}/use") if one.use else NOTHING,
            tuple(Said(words, f"/mates/{i}/words/{j}") for j, words in enumerate(one.words)),
        )
        for i, one in enumerate(plan.mates)
    )


def _row(one: Measure, index: int) -> MeasureRow:
    path = f"/measure/{index}"
    return MeasureRow(
        f"m{index + 1}",
        Said(one.shown, f"{path}/shown"),
        Said(one.what, f"{path}/what"),
        Said(one.gauge, f"{path}/gauge"),
        Said(one.words, f"{path}/words") if one.words else NOTHING,
        Said(str(one.after.step), f"{path}/after/step") if one.after else NOTHING,
    )
