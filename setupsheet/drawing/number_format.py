"""How a number is printed on a drawing: ISO with mm, ASME with mm, ASME with inches.

Rounding is decimal, half up, and never prints -0. The rules are those of ISO 129-1 and ASME Y14.5 as the
digest of drawing practice gathers them; each function names the rule it follows. Lengths arrive in mm.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from setupsheet.length import Unit

MINUS = "-"
"""A hyphen, which every font and every DXF reader has."""


@dataclass(frozen=True, slots=True)
class Style:
    """A profile of number printing: ``standard`` 'iso' or 'asme', the unit, the decimal sign."""

    standard: str = "iso"
    unit: Unit = Unit.MM
    decimal_sign: str = "."

    @property
    def is_inch(self) -> bool:
        """Tell whether lengths are printed in inches (no zero before the point, zeros kept behind)."""
        return self.unit is Unit.INCH

    @property
    def places(self) -> int:
        """Decimals that a worked-out length is printed with at most."""
        return 4 if self.is_inch else 3


def length(style: Style, mm: float, places: int | None = None) -> str:
    """Return a plain size. ``places`` keeps that many decimals; None drops zeros at the end.

    12 stays 12 and 0.5 keeps its zero in mm; .5 loses it in inches. Inch sizes state their tolerance with
    the number of decimals, so the caller passes ``places`` there.
    """
    value = _in_unit(style, mm)
    text = _fixed(value, style.places if places is None else places)
    if places is None and "." in text:
        text = text.rstrip("0").rstrip(".")
    return _signed(style, text)


def symmetric(style: Style, mm: float, tolerance_mm: float, places: int | None = None) -> str:
    """Return ``25 ±0.1``; in inches both numbers have the same decimals (``.500 ±.005``)."""
    if style.is_inch:
        shared = _shared(style, (mm, tolerance_mm), places)
        return f"{length(style, mm, shared)} ±{length(style, tolerance_mm, shared)}"
    return f"{length(style, mm, places)} ±{length(style, tolerance_mm)}"


def deviations(style: Style, upper_mm: float, lower_mm: float, places: int | None = None) -> tuple[str, str]:
    """Return the upper and the lower deviation, upper first, with equal decimals.

    A zero is a plain ``0`` in mm; in inches it has the decimals and the other sign (``+.003`` / ``-.000``).
    Raises ValueError when the upper one is below the lower one.
    """
    if upper_mm < lower_mm:
        raise ValueError("the upper deviation lies below the lower one")
    shared = _shared(style, (upper_mm, lower_mm), places)
    texts = [_deviation(style, mm, shared) for mm in (upper_mm, lower_mm)]
    if style.is_inch:
        zero = length(style, 0, shared)
        if _is_zero(style, upper_mm, shared):
            texts[0] = "+" + zero
        if _is_zero(style, lower_mm, shared):
            texts[1] = MINUS + zero
    return texts[0], texts[1]


def unequal(style: Style, mm: float, upper_mm: float, lower_mm: float, places: int | None = None) -> str:
    """Return size and deviations on one line: ``25 +0.2/-0.1``; an equal pair becomes ``±``.

    In inches all three numbers have equal decimals; in mm the size keeps its own.
    """
    if upper_mm == -lower_mm and upper_mm > 0:
        return symmetric(style, mm, upper_mm, places)
    shared = _shared(style, (mm, upper_mm, lower_mm), places) if style.is_inch else None
    upper, lower = deviations(style, upper_mm, lower_mm, shared)
    return f"{length(style, mm, shared if style.is_inch else places)} {upper}/{lower}"


def limits(style: Style, lower_mm: float, upper_mm: float, places: int | None = None) -> tuple[str, str]:
    """Return the larger and the smaller limit (the larger one stands on top), with equal decimals."""
    shared = _shared(style, (upper_mm, lower_mm), places)
    return length(style, upper_mm, shared), length(style, lower_mm, shared)


def limits_on_a_line(style: Style, lower_mm: float, upper_mm: float, places: int | None = None) -> str:
    """Return both limits on one line: ``25.1/24.9`` for ISO, ``24.9-25.1`` (low first) for ASME."""
    upper, lower = limits(style, lower_mm, upper_mm, places)
    return f"{upper}/{lower}" if style.standard == "iso" else f"{lower}{MINUS}{upper}"


def fit(style: Style, mm: float, designation: str, lower_mm: float, upper_mm: float) -> str:
    """Return a size with its fit: ``30 H7 (+0.021/0)`` for ISO, ``30 H7 (30.000-30.021)`` for ASME.

    ``lower_mm`` and ``upper_mm`` are the limits of size. With inches the limits stand alone, since a metric
    fit class says nothing there.
    """
    if style.is_inch:
        return limits_on_a_line(style, lower_mm, upper_mm)
    if style.standard == "iso":
        upper, lower = deviations(style, upper_mm - mm, lower_mm - mm)
        return f"{length(style, mm)} {designation} ({upper}/{lower})"
    return f"{length(style, mm)} {designation} ({limits_on_a_line(style, lower_mm, upper_mm, 3)})"


def angle(style: Style, degrees: float, tolerance_deg: float | None = None) -> str:
    """Return ``30°``, ``30.5°`` or with a tolerance ``30° ±0.5°`` (ASME: the same decimals on both)."""
    value, places = _exact(degrees), 3
    if tolerance_deg is None:
        return _degrees(style, value, None)
    tolerance = _exact(tolerance_deg)
    if style.standard == "asme":
        places = max(_needed(value, 3), _needed(tolerance, 3))
        return f"{_degrees(style, value, places)} ±{_degrees(style, tolerance, places)}"
    return f"{_degrees(style, value, None)} ±{_degrees(style, tolerance, None)}"


def auxiliary(text: str) -> str:
    """Return a worked-out size in parentheses; it binds nobody."""
    return f"({text})"


def times(style: Style, count: int, what: str) -> str:
    """Return the count before a callout: ``6× Ø6.6`` for ISO, ``6X Ø6.6`` for ASME; nothing for one."""
    if count == 1:
        return what
    return f"{count}{'×' if style.standard == 'iso' else 'X'} {what}"


def by(style: Style) -> str:
    """Return the sign between two sizes that belong together: `` × `` or `` X ``."""
    return " × " if style.standard == "iso" else " X "


def _in_unit(style: Style, mm: float) -> Decimal:
    value = _exact(mm)
    return value / Decimal("25.4") if style.is_inch else value


def _exact(value: float) -> Decimal:
    """Return the decimal that was meant: noise of binary arithmetic lies below 1e-9."""
    near = Fraction(value).limit_denominator(10**9)
    return Decimal(near.numerator) / Decimal(near.denominator)


def _fixed(value: Decimal, places: int) -> str:
    rounded = value.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP)
    return f"{abs(rounded) if rounded == 0 else rounded:.{places}f}"


def _signed(style: Style, text: str) -> str:
    """Apply the decimal sign, and in inches take away the zero before it."""
    if style.is_inch:
        bare = text.lstrip("-")
        if bare.startswith("0."):
            text = text.replace("0.", ".", 1)
    return text.replace(".", style.decimal_sign)


def _deviation(style: Style, mm: float, places: int) -> str:
    if _is_zero(style, mm, places):
        return "0"
    text = length(style, mm, places)
    return text if text.startswith(MINUS) else f"+{text}"


def _is_zero(style: Style, mm: float, places: int) -> bool:
    return not _in_unit(style, mm).quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP)


def _shared(style: Style, all_mm: tuple[float, ...], places: int | None) -> int:
    """Return the decimals that the finest of several numbers needs."""
    if places is not None:
        return places
    return max(_needed(_in_unit(style, mm), style.places) for mm in all_mm)


def _needed(value: Decimal, most: int) -> int:
    text = _fixed(value, most)
    return len(text.rstrip("0").partition(".")[2])


def _degrees(style: Style, value: Decimal, places: int | None) -> str:
    text = _fixed(value, 3 if places is None else places)
    if places is None and "." in text:
        text = text.rstrip("0").rstrip(".")
    return text.replace(".", style.decimal_sign) + "°"
