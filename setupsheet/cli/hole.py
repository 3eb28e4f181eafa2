"""``setupsheet hole``: the chain of cutters for a hole or a thread, and what comes out."""

from __future__ import annotations

from typing import Any

import click

from setupsheet.cli import bench
from setupsheet.cli.command import Command
from setupsheet.length import Unit
from setupsheet.plan.chain.look_up import hole_as_json
from setupsheet.tables.unknown import NotInTables

EXAMPLE = """
setupsheet hole "M5"
setupsheet hole "12 H7" --shop specs/shop.yaml
setupsheet hole "10-32 UNF" --material "steel 1018" --depth "3/8 in"
"""


@click.command(cls=Command, example=EXAMPLE)
@click.argument("hole")
@click.option("--shop", type=click.Path(), help="Shop file: take the cutters that it owns first.")
@click.option("--material", default="", help="Material of the part: counts for threads.")
@click.option("--depth", type=bench.length, help="Full depth of a blind hole, mm unless it says in; through if left.")
@click.option("--units", type=click.Choice(bench.UNITS), default="mm", help="What a bare number is in.")
@click.option("--json", "as_json", is_flag=True, help="For other programs.")
def command(hole: str, shop: str | None, material: str, depth: float | None, units: str, as_json: bool) -> None:
    """Show the chain of cutters for a hole and the limits that it reaches.

    HOLE is a thread (M5, 10-32 UNF, 1/4 NPT, 6BA), a fit (12 H7), a clearance hole
    ("M6 clearance medium") or a drill size (6.5, no. 7, F, 1/4 in).
    """
    if depth is not None and depth <= 0:
        raise click.BadParameter("a depth is above 0", param_hint="--depth")
    owned = bench.shop(shop) if shop else None
    group = _group(material) if material else ""
    try:
        found = hole_as_json(hole, owned, Unit(units), group, depth)
    except NotInTables as problem:
        raise bench.NotFound(hole, problem) from problem
    if as_json:
        bench.as_json(found)
    else:
        click.echo(as_text(found))


def _group(material: str) -> str:
    """Return the speed group of a material; its names are loaded only where one is asked for."""
    from setupsheet.tables import material as materials

    try:
        return materials.find(material).group
    except NotInTables as problem:
        raise bench.NotFound(material, problem) from problem


def as_text(found: dict[str, Any]) -> str:
    """Return the cutters in order, then what comes out, then what to know and where it stands."""
    steps = found["steps"]
    rows = bench.table([_step(number, step) for number, step in enumerate(steps, 1)]).splitlines()
    chain = [line for row, step in zip(rows, steps, strict=True) for line in (row, *_said(step))]
    return bench.lines(
        *chain,
        found["how_much"],
        *found["words"],
        *(_thread(found["tap"]) if found["tap"] else ()),
        bench.wrapped("source of the tap's lead", found["tap"]["lead_source"]) if found["tap"] else "",
        found["what_would"],
        bench.wrapped("source", found["source"]),
        bench.wrapped("status", found["status"]),
        *(bench.wrapped(f"source of step {number}", step["source"]) for number, step in enumerate(steps, 1)),
    )


def _step(number: int, step: dict[str, Any]) -> tuple[str, ...]:
    return str(number), step["tool"], step["operation"], "" if step["owned"] else "get"


def _said(step: dict[str, Any]) -> list[str]:
    return [f"     {words}" for words in step["words"]]


def _thread(tap: dict[str, Any]) -> list[str]:
    lines = [f"{bench.plain(tap['least_full_thread_mm'], 1)} mm full thread at least"]
    if tap["drilled_depth_mm"] is not None:
        lines.append(f"{bench.plain(tap['drilled_depth_mm'], 1)} mm to drill, full diameter")
    if tap["turns"] is not None:
        lines.append(f"{bench.plain(tap['turns'], 1)} turns of the tap, kind: {tap['kind']}")
    return lines
