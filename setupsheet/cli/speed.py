"""``setupsheet speed``: the spindle speed to set and the feed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from setupsheet.cli import bench
from setupsheet.cli.command import Command
from setupsheet.tables.bench_speed import SpeedAsked, speed_as_json
from setupsheet.tables.speeds import ANY_SPINDLE, HELD_IN_CHUCK, Spindle, holder_most_rpm
from setupsheet.tables.unknown import NotInTables

if TYPE_CHECKING:
    from setupsheet.part.shop import Machine, Shop

EXAMPLE = """
setupsheet speed --diameter 6 --material "aluminium 6082"
setupsheet speed --diameter "1/2 in" --material "steel 1018" --operation mill
setupsheet speed --diameter 12 --material brass --shop specs/shop.yaml
"""


@click.command(cls=Command, example=EXAMPLE)
@click.option("--diameter", required=True, type=bench.length, help="Cutter diameter; mm unless it says in.")
@click.option("--material", required=True, help="Material of the part.")
@click.option("--tool", default="hss", help="Material of the cutter: hss, carbide; hss if left.")
@click.option("--operation", default="drill", help="drill, ream, mill, bore, tap, spot, ...; drill if left.")
@click.option("--flutes", default=2, type=click.IntRange(1, 40), help="Teeth of a milling cutter; 2 if left.")
@click.option("--shop", type=click.Path(), help="Shop file: take a speed that the machine has.")
@click.option("--machine", default="", help="Which machine of the shop; the first mill if left.")
@click.option("--json", "as_json", is_flag=True, help="For other programs.")
def command(as_json: bool, shop: str | None, machine: str, **asked: Any) -> None:
    """Show the spindle speed to set and the feed to start with."""
    spindle = ANY_SPINDLE if shop is None else _spindle(shop, machine, asked["operation"])
    question = SpeedAsked(
        asked["diameter"], asked["material"], asked["operation"], asked["tool"], asked["flutes"], spindle
    )
    try:
        found = speed_as_json(question)
    except NotInTables as problem:
        raise bench.NotFound(problem.found or asked["material"], problem) from problem
    if as_json:
        bench.as_json(found)
    else:
        click.echo(as_text(found))


def as_text(found: dict[str, Any]) -> str:
    """Return the speed and the feed first, then why, then where they come from."""
    band = found["range_m_per_min"]
    ideal = f"ideal {bench.plain(found['rpm_ideal'], 0)}"
    rows = [(f"{found['rpm']} rpm", f"{found['operation']}, {found['material']}; {ideal}")]
    if found["feed_mm_per_min"] is not None:
        rows.append((f"{bench.plain(found['feed_mm_per_min'], 1)} mm/min", "feed to start with"))
    reached = bench.plain(found["cutting_speed_reached_m_per_min"], 1)
    printed = f"printed {bench.plain(band['low'], 1)} to {bench.plain(band['high'], 1)}"
    rows.append((f"{reached} m/min", f"cutting speed at that rpm; {printed}"))
    too_fast = "even the lowest speed of this machine is too fast for this cutter" if found["too_fast"] else ""
    held_back = "what holds the cutter bears no more than this" if found["held_back"] else ""
    return bench.lines(
        bench.table(rows),
        too_fast or held_back,
        found["note"],
        bench.wrapped("source", found["source"]),
        bench.wrapped("status", found["status"]),
    )


def _spindle(path: str, name: str, operation: str) -> Spindle:
    """Return the spindle of a machine of the shop, and what the holder of the cutter bears."""
    owned = bench.shop(path)
    machine = _machine(owned, name)
    most = owned.chuck_rpm if operation in HELD_IN_CHUCK else 0
    if operation == "bore":
        most = owned.boring_head.max_rpm if owned.boring_head else holder_most_rpm("boring head")
    return Spindle(machine.speeds_rpm, machine.stepless, most)


def _machine(shop: Shop, name: str) -> Machine:
    named = {one.name: one for one in shop.machines}
    if name and name not in named:
        raise click.BadParameter(f"{name} is not in the shop; there are: {', '.join(named)}", param_hint="--machine")
    mills = [one for one in shop.machines if one.kind == "mill"]
    return named[name] if name else (mills or list(shop.machines))[0]
