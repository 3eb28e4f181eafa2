"""Sizes that a table gives: drills, tapped holes, clearance holes."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from setupsheet.length import Length, Unit
from setupsheet.part.feature import Size, Thread
from setupsheet.spec.desk import Desk
from setupsheet.spec.size_text import split
from setupsheet.spec.sizes import NOTHING, size_of
from setupsheet.spec.tree import Scalar
from setupsheet.tables import callout, clearance, drills, threads
from setupsheet.tables.unknown import NotInTables

_SAME_MM = 1e-4


@dataclass(frozen=True, slots=True)
class Made:
    """What a hole is made to: ``making`` as in part.feature.Hole, its finished size, the callout."""

    making: str
    size: Size
    callout: str
    thread: Thread | None = None


def read_drill(desk: Desk, node: Scalar) -> Made:
    """Return a drilled hole: ``6.5``, ``no. 7``, ``F``, ``1/4``; only sizes that are sold."""
    text = node.text.strip()
    if text.startswith("="):
        return _worked_out_drill(desk, node)
    try:
        found = callout.parse(text, desk.unit)
        if found.kind == "drill":
            return Made("plain", _drill_size(desk, found.diameter_mm, text, node), text)
        if found.kind == "plain" and found.length:
            return _plain_drill(desk, found.length, node)
    except NotInTables as problem:
        if split(text).upper:
            _not_a_drill(desk, node, f"diameter: {text}")
        else:
            desk.not_in_tables(problem, node)
        return Made("plain", NOTHING, text)
    right = {"thread": "tap", "fit": "fit", "clearance": "clearance"}[found.kind]
    _not_a_drill(desk, node, f"{right}: {text}")
    return Made("plain", NOTHING, text)


def _not_a_drill(desk: Desk, node: Scalar, instead: str) -> None:
    text = node.text.strip()
    allowed = "6.5, no. 7, F, 1/4"
    desk.wrong("not-a-drill", f"{text} is not a drill", node.place, found=text, allowed=allowed, try_=instead)


def _worked_out_drill(desk: Desk, node: Scalar) -> Made:
    length = desk.length(node)
    return _plain_drill(desk, length, node) if not desk.broken else Made("plain", NOTHING, node.text)


def _plain_drill(desk: Desk, length: Length, node: Scalar) -> Made:
    """Return a drill written as a plain size; it has to be one that is sold."""
    for size in drills.sizes():
        if abs(size.diameter_mm - length.mm) < _SAME_MM:
            return Made("plain", _drill_size(desk, size.diameter_mm, length.text(), node), length.text())
    series = "metric" if length.unit is Unit.MM else "fraction"
    near = drills.nearest(length.mm, series)[1]
    desk.wrong(
        "not-in-tables",
        f"no drill of {_with_unit(length)} is sold",
        node.place,
        found=node.text,
        allowed=f"nearest: {near}",
        try_=f"drill: {near}, or diameter: {node.text} for a hole that is bored or milled",
    )
    return Made("plain", NOTHING, node.text)


def _with_unit(length: Length) -> str:
    """Return a length as written, with its unit behind it if the writer gave none."""
    text = length.text()
    return text if text[-1:].isalpha() or text.endswith('"') else f"{text} {length.unit.short}"


def _drill_size(desk: Desk, diameter_mm: float, written: str, node: Scalar) -> Size:
    """Return a drilled size with its general tolerance; by places, a number or letter counts as three."""
    given = desk.general
    if given is None or given.standard != "by places":
        general = size_of(desk, f"{diameter_mm!r} mm", node)
        return Size(diameter_mm, general.lower_mm, general.upper_mm, written, "general", "", general.source)
    inch = f"{float(Fraction(str(diameter_mm)) / Unit.INCH.mm):.3f}"
    places = -1 if "/" in written else 3 if 3 in given.by_places_mm else max(given.by_places_mm, default=3)
    row = given.by_places_mm.get(places)
    if row is None:
        return size_of(desk, f"{inch} in", node)
    if places != -1:
        desk.opened("drill/tolerance", f"{places} places", "a drill's size has no places of its own")
    return Size(
        diameter_mm, round(diameter_mm - row, 4), round(diameter_mm + row, 4), written, "general", "", given.written
    )


def read_tap(desk: Desk, node: Scalar) -> Made:
    """Return a tapped hole; its size is the minor diameter."""
    try:
        thread = threads.find(node.text)
        lower, upper = threads.minor_limits_mm(thread)
    except NotInTables as problem:
        desk.not_in_tables(problem, node)
        return Made("tap", NOTHING, node.text)
    size = Size(thread.minor_basic_mm, lower, upper, node.text, "thread", thread.tolerance_class, thread.source)
    return Made("tap", size, node.text, thread)


def read_clearance(desk: Desk, node: Scalar) -> Made:
    """Return a clearance hole for a screw: ``M4 medium``, ``no. 10 close``."""
    words = node.text.split()
    named = len(words) > 1 and words[-1].lower() in clearance.ROOM
    if not named:
        usual = "medium" if desk.unit is Unit.MM else "normal"
        desk.opened("clearance", usual, "the usual room for a screw")
        words = [*words, usual]
    try:
        found = callout.parse(" ".join(words), desk.unit)
        if found.kind != "clearance" or found.lower_mm is None or found.upper_mm is None:
            raise NotInTables(f"{node.text!r} names no screw", node.text, examples="M4 medium, no. 10 normal")
    except NotInTables as problem:
        desk.not_in_tables(problem, node)
        return Made("clearance", NOTHING, node.text)
    size = Size(found.diameter_mm, found.lower_mm, found.upper_mm, node.text, "clearance", "", found.source)
    return Made("clearance", size, node.text)
