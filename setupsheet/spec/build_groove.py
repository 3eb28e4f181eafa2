"""The ring groove for a round seal: by its sizes, or by the seal's cord and inside diameter.

The seal lies against the wall away from the pressure: with pressure (or dust) from outside against the inner
wall, so that the groove's inner diameter is the free seal's; with pressure from inside against the outer one.
"""

from __future__ import annotations

from fractions import Fraction

from setupsheet.finding import Place
from setupsheet.length import Length, Unit, plain
from setupsheet.part.face import Face
from setupsheet.part.feature import RingGroove, Size
from setupsheet.spec.build_area import read_floor
from setupsheet.spec.build_point import Points
from setupsheet.spec.desk import Desk
from setupsheet.spec.sizes import NOTHING, inward, read_size
from setupsheet.spec.tree import Mapping, Scalar
from setupsheet.tables import seals
from setupsheet.tables.unknown import NotInTables

_SIZES = ("inner", "outer", "depth", "to")
"""Keys that a seal's sizes take the place of."""

_DIGITS = 5
"""Decimals of a worked-out size, in the spec's unit."""

Sizes = tuple[Size, Size, Size | None, Size | None, str]
"""Inner and outer diameter, floor, depth, the seal's words."""


def build_groove(desk: Desk, points: Points, node: Mapping, place: Place, face: Face) -> RingGroove:
    """Return a ring groove; ``depth`` becomes a floor once the surface over it is known."""
    seal = node.get("seal")
    sizes = _by_seal(desk, node, seal) if isinstance(seal, Mapping) else _as_written(desk, node)
    inner, outer, floor, depth, words = sizes
    return RingGroove(
        desk.feature,
        place,
        face,
        points.at(node.get("at"), face),
        inner,
        outer,
        0.0,
        floor or inner,
        words,
        desk.text(node.get("finish")),
        desk.text(node.get("note")),
        depth=depth,
    )


def _as_written(desk: Desk, node: Mapping) -> Sizes:
    """Return the sizes that stand in the spec."""
    missing = [key for key in ("inner", "outer") if key not in node.entries]
    if missing:
        desk.missing(
            "groove-not-clear",
            f"the groove has no {' and no '.join(missing)}",
            node.place,
            found=", ".join(node.entries),
            allowed="inner: and outer:, or seal: with cord and inside",
            try_="seal: {cord: 2, inside: 30} gives all sizes of the groove",
        )
        return NOTHING, NOTHING, None, None, ""
    inner, outer = read_size(desk, node.get("inner")), read_size(desk, node.get("outer"))
    if inner.nominal_mm >= outer.nominal_mm and not desk.broken:
        desk.wrong(
            "groove-inside-out",
            f"inner {inner.written} is not smaller than outer {outer.written}",
            node.key_place("inner"),
            found=inner.written,
            allowed=f"less than {outer.written}",
        )
    return inner, outer, *read_floor(desk, node, window=False), desk.text(node.get("seal"))


def _by_seal(desk: Desk, node: Mapping, seal: Mapping) -> Sizes:
    """Return the sizes that the seal asks for; what they came to is recorded."""
    nothing = (NOTHING, NOTHING, None, None, "")
    both = [key for key in _SIZES if key in node.entries]
    if both:
        desk.wrong(
            "seal-and-sizes",
            f"seal: gives the groove's sizes, and {both[0]}: stands beside it",
            node.key_place(both[0]),
            found=" and ".join(both),
            allowed="seal: with cord and inside, or all sizes",
            try_=f"leave {both[0]}: out, or write seal: as words",
        )
        return nothing
    cord, inside = desk.length(seal.get("cord")), desk.length(seal.get("inside"))
    found = _groove(desk, seal, cord)
    if found is None:
        return nothing
    thick, free = _value(cord, desk.unit), _value(inside, desk.unit)
    width = Fraction(str(found.width))
    if desk.text(seal.get("pressure"), "outside") == "outside":
        inner, outer = free, free + 2 * width
    else:
        outer = free + 2 * thick
        inner = outer - 2 * width
    if inner <= 0:
        desk.wrong("groove-inside-out", "the seal is too small for its cord", seal.place, found=inside.text())
        return nothing
    wider, deeper = str(found.width_over), str(found.depth_over)
    sizes = (
        _limited(desk, inner, ("0", wider), found.source),
        _limited(desk, outer, (wider, "0"), found.source),
        _limited(desk, Fraction(str(found.depth)), (deeper, "0"), found.source),
    )
    _say(desk, sizes, found)
    return *sizes, sizes[2], f"cord {cord.text()}, inside {inside.text()}"


def _groove(desk: Desk, seal: Mapping, cord: Length) -> seals.SealGroove | None:
    """Return the groove for a cord, None (with a finding) where the table has none."""
    try:
        return seals.groove(float(_value(cord, desk.unit)), inch=desk.unit is Unit.INCH)
    except NotInTables as problem:
        node = seal.get("cord")
        if isinstance(node, Scalar):
            desk.not_in_tables(problem, node)
        return None


def _value(length: Length, unit: Unit) -> Fraction:
    return length.exact_mm / unit.mm


def _limited(desk: Desk, value: Fraction, deviations: tuple[str, str], source: str) -> Size:
    """Return a size in the spec's unit with its upper deviation and how far it may be below."""
    over, under = (Fraction(text) for text in deviations)
    shown = plain(float(value), _DIGITS)
    written = f"{shown} +{deviations[0]}/-{deviations[1]}"
    exact = value * desk.unit.mm
    limits = inward(exact - under * desk.unit.mm, exact + over * desk.unit.mm, desk.unit)
    return Size(float(exact), *limits, written, "limits", "", source)


def _say(desk: Desk, sizes: tuple[Size, Size, Size], found: seals.SealGroove) -> None:
    """Record what the seal came to, with its squeeze and fill."""
    squeeze, fill = found.squeeze_percent, found.fill_percent
    reason = (
        f"the seal is squeezed by {squeeze[0]:.0f} to {squeeze[1]:.0f} % "
        f"and fills {fill[0]:.0f} to {fill[1]:.0f} % of its groove"
    )
    for key, size in zip(("inner", "outer", "depth"), sizes, strict=True):
        desk.opened(key, size.written, reason)
