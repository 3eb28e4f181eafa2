"""Holes: what they are made to, how deep, and what stands at their mouths."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from setupsheet.finding import Place
from setupsheet.length import Unit, default_places, plain
from setupsheet.part.face import Face
from setupsheet.part.feature import Hole, Pattern, Position, Size, Spot
from setupsheet.plane import Point2
from setupsheet.spec.build_geometry import OF_AXES, read_geometry
from setupsheet.spec.build_mouth import read_chamfers, read_counterbore, read_countersink
from setupsheet.spec.build_pattern import PatternBook, read_pattern
from setupsheet.spec.build_point import Points
from setupsheet.spec.callout_size import Made, read_clearance, read_drill, read_tap
from setupsheet.spec.desk import Desk
from setupsheet.spec.label import Labels
from setupsheet.spec.size_text import split
from setupsheet.spec.sizes import NOTHING, fit_size, inward, size_of
from setupsheet.spec.tree import Mapping, Node, Scalar
from setupsheet.tables import inch_fits, mating, tapping
from setupsheet.tables.unknown import NotInTables


@dataclass(frozen=True, slots=True)
class HoleTools:
    """What a hole is read with: points, shared patterns and labels of the part."""

    points: Points
    patterns: PatternBook
    labels: Labels


def build_hole(desk: Desk, tools: HoleTools, node: Mapping, place: Place, face: Face) -> Hole:
    """Return the hole; mouths and exits are put in by ``heights`` once all features are known."""
    made = _made(desk, node)
    pattern, places = _places(desk, tools, node, face)
    through, depth = _depth(desk, node)
    labels = tools.labels.give(desk.feature, node.get("label"), len(places), place)
    drill_depth = node.get("drill-depth")
    if drill_depth and (through or not made.thread):
        desk.wrong(
            "drill-depth",
            "drill-depth is for a blind thread",
            node.key_place("drill-depth"),
            found=desk.text(drill_depth),
            allowed="only beside tap: and depth:",
        )
    return Hole(
        desk.feature,
        place,
        face,
        made.making,
        made.size,
        made.callout,
        tuple(Spot(label, at, 0.0, 0.0) for label, at in zip(labels, places, strict=True)),
        pattern,
        through,
        depth,
        desk.mm(drill_depth) if drill_depth else _room_for_the_tap(desk, made, depth),
        made.thread,
        read_counterbore(desk, node),
        read_countersink(desk, node, face),
        read_chamfers(desk, node, face, made.size),
        _position(desk, node.get("position")),
        desk.text(node.get("finish")),
        desk.text(node.get("note")),
        desk.text(node.get("mate")),
        read_geometry(desk, node.get("geometry"), OF_AXES),
    )


def _room_for_the_tap(desk: Desk, made: Made, depth_mm: float | None) -> float | None:
    """Return how deep to drill under a blind thread where the author does not say: a second tap's lead more."""
    if made.thread is None or depth_mm is None:
        return None
    deep = depth_mm + tapping.lead_mm(made.thread, "second")
    shown = plain(deep / float(desk.unit.mm), default_places(desk.unit))
    desk.opened("drill-depth", shown, "the lead of a second tap under the full thread")
    return deep


_MAKINGS = ("drill", "fit", "diameter", "tap", "clearance")


def _made(desk: Desk, node: Mapping) -> Made:
    """Return what the hole is made to: exactly one of drill, fit, diameter, tap, clearance."""
    keys = sorted((key for key in _MAKINGS if key in node.entries), key=node.key_place)
    if len(keys) != 1:
        say = desk.wrong if keys else desk.missing
        say(
            "hole-not-clear",
            "a hole is made to one of " + ", ".join(_MAKINGS),
            node.key_place(keys[-1]) if keys else node.place,
            found=" and ".join(keys) or "none of them",
            allowed="one of them",
            try_="keep one" if keys else "drill: 6.5, or fit: 12 H7, or tap: M5",
        )
        return Made("plain", NOTHING, "")
    scalar = desk.scalar(node.get(keys[0]))
    if not scalar:
        return Made("plain", NOTHING, "")
    return _READERS[keys[0]](desk, scalar)


def _fit(desk: Desk, node: Scalar) -> Made:
    """Return a hole made to ``12 H7``, to a word for what it is for (``12 press``), or to ``1.0000 RC4``."""
    if inch_fits.looks_like_inch_fit(node.text):
        return _inch_fit(desk, node)
    nominal, _, word = node.text.strip().rpartition(" ")
    if word.lower() in mating.intent_words():
        return _by_intent(desk, nominal, word, node)
    parts = split(node.text)
    if not parts.fit:
        desk.wrong(
            "not-a-fit",
            f"{node.text} is not a fit",
            node.place,
            found=node.text,
            allowed="12 H7",
            try_="for limits write diameter: 12 +0.02/-0",
        )
        return Made("fit", NOTHING, node.text)
    if parts.fit[0].islower():
        shaft, hole = parts.fit, parts.fit.capitalize()
        desk.wrong(
            "shaft-fit-on-hole",
            f"{shaft} is for a shaft; a hole takes a capital letter",
            node.place,
            found=shaft,
            allowed="H7, G7, P7 ...",
            try_=f"write {parts.nominal} {hole}",
        )
        return Made("fit", NOTHING, node.text)
    return Made("fit", fit_size(desk, desk.length_of(parts.nominal, node), parts.fit, node.text, node), node.text)


def _by_intent(desk: Desk, nominal: str, word: str, node: Scalar) -> Made:
    """Return the hole of the preferred fit that a word stands for; what it came to is recorded."""
    meant = mating.intent(word)
    written = f"{nominal} {meant.hole}"
    desk.opened("fit", f"{written}/{meant.shaft}", f"{word}: {meant.meaning}")
    return Made("fit", fit_size(desk, desk.length_of(nominal, node), meant.hole, written, node), written)


def _inch_fit(desk: Desk, node: Scalar) -> Made:
    """Return a hole made to a class of inch fits; its limits are turned into mm rounded inward."""
    try:
        found = inch_fits.inch_fit(node.text)
    except NotInTables as problem:
        desk.not_in_tables(problem, node)
        return Made("fit", NOTHING, node.text)
    nominal, lower, upper = (
        Fraction(str(round(value, 6))) * Unit.INCH.mm
        for value in (found.nominal_in, found.hole_lower_in, found.hole_upper_in)
    )
    limits = inward(nominal + lower, nominal + upper, Unit.INCH)
    return Made("fit", Size(float(nominal), *limits, node.text, "fit", found.fit_class, found.source), node.text)


def _diameter(desk: Desk, node: Scalar) -> Made:
    parts = split(node.text)
    if parts.fit:
        desk.wrong(
            "fit-as-diameter",
            f"{node.text} is a fit",
            node.place,
            found=node.text,
            allowed="fit: for fits",
            try_=f"fit: {node.text}",
        )
        return Made("fit", NOTHING, node.text)
    size = size_of(desk, node.text, node)
    return Made("fit" if parts.upper else "plain", size, node.text)


_READERS = {"drill": read_drill, "fit": _fit, "diameter": _diameter, "tap": read_tap, "clearance": read_clearance}


def _places(desk: Desk, tools: HoleTools, node: Mapping, face: Face) -> tuple[Pattern, tuple[Point2, ...]]:
    written = [key for key in ("at", "pattern") if key in node.entries]
    if len(written) != 1:
        say = desk.wrong if written else desk.missing
        say(
            "place-not-clear",
            "a hole stands at one place or in one pattern",
            node.place,
            found=" and ".join(written) or "neither at: nor pattern:",
            allowed="at: or pattern:",
        )
        return None, ()
    if written == ["at"]:
        return None, (tools.points.at(node.get("at"), face),)
    pattern = tools.patterns.resolve(desk, node.get("pattern"))
    if pattern is None:
        desk.broken = True
        return None, ()
    return read_pattern(desk, tools.points, pattern, face)


def _depth(desk: Desk, node: Mapping) -> tuple[bool, float | None]:
    written, depth = node.get("through"), node.get("depth")
    through = desk.flag(written)
    unclear = isinstance(written, Scalar) and written.text not in ("true", "false")
    if through == bool(depth) and not unclear:
        say = desk.wrong if through else desk.missing
        say(
            "depth-not-clear",
            "a hole goes through, or it has a depth",
            node.key_place("depth"),
            found="through and depth" if through else "neither",
            allowed="through: true, or depth: 12",
        )
    return through, desk.mm(depth) if depth else None


def _position(desk: Desk, node: Node | None) -> Position | None:
    scalar = desk.scalar(node) if node else None
    if not scalar:
        return None
    zone, _, datums = scalar.text.partition(" to ")
    letters = datums.replace(",", " ").split()
    if not letters or not all(len(letter) == 1 and letter.isupper() for letter in letters):
        desk.wrong(
            "position",
            f"{scalar.text}: to which datums?",
            scalar.place,
            found=scalar.text,
            allowed="0.2 to B, 0.1 to A B",
        )
    return Position(desk.length_of(zone, scalar).mm, " ".join(letters), scalar.text)
