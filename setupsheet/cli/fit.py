"""``setupsheet fit``: the limits of hole and shaft and the clearance between them."""

from __future__ import annotations

from typing import Any

import click

from setupsheet.cli import bench
from setupsheet.cli.command import Command
from setupsheet.tables.bench_fit import fit_as_json
from setupsheet.tables.unknown import NotInTables

EXAMPLE = """
setupsheet fit "25 H7/g6"
setupsheet fit "1.0000 RC4" --json
"""


@click.command(cls=Command, example=EXAMPLE)
@click.argument("fit")
@click.option("--json", "as_json", is_flag=True, help="For other programs.")
def command(fit: str, as_json: bool) -> None:
    """Show the limits of a fit and the clearance that it gives.

    FIT is a size with a hole, a shaft or both (25 H7, 25 g6, 25 H7/g6: mm, ISO 286), with a word
    for what it is for (25 slide), or with an inch class (1.0000 RC4: ANSI B4.1).
    """
    try:
        found = fit_as_json(fit)
    except NotInTables as problem:
        raise bench.NotFound(fit, problem) from problem
    if as_json:
        bench.as_json(found)
    else:
        click.echo(as_text(found))


def as_text(found: dict[str, Any]) -> str:
    """Return the numbers first, then the words, then where they come from."""
    inch = "nominal_in" in found
    rows = [_side(found, name, inch) for name in ("hole", "shaft") if name in found]
    if "kind" in found:
        rows.append(_between(found, inch))
    return bench.lines(
        bench.table(rows),
        bench.wrapped("for", found.get("use", "")),
        bench.wrapped("source", found["source"]),
        bench.wrapped("status", found["status"]),
    )


def _side(found: dict[str, Any], name: str, inch: bool) -> tuple[str, ...]:
    side = found[name]
    if inch:
        low, high = side["lower_in"], side["upper_in"]
        nominal = found["nominal_in"]
        return f"{nominal + low:.4f} to {nominal + high:.4f} in", name, f"{low:+.4f} to {high:+.4f} in"
    places = 3 if all(float(side[end]).is_integer() for end in ("lower_um", "upper_um")) else 4
    sizes = f"{side['lower_mm']:.{places}f} to {side['upper_mm']:.{places}f} mm"
    return sizes, f"{name} {side['symbol']}", f"{_signed(side['lower_um'])} to {_signed(side['upper_um'])} µm"


def _signed(micrometres: float) -> str:
    return f"{micrometres:+g}" if micrometres else "0"


def _between(found: dict[str, Any], inch: bool) -> tuple[str, ...]:
    """Return the row for the clearance; an interference shows as what is too much, above 0."""
    between = found["clearance_in" if inch else "clearance_um"]
    least, most, unit = (between["min"], between["max"], "in") if inch else _mm(between["min"], between["max"])
    places = 4 if inch else 3 if float(between["min"]).is_integer() and float(between["max"]).is_integer() else 4
    kind, name = found["kind"], found["name"]
    words = f"{kind} fit" + (f", {name}" if name else "")
    if kind == "interference":
        return f"{-most + 0.0:.{places}f} to {-least:.{places}f} {unit}", "interference", words
    return f"{least:.{places}f} to {most:.{places}f} {unit}", "clearance", words


def _mm(least_um: float, most_um: float) -> tuple[float, float, str]:
    return least_um / 1000, most_um / 1000, "mm"
