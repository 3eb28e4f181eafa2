"""A written size -> a Size with its limits: from a fit, from limits, or from the general tolerance.

Limits that were written in inches are turned into mm rounded inward, so that a part inside the mm
limits is always inside the author's.
"""

from __future__ import annotations

import math
from fractions import Fraction

from setupsheet.length import Length, Unit, parse
from setupsheet.part.feature import Size
from setupsheet.spec.desk import Desk
from setupsheet.spec.size_text import SizeText, decimals, split
from setupsheet.spec.tree import Node, Scalar
from setupsheet.tables import fits, general
from setupsheet.tables.unknown import NotInTables

_INWARD = 10_000
"""Converted limits are kept to a ten-thousandth of a millimetre."""

NOTHING = Size(1.0, 0.9, 1.1, "", "general")
"""What a size is taken for when it could not be read."""


def read_size(desk: Desk, node: Node | None, tolerance: Node | None = None) -> Size:
    """Return the size at ``node``; ``tolerance`` is a ``±0.3`` that stands under its own key."""
    scalar = desk.scalar(node)
    if not scalar:
        return NOTHING
    text = scalar.text
    extra = desk.text(tolerance)
    if extra:
        text = f"{text} {extra}" if extra[0] in "±+-" else f"{text} ±{extra}"
    return size_of(desk, text, scalar)


def size_of(desk: Desk, text: str, node: Scalar) -> Size:
    """Return the size that ``text`` (a part of ``node``) stands for."""
    parts = split(text)
    length = desk.length_of(parts.nominal, node, parts.places)
    written = text.strip()
    if written.startswith("="):
        written = (
            (length.text() + " " + text[len(parts.nominal) :].strip()).strip() if not parts.places else length.text()
        )
    if parts.fit:
        return fit_size(desk, length, parts.fit, written, node)
    if parts.upper:
        return _limits(desk, length, parts, written, node)
    return _general(desk, length, written, node)


def fit_size(desk: Desk, length: Length, symbol: str, written: str, node: Scalar) -> Size:
    """Return a size with the limits of an ISO 286 symbol."""
    try:
        limits = fits.limits(length.mm, symbol)
    except NotInTables as problem:
        desk.not_in_tables(problem, node)
        return NOTHING
    lower = length.exact_mm + Fraction(str(limits.lower_um)) / 1000
    upper = length.exact_mm + Fraction(str(limits.upper_um)) / 1000
    return Size(length.mm, *inward(lower, upper, length.unit), written, "fit", limits.symbol, _source(limits))


def _source(limits: fits.Limits) -> str:
    """Return the standard, and the table's own doubt where a value was not seen in print."""
    return fits.STANDARD if limits.status == "verified" else f"{fits.STANDARD}; {limits.status}"


def _limits(desk: Desk, length: Length, parts: SizeText, written: str, node: Scalar) -> Size:
    try:
        upper, lower = (parse(text, length.unit).exact_mm for text in (parts.upper, parts.lower))
    except ValueError as problem:
        desk.wrong("not-a-tolerance", str(problem), node.place, found=written, allowed="12 +0.02/-0, 30 ±0.1")
        return NOTHING
    if lower >= upper:
        desk.wrong(
            "limits-crossed",
            f"{written}: the upper limit is not above the lower one",
            node.place,
            found=f"{parts.upper}/{parts.lower}",
            allowed="the upper deviation first, the larger of the two",
            try_=f"write {parts.nominal} {parts.lower}/{parts.upper}"
            if lower > upper
            else "leave room between the limits",
        )
        return NOTHING
    return Size(
        length.mm,
        *inward(length.exact_mm + lower, length.exact_mm + upper, length.unit),
        written,
        "limits",
        "",
        "written",
    )


def _general(desk: Desk, length: Length, written: str, node: Scalar) -> Size:
    given = desk.general
    if given is None:
        return Size(length.mm, length.mm, length.mm, written, "general")
    if given.standard == "by places":
        amount = _by_places(desk, length, written, node)
    else:
        if not length.exact_mm:
            return _nothing(desk, written, node)
        try:
            amount = general.linear_mm(given.grade, abs(length.mm))
        except NotInTables as problem:
            desk.not_in_tables(problem, node)
            return NOTHING
    spread = Fraction(str(round(amount, 6)))
    lower, upper = inward(length.exact_mm - spread, length.exact_mm + spread, length.unit)
    return Size(length.mm, lower, upper, written, "general", "", given.written)


def _nothing(desk: Desk, written: str, node: Scalar) -> Size:
    desk.wrong(
        "no-amount",
        "a size of 0 makes nothing, and no general tolerance holds for it",
        node.place,
        found=written,
        allowed="a size above 0; a height at the origin needs its own limits: 0 ±0.1",
        try_="write the size; what goes right through is through: true",
    )
    return NOTHING


def _by_places(desk: Desk, length: Length, written: str, node: Scalar) -> float:
    """Return the ± of a size by the places it is written with."""
    table = desk.general.by_places_mm if desk.general else {}
    if not length.written:
        desk.wrong(
            "places-not-stated",
            f"{node.text}: how many places does this size have?",
            node.place,
            found=node.text,
            allowed="an expression with its places, where the tolerance goes by places",
            try_=f"write {node.text.strip()} to 3 places",
        )
        return 0.1
    places = decimals(length.written)
    if places in table:
        return table[places]
    kind = "a fraction" if places == -1 else f"{places} places"
    desk.wrong(
        "no-tolerance",
        f"{written} has {kind}, and tolerances: has no row for it",
        node.place,
        found=kind,
        allowed=", ".join("fractions" if key == -1 else f"{key} places" for key in sorted(table)),
        try_="write a tolerance behind the size, or add the row",
    )
    return 0.1


def inward(lower: Fraction, upper: Fraction, unit: Unit) -> tuple[float, float]:
    """Return two limits in mm as floats; those written in inches are rounded towards each other."""
    if unit is Unit.MM:
        return float(lower), float(upper)
    return math.ceil(lower * _INWARD) / _INWARD, math.floor(upper * _INWARD) / _INWARD
