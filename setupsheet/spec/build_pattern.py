"""Patterns of equal holes: bolt circle, line, grid, list, mirror; one function a kind."""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.part.face import Face
from setupsheet.part.feature import BoltCircle, Pattern, Row
from setupsheet.plane import Point2, direction
from setupsheet.spec.build_point import Points, axes, sense
from setupsheet.spec.build_shape import corner_list
from setupsheet.spec.desk import Desk
from setupsheet.spec.tree import Entry, Mapping, Node, Scalar

_DIGITS = 9
"""Decimals that places on a circle are kept to, mm: equal coordinates come out equal."""

Places = tuple[Pattern, tuple[Point2, ...]]


@dataclass(frozen=True, slots=True)
class PatternBook:
    """The patterns that a spec or an included file shares by name (``patterns:``)."""

    named: Mapping | None

    def resolve(self, desk: Desk, node: Node | None) -> Mapping | None:
        """Return the pattern's own mapping: as written, or the shared one with the keys given here added."""
        if isinstance(node, Scalar):
            return self._shared(desk, node)
        if not isinstance(node, Mapping):
            return None
        use = node.get("use")
        if not isinstance(use, Scalar):
            return node
        shared = self._shared(desk, use)
        if shared is None:
            return None
        own: dict[str, Entry] = {key: entry for key, entry in node.entries.items() if key != "use"}
        return Mapping(node.place, {**shared.entries, **own})

    def _shared(self, desk: Desk, name: Scalar) -> Mapping | None:
        found = self.named.get(name.text) if self.named else None
        if isinstance(found, Mapping):
            return found
        known = ", ".join(self.named.entries) if self.named else "none"
        desk.wrong(
            "unknown-pattern",
            f"{name.text} is no pattern",
            name.place,
            found=name.text,
            allowed=known,
            try_="write it under patterns:",
        )
        return None


def read_pattern(desk: Desk, points: Points, node: Mapping, face: Face) -> Places:
    """Return the pattern's record (None for a list) and its places in order."""
    kinds = [key for key in node.entries if key in _READERS]
    if len(kinds) != 1:
        desk.wrong(
            "pattern-not-clear",
            "a pattern is one bolt-circle, line, grid, list or mirror",
            node.place,
            found=", ".join(node.entries) or "nothing",
            allowed="{bolt-circle: 42, centre: bore, count: 6, start: 15}",
        )
        return None, ()
    return _READERS[kinds[0]](desk, points, node, face)


def _bolt_circle(desk: Desk, points: Points, node: Mapping, face: Face) -> Places:
    pcd = desk.length(node.get("bolt-circle"))
    centre = points.at(node.get("centre"), face)
    count = desk.count(node.get("count"))
    start = desk.number(node.get("start"), 0.0)
    if "start" not in node.entries:
        desk.opened("pattern/start", "0", "a bolt circle starts at +X")
    arc = desk.number(node.get("arc"), 360.0)
    skipped = tuple(desk.count(item) for item in desk.items(node.get("skip")))
    for number, item in zip(skipped, desk.items(node.get("skip")), strict=True):
        if number > count:
            desk.wrong(
                "skip-out-of-range",
                f"hole {number} of {count} cannot be skipped",
                item.place,
                found=str(number),
                allowed=f"1 to {count}",
                try_="count from the hole at start:, which is number 1",
            )
    if set(range(1, count + 1)) <= set(skipped):
        desk.wrong(
            "pattern-empty",
            "every hole of the circle is skipped",
            node.key_place("skip"),
            found=f"{len(set(skipped))} of {count} skipped",
            allowed="at least one hole that is made",
            try_="skip fewer, or leave the feature out",
        )
    circle = BoltCircle(centre, pcd.mm, count, start, arc, skipped)
    return circle, tuple(on_circle(circle, face))


def on_circle(circle: BoltCircle, face: Face) -> list[Point2]:
    """Return the places of a bolt circle, skipped ones left out.

    Over a full turn the pitch is the turn divided by the count; over an arc a hole stands at each end.
    """
    full = abs(circle.arc_deg) >= 360
    gaps = circle.count if full or circle.count == 1 else circle.count - 1
    places = []
    for index in range(circle.count):
        if index + 1 in circle.skipped:
            continue
        along, up = direction(circle.start_deg + circle.arc_deg * index / gaps)
        radius = circle.pcd_mm / 2
        across = circle.centre[0] + radius * along * sense(face)
        places.append((round(across, _DIGITS), round(circle.centre[1] + radius * up, _DIGITS)))
    return places


def _line(desk: Desk, points: Points, node: Mapping, face: Face) -> Places:
    line = desk.mapping(node.get("line"))
    start = points.at(line.get("from"), face)
    step = _floats(points, line, face)
    count = desk.count(line.get("count"))
    if step == (0.0, 0.0):
        desk.wrong(
            "no-pitch",
            "the line has no pitch",
            line.place,
            found=", ".join(line.entries),
            allowed="dx: or dy:, from hole to hole",
        )
    row = Row(start, step, count)
    return row, tuple(in_row(row))


def _floats(points: Points, node: Mapping, face: Face) -> Point2:
    first, second = points.step(node, face)
    return float(first), float(second)


def in_row(row: Row) -> list[Point2]:
    """Return the places of a line or a grid, row after row."""
    return [
        (row.start[0] + i * row.step[0] + j * row.step_2[0], row.start[1] + i * row.step[1] + j * row.step_2[1])
        for j in range(row.count_2)
        for i in range(row.count)
    ]


def _grid(desk: Desk, points: Points, node: Mapping, face: Face) -> Places:
    grid = desk.mapping(node.get("grid"))
    start = points.at(grid.get("from"), face)
    across, up = _floats(points, grid, face)
    columns, rows = desk.count(grid.get("columns")), desk.count(grid.get("rows"))
    if columns * rows > 5000:
        desk.wrong(
            "too-many-holes",
            f"{columns} x {rows} holes",
            grid.place,
            found=str(columns * rows),
            allowed="up to 5000 holes",
        )
        return None, ()
    if (columns > 1 and not across) or (rows > 1 and not up):
        first, second = axes(face)
        desk.wrong(
            "no-pitch",
            "the grid lacks a pitch",
            grid.place,
            found=", ".join(grid.entries),
            allowed=f"d{first}: and d{second}:",
        )
    row = Row(start, (across, 0.0), columns, (0.0, up), rows)
    return row, tuple(in_row(row))


def _list(desk: Desk, points: Points, node: Mapping, face: Face) -> Places:
    return None, corner_list(desk, points, node.get("list"), face)


def _mirror(desk: Desk, points: Points, node: Mapping, face: Face) -> Places:
    """Places and their mirror images about a line square to one axis: ``{mirror: [...], about: {x: 40}}``."""
    places = corner_list(desk, points, node.get("mirror"), face)
    about = desk.mapping(node.get("about"))
    names = axes(face)
    if len(about.entries) != 1 or next(iter(about.entries)) not in names:
        desk.wrong(
            "mirror-line",
            "a mirror line is square to one axis",
            node.key_place("about"),
            found=", ".join(about.entries) or "nothing",
            allowed=f"about: {{{names[0]}: 40}} or about: {{{names[1]}: 30}}",
        )
        return None, places
    axis = names.index(next(iter(about.entries)))
    line = desk.mm(about.get(names[axis]))
    images = tuple((2 * line - p[0], p[1]) if axis == 0 else (p[0], 2 * line - p[1]) for p in places)
    return None, places + tuple(image for image in images if image not in places)


_READERS = {"bolt-circle": _bolt_circle, "line": _line, "grid": _grid, "list": _list, "mirror": _mirror}

KINDS = tuple(_READERS)
"""The kinds of patterns."""
