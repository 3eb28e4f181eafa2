"""Tree of a shop file -> Shop: machines, vises, parallels, gauges; the cutters are read by ``build_cutter``."""

from __future__ import annotations

import re

from setupsheet.length import Length, Unit
from setupsheet.part.shop import AngleTools, Axis, BoringHead, Gauge, Machine, Parallel, Shop, Vise
from setupsheet.spec.build_cutter import read_cutters
from setupsheet.spec.build_rotary import rotary_table
from setupsheet.spec.desk import Desk
from setupsheet.spec.tree import Entry, Mapping, Node, Scalar, Sequence

_COUNTS = {
    "x": {"right": 1, "left": -1},
    "y": {"away": 1, "towards you": -1},
    "z": {"up": 1, "down": -1},
}
"""Axis -> which way its reading grows -> sign against X right, Y away, Z up."""

MAX_RPM = 100_000
"""More than any spindle of a shop turns: a larger number is a slip of the pen."""

FEELER_MM = {Unit.MM: 0.1, Unit.INCH: 0.0508}
"""Feeler or paper that a cutter is touched off with where the shop names none: 0.10 mm, 0.002 in (common practice)."""


def build_shop(desk: Desk, tree: Mapping, sha256: str) -> Shop:
    """Put the shop together; what could not be read is a finding on the desk."""
    finder = tree.get("edge-finder")
    feeler = tree.get("feeler")
    machines = tuple(_machine(desk, entry) for entry in _entries(desk, tree.get("machines")))
    return Shop(
        desk.text(tree.get("shop"), "shop"),
        machines,
        tuple(_vise(desk, entry) for entry in _entries(desk, tree.get("vises"))),
        tuple(_parallel(desk, desk.mapping(item)) for item in desk.items(tree.get("parallels"))),
        read_cutters(desk, tree),
        _boring_head(desk, tree.get("boring-head"), machines) if "boring-head" in tree.entries else None,
        desk.mm(finder) if finder else 0.0,
        desk.mm(feeler) if feeler else FEELER_MM[desk.unit],
        tuple(_gauge(desk, desk.mapping(item)) for item in desk.items(tree.get("gauges"))),
        sha256,
        _most_rpm(desk, desk.mapping(tree.get("drill-chuck")), machines, 0) if "drill-chuck" in tree.entries else 0,
        tuple(desk.text(item) for item in desk.items(tree.get("clamps"))),
        notes={key: desk.text(entry.value) for key, entry in desk.mapping(tree.get("notes")).entries.items()}
        if "notes" in tree.entries
        else {},
        angle=_angle_tools(desk, tree.get("angle-setting")),
        rotary_tables=tuple(rotary_table(desk, entry) for entry in _entries(desk, tree.get("rotary-tables"))),
    )


def _entries(desk: Desk, node: Node | None) -> list[Entry]:
    """Return the named things of a mapping."""
    if node is None:
        return []
    return [entry for entry in desk.mapping(node).entries.values() if isinstance(entry.value, Mapping)]


def _machine(desk: Desk, entry: Entry) -> Machine:
    desk.feature = entry.key.text
    own = desk.mapping(entry.value)
    travel = [desk.mm(item) for item in desk.items(own.get("travel"))]
    x, y, z = travel if len(travel) == 3 else (1.0, 1.0, 1.0)
    speeds, stepless = _speeds(desk, own.get("speeds"))
    axes = desk.mapping(own.get("axes"))
    machine = Machine(
        entry.key.text,
        desk.text(own.get("kind"), "mill"),
        (x, y, z),
        speeds,
        stepless,
        desk.flag(own.get("reverse")),
        desk.number(own.get("power"), 0.0),
        {name: _axis(desk, name, axes.get(name)) for name in ("x", "y", "z") if name in axes.entries},
        desk.text(own.get("head"), "keeps place") == "keeps place",
        desk.mm(own.get("quill")) if "quill" in own.entries else 0.0,
        desk.mm(own.get("feed-per-turn")) if "feed-per-turn" in own.entries else 0.0,
        desk.flag(own.get("power-feed")),
        entry.key.place,
    )
    desk.feature = ""
    return machine


_RANGE = re.compile(r"^(\d+)\s+to\s+(\d+)$")


def _speeds(desk: Desk, node: Node | None) -> tuple[tuple[int, ...], bool]:
    """Return the spindle speeds in rpm, rising, and whether every speed between can be set."""
    if isinstance(node, Sequence):
        speeds = tuple(int(_speed(desk, item)) for item in node.items)
        return tuple(sorted(set(speeds))), False
    scalar = desk.scalar(node)
    match = _RANGE.match(scalar.text.strip()) if scalar else None
    if scalar and not match:
        desk.wrong(
            "speeds",
            f"{scalar.text}: which speeds?",
            scalar.place,
            found=scalar.text,
            allowed="[100, 200, 350], or 100 to 3000",
        )
    if not match:
        return (100,), False
    low, high = sorted((int(match[1]), int(match[2])))
    return (low, high), True


def _speed(desk: Desk, node: Node) -> float:
    value = desk.number(node)
    if value <= 0 and isinstance(node, Scalar):
        desk.wrong("not-above-zero", f"a speed of {node.text}", node.place, found=node.text, allowed="more than 0 rpm")
        return 1.0
    return value


def _axis(desk: Desk, name: str, node: Node | None) -> Axis:
    """Return how an axis is read; the unit it shows is the one that its step is written in."""
    own = desk.mapping(node)
    words = _COUNTS[name]
    counts = words.get(desk.text(own.get("counts"), next(iter(words))))
    if counts is None:
        place = own.key_place("counts")
        desk.wrong(
            "counts", "which way does it count up?", place, found=desk.text(own.get("counts")), allowed=", ".join(words)
        )
    kinds = [key for key in ("readout", "dial") if key in own.entries]
    if len(kinds) != 1:
        desk.wrong(
            "axis-not-clear",
            f"{name}: read by a readout or by a dial",
            own.place,
            found=" and ".join(kinds) or "neither",
            allowed="{readout: 0.005}, or {dial: 0.100 in, division: 0.001 in}",
        )
    step = _above_zero(desk, own.get("division" if kinds == ["dial"] else "readout"))
    turn = _above_zero(desk, own.get("dial")).mm if kinds == ["dial"] else 0.0
    return Axis(kinds[0] if len(kinds) == 1 else "readout", step.mm, turn, counts or 1, step.unit.value)


def _above_zero(desk: Desk, node: Node | None) -> Length:
    length = desk.length(node)
    if length.exact_mm <= 0 and isinstance(node, Scalar):
        desk.wrong("not-above-zero", f"{node.text}: too small", node.place, found=node.text, allowed="more than 0")
        return Length(Unit.MM.mm)
    return length


def _positive(desk: Desk, own: Mapping, key: str, default: float = 0.0) -> float:
    return _above_zero(desk, own.get(key)).mm if key in own.entries else default


def _vise(desk: Desk, entry: Entry) -> Vise:
    desk.feature = entry.key.text
    own = desk.mapping(entry.value)
    vise = Vise(
        entry.key.text,
        _above_zero(desk, own.get("jaw-length")).mm,
        _above_zero(desk, own.get("jaw-height")).mm,
        _above_zero(desk, own.get("opening")).mm,
        desk.choice(own.get("fixed-jaw"), ("back", "front"), "back"),
        _positive(desk, own, "bed-height"),
        entry.key.place,
    )
    desk.feature = ""
    return vise


def _parallel(desk: Desk, own: Mapping) -> Parallel:
    return Parallel(
        _positive(desk, own, "height", 1.0), _positive(desk, own, "thickness", 1.0), _positive(desk, own, "length")
    )


def _boring_head(desk: Desk, node: Node | None, machines: tuple[Machine, ...]) -> BoringHead:
    own = desk.mapping(node)
    bar = _positive(desk, own, "bar", 1.0)
    return BoringHead(
        desk.text(own.get("name"), "boring head"),
        bar,
        _positive(desk, own, "reach"),
        _positive(desk, own, "least-bore"),
        _positive(desk, own, "greatest-bore"),
        _positive(desk, own, "greatest-boss"),
        desk.choice(own.get("dial-reads"), ("diameter", "radius"), "diameter"),
        _positive(desk, own, "division", 0.01),
        desk.text(own.get("shank"), "screwed") == "locked",
        _most_rpm(desk, own, machines, 400),
    )


def _most_rpm(desk: Desk, own: Mapping, machines: tuple[Machine, ...], default: int) -> int:
    """Return the most that a holder of cutters may turn; each machine must have a speed that it bears."""
    most = desk.count(own.get("greatest-speed"), default, MAX_RPM)
    node = own.get("greatest-speed")
    for machine in machines if node else ():
        if 1 < most < machine.speeds_rpm[0]:
            desk.wrong(
                "holder-too-slow",
                f"the slowest speed of {machine.name} is above what this holder bears",
                own.key_place("greatest-speed"),
                found=f"{most} rpm",
                allowed=f"{machine.speeds_rpm[0]} rpm or more",
            )
    return most


def _gauge(desk: Desk, own: Mapping) -> Gauge:
    kind = desk.text(own.get("kind"))
    span = [desk.length(item) for item in desk.items(own.get("range"))]
    low, high = span if len(span) == 2 else (Length(Unit.MM.mm * 0), Length(Unit.MM.mm * 0))
    label = desk.text(own.get("name")) or f"{kind} {low.text()}-{high.text()}"
    return Gauge(kind, label, low.mm, high.mm, _positive(desk, own, "reads"))


def _angle_tools(desk: Desk, node: Node | None) -> AngleTools:
    """Return what the shop sets parts to an angle with."""
    if node is None:
        return AngleTools()
    own = desk.mapping(node)
    return AngleTools(
        _positive(desk, own, "sine-bar"),
        _positive(desk, own, "bar-height"),
        desk.flag(own.get("gauge-blocks")) if "gauge-blocks" in own.entries else False,
        _positive(desk, own, "angle-plate"),
        desk.number(own.get("protractor")) if "protractor" in own.entries else 0.0,
    )
