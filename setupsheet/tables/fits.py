"""Limits of ISO 286: from a size and a symbol (``H7``, ``js6``) to two deviations in micrometres.

Nothing is worked out from the standard's formulae: a fundamental deviation and a tolerance grade are
looked up and added, as the standard does. Its special cases are rows of the tables: the addition
``delta`` for holes K to Z in the finer grades, M6 from 250 to 315 mm, N above grade 8, letters that
small sizes do not have. Capital letters are holes, small letters shafts.
"""

from __future__ import annotations

import functools
from collections.abc import Iterator
from typing import NamedTuple

from setupsheet.pattern import Pattern
from setupsheet.tables import loader
from setupsheet.tables.near import nearest
from setupsheet.tables.unknown import NotInTables, refuse_decimal_comma

STANDARD = "ISO 286"
_LEFT_OUT, _COARSEST = ("za", "zb", "zc"), ("17", "18")
"""Letters and grades that the standard defines and the tables do not hold."""
_GROUP = ("letter", "from_grade", "to_grade")
_SYMBOL = Pattern(r"([A-Za-z]+)([0-9]+)")
_CALLOUT = Pattern(r"\s*[Øø⌀]?\s*([0-9]+\.?[0-9]*|\.[0-9]+)\s*(?:mm\b)?\s*(.*?)\s*")
_VERIFIED = "verified"


class Limits(NamedTuple):
    """What a symbol means at a size: deviations in µm from ``nominal_mm``, with source and status.

    ``status`` is 'verified' where two or more prints agree on every value used; else it says which is not.
    """

    nominal_mm: float
    symbol: str
    lower_um: float
    upper_um: float
    source: str
    status: str

    @property
    def lower_mm(self) -> float:
        """The least size in mm, free of float noise."""
        return round(self.nominal_mm + self.lower_um / 1000, 7)

    @property
    def upper_mm(self) -> float:
        """The greatest size in mm, free of float noise."""
        return round(self.nominal_mm + self.upper_um / 1000, 7)


@functools.cache
def limits(nominal_mm: float, symbol: str) -> Limits:
    """Return the limits of ``symbol`` ('H7', 'js6') at ``nominal_mm``; raises NotInTables."""
    letter, grade = _split(nominal_mm, symbol)
    reason = _reason(nominal_mm, letter, grade)
    if reason:
        near = _nearest(nominal_mm, letter, grade)
        raise NotInTables(reason, f"{number(nominal_mm)} {symbol}", near)
    return _defined(nominal_mm, letter, grade)


def parse_fit(text: str) -> tuple[float, str | None, str | None]:
    """Return size, hole symbol and shaft symbol of '25 H7/g6', '25 H7' or '25 g6'; raises NotInTables.

    What comes back is sure to be in the tables.
    """
    refuse_decimal_comma(text)
    match = _CALLOUT.fullmatch(text)
    if not match or not match[2]:
        size = match[1] if match else "25"
        raise NotInTables(f"'{text}' is not a size with a fit behind it", text, f"{size} H7")
    size, symbols = match[1], [part.strip() for part in match[2].split("/")]
    if len(symbols) > 2 or not all(_SYMBOL.fullmatch(symbol) for symbol in symbols):
        near = nearest(match[2].replace(" ", ""), _common_symbols())
        raise NotInTables(f"'{match[2]}' is not a hole, a shaft or hole/shaft of {STANDARD}", text, f"{size} {near}")
    if len(symbols) == 2 and not (symbols[0][0].isupper() and symbols[1][0].islower()):
        hole, shaft = sorted(symbols, key=str.swapcase, reverse=True)
        near = f"{size} {hole.upper()}/{shaft.lower()}"
        raise NotInTables("a fit is the hole (capital letter), a stroke, then the shaft (small letter)", text, near)
    _all_known(float(size), symbols, text)
    hole_symbol = symbols[0] if symbols[0][0].isupper() else None
    shaft_symbol = symbols[-1] if symbols[-1][0].islower() else None
    return float(size), hole_symbol, shaft_symbol


def letters(*, hole: bool) -> tuple[str, ...]:
    """Return the letters that the tables hold, in the standard's order (A to Z or a to z)."""
    return tuple(_deviations(hole))


def grades() -> tuple[str, ...]:
    """Return the tolerance grades, finest first: '01', '0', '1' to '16'."""
    return tuple(dict.fromkeys(row["grade"] for row in loader.ranges("iso286_grades", ("grade",))))


def grade_um(nominal_mm: float, grade: str) -> float:
    """Return the width of tolerance grade ``grade`` ('7' for IT7) in µm; raises NotInTables."""
    row = _grade_row(nominal_mm, grade)
    if row is None:
        near = grade if grade in grades() else _grades_by_closeness(grade)[0]
        raise NotInTables(f"{STANDARD} here has no IT{grade} at {number(nominal_mm)} mm", f"IT{grade}", f"IT{near}")
    return float(row["value_um"])


def number(value: float) -> str:
    """Return a size as people write it: 25, 6.35, 0.8."""
    text = f"{value:.6f}"
    return text.rstrip("0").rstrip(".")


def _split(nominal_mm: float, symbol: str) -> tuple[str, str]:
    """Return letter and grade of a symbol; raises NotInTables for what has neither."""
    match = _SYMBOL.fullmatch(symbol)
    if not match:
        near = nearest(symbol, _common_symbols())
        raise NotInTables(f"'{symbol}' is not a letter and a grade", symbol, f"{number(nominal_mm)} {near}")
    return match[1], match[2]


def _all_known(nominal_mm: float, symbols: list[str], text: str) -> None:
    """Raise NotInTables for the first unknown symbol, with the whole callout as found and as nearest."""
    for place, symbol in enumerate(symbols):
        try:
            limits(nominal_mm, symbol)
        except NotInTables as fault:
            if not fault.nearest:
                raise NotInTables(fault.message, text) from None
            size, _, better = fault.nearest.partition(" ")
            whole = [better if at == place else other for at, other in enumerate(symbols)]
            raise NotInTables(fault.message, text, f"{size} {'/'.join(whole)}") from None


def _common_symbols() -> list[str]:
    """Return the fits, holes and shafts of the preferred list, for a guess at what was meant."""
    fits = [row["fit"] for row in loader.rows("fits_words")]
    fits += [row[key] for row in loader.rows("fits_preferred") for key in ("hole_basis", "shaft_basis")]
    return [part for fit in fits for part in (*fit.split("/"), fit)]


@functools.cache
def _deviations(hole: bool) -> dict[str, list[loader.Row]]:
    """Return the rows of fundamental deviations by letter, in the standard's order."""
    found: dict[str, list[loader.Row]] = {}
    for row in loader.ranges("iso286_holes" if hole else "iso286_shafts", _GROUP):
        found.setdefault(row["letter"], []).append(row)
    return found


def _rank(grade: str) -> int:
    """Return a grade's place in the order from fine to coarse; IT01 is before IT0."""
    return -1 if grade == "01" else int(grade)


def _deviation_row(nominal_mm: float, letter: str, grade: str) -> loader.Row | None:
    """Return the row that holds for letter, grade and size; of two, the one for fewer grades."""
    place, best, width = _rank(grade), None, 99
    for row in _deviations(letter[:1].isupper()).get(letter, ()):
        first, last = _rank(row["from_grade"]), _rank(row["to_grade"])
        in_range = float(row["over_mm"]) < nominal_mm <= float(row["upto_mm"])
        if in_range and first <= place <= last and last - first < width:
            best, width = row, last - first
    return best


def _grade_row(nominal_mm: float, grade: str) -> loader.Row | None:
    rows = [row for row in loader.ranges("iso286_grades", ("grade",)) if row["grade"] == grade]
    return loader.find(rows, nominal_mm)


def _delta_row(nominal_mm: float, grade: str) -> loader.Row | None:
    rows = [row for row in loader.ranges("iso286_delta", ("grade",)) if row["grade"] == grade]
    return loader.find(rows, nominal_mm)


def _reason(nominal_mm: float, letter: str, grade: str) -> str:
    """Return why the tables have no such limits, '' where they do."""
    known = _deviations(letter[:1].isupper())
    sizes = [float(row["upto_mm"]) for row in loader.rows("iso286_grades")]
    if not 0 < nominal_mm <= max(sizes):
        return f"the tables of {STANDARD} here go from above 0 to {max(sizes):g} mm"
    kind = "hole" if letter[:1].isupper() else "shaft"
    if letter not in known:
        there = f"{STANDARD} has {letter}, the tables here do not" if letter.lower() in _LEFT_OUT else ""
        return f"{there or f'the tables have no {kind} letter {letter}'}; they have {known_span(kind)}"
    if grade not in grades():
        there = f"{STANDARD} has grade {grade}, the tables here do not" if grade in _COARSEST else ""
        return f"{there or f'there is no tolerance grade {grade}'}; grades are 01, 0 and 1 to {grades()[-1]}"
    if _deviation_row(nominal_mm, letter, grade) is None:
        return _why_no_deviation(nominal_mm, letter, grade, kind)
    for row in loader.rows("iso286_not_used"):
        in_grades = _rank(row["from_grade"]) <= _rank(grade) <= _rank(row["to_grade"])
        if in_grades and row["letter"] in {"any", letter} and nominal_mm <= float(row["upto_mm"]):
            return f"{STANDARD} does not use {letter}{grade} for sizes up to {row['upto_mm']} mm"
    return _no_delta(nominal_mm, letter, grade)


def known_span(kind: str) -> str:
    """Return the letters in a few words."""
    return "A to Z without I, L, O, Q, W" if kind == "hole" else "a to z without i, l, o, q, w"


def _why_no_deviation(nominal_mm: float, letter: str, grade: str, kind: str) -> str:
    """Return a sentence on sizes or grades that the letter does have."""
    rows = _deviations(kind == "hole")[letter]
    low, high = min(float(row["over_mm"]) for row in rows), max(float(row["upto_mm"]) for row in rows)
    if nominal_mm <= low:
        return f"{STANDARD} has no {letter} up to {low:g} mm"
    if nominal_mm > high:
        return f"{STANDARD} has no {letter} above {high:g} mm"
    there = sorted({_rank(row["from_grade"]) for row in rows} | {_rank(row["to_grade"]) for row in rows})
    return f"the tables have {letter} in grades {max(there[0], 0)} to {there[-1]}, not in grade {grade}"


def _no_delta(nominal_mm: float, letter: str, grade: str) -> str:
    row = _deviation_row(nominal_mm, letter, grade)
    if row is not None and row["add_delta"] == "yes" and _delta_row(nominal_mm, grade) is None:
        return f"{STANDARD} prints the addition that {letter} needs only from grade 3 on, not for grade {grade}"
    return ""


def _defined(nominal_mm: float, letter: str, grade: str) -> Limits:
    """Return the limits of a symbol that ``_reason`` has nothing against."""
    width_row, row = _grade_row(nominal_mm, grade), _deviation_row(nominal_mm, letter, grade)
    if width_row is None or row is None:
        raise NotInTables(f"no {letter}{grade} at {number(nominal_mm)} mm", f"{letter}{grade}")
    used = [(f"IT{grade}", width_row), (letter, row)]
    width = float(width_row["value_um"])
    if row["bound"] == "both":
        low, high = -width / 2, width / 2
    else:
        value = float(row["value_um"])
        delta = _delta_row(nominal_mm, grade) if row["add_delta"] == "yes" else None
        if delta is not None:
            value += float(delta["value_um"])
            used.append(("delta", delta))
        low, high = (value - width, value) if row["bound"] == "upper" else (value, value + width)
    source = "; ".join(f"{name}: {part['source']}" for name, part in used)
    doubts = [f"{name}: {part['status']}" for name, part in used if part["status"] not in _SOUND]
    status = "; ".join(doubts) or _VERIFIED
    return Limits(nominal_mm, f"{letter}{grade}", round(low, 4), round(high, 4), source, status)


_SOUND = frozenset({_VERIFIED, "by definition", "by rule"})


def _nearest(nominal_mm: float, letter: str, grade: str) -> str:
    """Return the nearest size and symbol that the tables hold, '' for a size that none is near to."""
    top = max(float(row["upto_mm"]) for row in loader.rows("iso286_grades"))
    size = min(nominal_mm, top)
    if not size > 0:
        return ""
    for other in _letters_by_closeness(letter):
        for step in _grades_by_closeness(grade):
            if not _reason(size, other, step):
                return f"{number(size)} {other}{step}"
    return ""


def _letters_by_closeness(letter: str) -> Iterator[str]:
    """Give the letter itself, then for a known one those that follow it, then those before, nearest first."""
    known = letters(hole=letter[:1].isupper())
    if letter not in known:
        first = letter[0]
        yield from sorted(known, key=lambda other: (other.lower() != letter.lower(), abs(ord(other[0]) - ord(first))))
        return
    at = known.index(letter)
    yield from known[at:]
    yield from reversed(known[:at])


def _grades_by_closeness(grade: str) -> list[str]:
    """Return all grades: for a number in sight of them by number, for a slip of the pen by digits."""
    known = grades()
    if grade in known:
        return sorted(known, key=lambda other: abs(_rank(other) - _rank(grade)))
    digits = {other: -len(set(other) & set(grade)) for other in known}
    close = int(grade) <= 2 * _rank(known[-1])
    return sorted(known, key=lambda other: (0 if close else digits[other], abs(_rank(other) - int(grade))))
