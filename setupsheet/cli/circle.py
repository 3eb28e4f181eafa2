"""``setupsheet circle``: where the holes of a bolt circle are."""

from __future__ import annotations

import math
from typing import Any

import click

from setupsheet.cli import bench
from setupsheet.cli.command import Command
from setupsheet.length import Unit, parse
from setupsheet.plan.circle import circle_as_json
from setupsheet.plane import Point2

EXAMPLE = """
setupsheet circle --pcd 46 --count 6 --start 30
setupsheet circle --pcd 1-1/2 --count 5 --centre 1.25,0.75 --units inch
"""


@click.command(cls=Command, example=EXAMPLE)
@click.option("--pcd", required=True, help="Pitch circle diameter.")
@click.option("--count", required=True, type=click.IntRange(1, 2000), help="How many holes, equally spaced.")
@click.option("--start", default=0.0, help="Angle of the first hole, degrees counter-clockwise from +X.")
@click.option("--centre", default="0,0", metavar="X,Y", help="Where the circle's centre is.")
@click.option("--units", type=click.Choice(bench.UNITS), default="mm", help="What a bare number is in.")
@click.option("--json", "as_json", is_flag=True, help="For other programs.")
def command(pcd: str, count: int, start: float, centre: str, units: str, as_json: bool) -> None:
    """Show the positions of equally spaced holes and the chord between neighbours."""
    unit = Unit(units)
    if not math.isfinite(start):
        raise click.BadParameter("an angle in degrees, such as 30", param_hint="--start")
    try:
        found = circle_as_json(_length(pcd, unit, "--pcd"), count, start, _point(centre, unit), unit)
    except ValueError as problem:
        raise click.UsageError(str(problem)) from problem
    if as_json:
        bench.as_json(found)
    else:
        click.echo(as_text(found))


def as_text(found: dict[str, Any]) -> str:
    """Return one line a hole, number by number, then the chord."""
    places = 3 if found["units"] == "mm" else 4
    head = ("hole", f"X {found['units']}", f"Y {found['units']}")
    holes = [(one["label"], f"{one['x']:.{places}f}", f"{one['y']:.{places}f}") for one in found["positions"]]
    widths = [max(len(row[at]) for row in (head, *holes)) for at in range(3)]
    rows = [tuple(cell.rjust(width) for cell, width in zip(row, widths, strict=True)) for row in (head, *holes)]
    chord = f"{found['chord']:.{places}f} {found['units']} between neighbours (chord)"
    return bench.table(rows) + (f"\n{chord}" if len(holes) > 1 else "")


def _length(text: str, unit: Unit, hint: str) -> float:
    try:
        return float(parse(text, unit).exact_mm / unit.mm)
    except ValueError as problem:
        raise click.BadParameter(f"{problem}; write 46, '46 mm' or 1-1/2", param_hint=hint) from problem


def _point(text: str, unit: Unit) -> Point2:
    parts = text.split(",")
    if len(parts) != 2:
        raise click.BadParameter("two numbers with a comma between, such as 12.5,-3", param_hint="--centre")
    return _length(parts[0], unit, "--centre"), _length(parts[1], unit, "--centre")
