"""The cutters of a shop file: sets and single ones; one function a kind."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from setupsheet.length import Length, Unit
from setupsheet.part.shop import Cutter
from setupsheet.spec.desk import Desk
from setupsheet.spec.size_text import split
from setupsheet.spec.tree import Mapping, Node, Scalar
from setupsheet.tables import callout, drills, fits, threads
from setupsheet.tables.unknown import NotInTables

Reader = Callable[[Desk, Node], Cutter]

MAX_SET = 500
_EMPTY = Cutter("drill", "", 1.0)


def read_cutters(desk: Desk, tree: Mapping) -> tuple[Cutter, ...]:
    """Return every cutter of the shop, kind after kind."""
    found: list[Cutter] = []
    for item in desk.items(tree.get("drills")):
        found += _drills(desk, item)
    for key, reader in _SINGLE.items():
        for item in desk.items(tree.get(key)):
            cutter = reader(desk, item)
            if cutter is not _EMPTY:
                found.append(cutter)
    return tuple(dict.fromkeys(found))


_SET = re.compile(r"^(?P<low>.+?)\s+to\s+(?P<high>.+?)(?:\s+by\s+(?P<step>.+))?$")


def _drills(desk: Desk, node: Node) -> list[Cutter]:
    """Return the drills of one entry: ``11.7``, ``1 to 13 by 0.1``, ``no. 1 to no. 60``, ``A to Z``, or a mapping."""
    if isinstance(node, Mapping):
        cutter = _one_drill(desk, desk.scalar(node.get("size")))
        if cutter is _EMPTY:
            return []
        own = replace(
            cutter,
            material=_material(desk, node),
            flute_length_mm=_length(desk, node, "flute"),
            overall_length_mm=_length(desk, node, "length"),
            shank_diameter_mm=_length(desk, node, "shank"),
            point_angle_deg=desk.number(node.get("point"), 118.0),
        )
        return [own]
    scalar = desk.scalar(node)
    if not scalar:
        return []
    match = _SET.match(scalar.text.strip())
    if not match:
        cutter = _one_drill(desk, scalar)
        return [] if cutter is _EMPTY else [cutter]
    if match["step"]:
        return _stepped(desk, match, scalar)
    return _named_set(desk, match, scalar)


def _stepped(desk: Desk, match: re.Match[str], node: Scalar) -> list[Cutter]:
    """Return a set that runs by a step: ``1 to 13 by 0.1``, ``1/16 to 1/2 by 1/64``."""
    low, high, step = (desk.length_of(match[key], node) for key in ("low", "high", "step"))
    if step.exact_mm <= 0 or low.exact_mm <= 0 or high.exact_mm < low.exact_mm:
        desk.wrong(
            "set-not-clear",
            f"{node.text}: from the thinnest to the thickest",
            node.place,
            found=node.text,
            allowed="1 to 13 by 0.1",
        )
        return []
    count = (high.exact_mm - low.exact_mm) / step.exact_mm
    if count > MAX_SET:
        desk.wrong("set-too-large", f"{int(count)} drills", node.place, found=node.text, allowed=f"up to {MAX_SET}")
        return []
    fractional = "/" in step.written
    return [
        _by_length(low.exact_mm + index * step.exact_mm, low.unit, fractional=fractional)
        for index in range(int(count) + 1)
    ]


def _by_length(exact_mm: Fraction, unit: Unit, *, fractional: bool) -> Cutter:
    if fractional:
        inch = exact_mm / unit.mm
        whole, part = divmod(inch, 1)
        name = f"{whole}-{part}" if whole and part else str(part or whole)
    else:
        name = Length(exact_mm, "", unit).text()
    return Cutter("drill", f"drill {name}", float(exact_mm))


def _named_set(desk: Desk, match: re.Match[str], node: Scalar) -> list[Cutter]:
    """Return a set of number or letter drills: ``no. 1 to no. 60``, ``A to Z``."""
    try:
        first, last = drills.find(match["low"]), drills.find(match["high"])
    except NotInTables as problem:
        desk.not_in_tables(problem, node)
        return []
    if first.series != last.series or first.series not in ("number", "letter"):
        desk.wrong(
            "set-not-clear",
            f"{node.text}: by which step?",
            node.place,
            found=node.text,
            allowed="1 to 13 by 0.1, no. 1 to no. 60, A to Z",
        )
        return []
    low, high = sorted((first.diameter_mm, last.diameter_mm))
    sizes = (size for size in drills.sizes() if size.series == first.series and low <= size.diameter_mm <= high)
    return [Cutter("drill", f"drill {size.label}", size.diameter_mm) for size in sizes]


def _one_drill(desk: Desk, node: Scalar | None) -> Cutter:
    if node is None:
        return _EMPTY
    try:
        found = callout.parse(node.text, desk.unit)
    except NotInTables as problem:
        if "not a length" not in problem.message:
            desk.not_in_tables(problem, node)
            return _EMPTY
        found = None
    if found is None or found.kind not in ("drill", "plain"):
        desk.wrong(
            "not-a-drill", f"{node.text} is not a drill", node.place, found=node.text, allowed="11.7, no. 7, F, 1/4"
        )
        return _EMPTY
    return Cutter("drill", f"drill {node.text.strip()}", found.diameter_mm)


def _length(desk: Desk, node: Mapping, key: str) -> float:
    if key not in node.entries:
        return 0.0
    value = desk.mm(node.get(key))
    if value < 0:
        desk.wrong(
            "not-above-zero", f"{key} below 0", node.key_place(key), found=desk.text(node.get(key)), allowed="0 or more"
        )
    return value


def _diameter(desk: Desk, node: Mapping) -> Length:
    length = desk.length(node.get("diameter"))
    if length.exact_mm <= 0:
        desk.wrong(
            "not-above-zero",
            "a cutter without a diameter",
            node.key_place("diameter"),
            found=desk.text(node.get("diameter")),
            allowed="more than 0",
        )
    return length


def _material(desk: Desk, node: Mapping) -> str:
    return desk.choice(node.get("material"), ("hss", "cobalt", "carbide"), "hss")


def _end_mill(desk: Desk, node: Node) -> Cutter:
    own = desk.mapping(node)
    size = _diameter(desk, own)
    flutes = desk.count(own.get("flutes"), 4)
    return Cutter(
        "end mill",
        f"end mill {size.text()}, {flutes} flutes",
        size.mm,
        material=_material(desk, own),
        flutes=flutes,
        corner_radius_mm=_length(desk, own, "corner-radius"),
        flute_length_mm=_length(desk, own, "flute"),
        overall_length_mm=_length(desk, own, "length"),
        shank_diameter_mm=_length(desk, own, "shank") or size.mm,
    )


def _pointed(kind: str) -> Reader:
    """Return the reader of a cutter with a point angle: spot drill, countersink, centre drill."""

    def read(desk: Desk, node: Node) -> Cutter:
        own = desk.mapping(node)
        size = _diameter(desk, own)
        angle = desk.number(own.get("angle"), 90.0)
        return Cutter(
            kind,
            f"{kind} {size.text()} x {angle:g}",
            size.mm,
            material=_material(desk, own),
            flutes=desk.count(own.get("flutes"), 2),
            point_angle_deg=angle,
            tip_mm=_length(desk, own, "tip"),
            flute_length_mm=_length(desk, own, "flute"),
            overall_length_mm=_length(desk, own, "length"),
        )

    return read


def _counterbore(desk: Desk, node: Node) -> Cutter:
    own = desk.mapping(node)
    size = _diameter(desk, own)
    screw = desk.text(own.get("for"))
    label = f"counterbore {size.text()}" + (f" for {screw}" if screw else "")
    return Cutter("counterbore", label, size.mm, material=_material(desk, own), pilot_mm=_length(desk, own, "pilot"))


def _reamer(desk: Desk, node: Node) -> Cutter:
    """Return a reamer: ``12 H7``, or a mapping with its measured size."""
    own = node if isinstance(node, Mapping) else None
    scalar = desk.scalar(own.get("size") if own else node)
    if not scalar:
        return _EMPTY
    if "NPT" in scalar.text.upper():
        return _taper_reamer(desk, scalar)
    parts = split(scalar.text)
    length = desk.length_of(parts.nominal, scalar)
    if parts.fit:
        try:
            fits.limits(length.mm, parts.fit)
        except NotInTables as problem:
            desk.not_in_tables(problem, scalar)
            return _EMPTY
    measured = desk.mm(own.get("measured")) if own and "measured" in own.entries else None
    return Cutter("reamer", f"reamer {scalar.text.strip()}", length.mm, flutes=6, fit=parts.fit, measured_mm=measured)


def _taper_reamer(desk: Desk, scalar: Scalar) -> Cutter:
    """Return the reamer of a pipe thread that gets thinner: ``1/4 NPT``."""
    try:
        thread = threads.find(scalar.text)
    except NotInTables as problem:
        desk.not_in_tables(problem, scalar)
        return _EMPTY
    label = f"taper reamer {thread.designation}"
    return Cutter("taper reamer", label, thread.minor_basic_mm, flutes=6, thread=thread.designation)


def _tap(desk: Desk, node: Node) -> Cutter:
    """Return a tap: ``M5``, ``10-32 UNF``, or a mapping with its kind."""
    own = node if isinstance(node, Mapping) else None
    scalar = desk.scalar(own.get("thread") if own else node)
    if not scalar:
        return _EMPTY
    try:
        thread = threads.find(scalar.text)
    except NotInTables as problem:
        desk.not_in_tables(problem, scalar)
        return _EMPTY
    kind = desk.text(own.get("kind")) if own else ""
    label = f"tap {thread.designation}" + (f" {kind}" if kind else "")
    return Cutter("tap", label, thread.major_mm, flutes=4, thread=thread.designation, tap_kind=kind)


_SINGLE: dict[str, Reader] = {
    "spot-drills": _pointed("spot drill"),
    "centre-drills": _pointed("centre drill"),
    "countersinks": _pointed("countersink"),
    "counterbores": _counterbore,
    "end-mills": _end_mill,
    "reamers": _reamer,
    "taps": _tap,
}
