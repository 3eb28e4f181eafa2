"""What an author writes for a hole, read into its parts: '12 H7', 'M5', '#10 clearance normal', 'no. 7', '6.5 mm'.

One look says which kind it is; the tables then give the figures. Limits of a fit are not worked out
here (see ``fits``): a callout carries its nominal size and its class. A bare fraction, number or
letter is in inches whatever the spec's unit; a bare decimal is a plain size in the spec's unit.
"""

from __future__ import annotations

import re
import unicodedata
from typing import NamedTuple

from setupsheet import length
from setupsheet.length import Length, Unit
from setupsheet.part.size import Thread
from setupsheet.pattern import Pattern
from setupsheet.tables import clearance, drills, threads
from setupsheet.tables.unknown import NotInTables, refuse_decimal_comma

_INCH_FITS = ("RC", "LC", "LT", "LN", "FN")
_EXAMPLES = "M5, 12 H7, M4 medium, no. 7 or 6.5 mm"
KINDS = ("thread", "fit", "clearance", "drill", "plain")


class Callout(NamedTuple):
    """A callout in its parts; ``diameter_mm`` is what is drawn (thread: the basic minor diameter).

    ``lower_mm`` and ``upper_mm`` stand for thread (minor diameter) and clearance, else None. ``fit``
    is the class ('H7', 'H7/g6', 'RC4'); ``screw`` and ``series`` belong to a clearance; ``label``
    is the standard drill's name. ``length`` keeps the written size of a fit, drill or plain size.
    """

    kind: str
    written: str
    unit: Unit
    diameter_mm: float
    lower_mm: float | None = None
    upper_mm: float | None = None
    thread: Thread | None = None
    fit: str = ""
    length: Length | None = None
    screw: str = ""
    series: str = ""
    label: str = ""
    source: str = ""
    status: str = ""


_UNITS = Pattern(r'(?<![A-Za-z])(mm|in|inch|")(?![A-Za-z])')
_CLEARANCE = Pattern(
    r"^(?P<screw>.+?)(?:\s+clearance(?:\s+hole)?(?:\s+(?P<after>\w+))?|\s+(?P<word>"
    + "|".join(clearance.ROOM)
    + r")(?:\s+clearance)?)$",
    re.IGNORECASE,
)
_FIT = Pattern(
    r"^(?P<size>[\d./ -]*\d(?:\s*(?:mm|in|\"))?)\s*"
    r"(?P<fit>(?:[A-Z]{1,2}|[a-z]{1,2})\d+(?:\s*/\s*[A-Za-z]{1,2}\d+)?|(?:RC|LC|LT|LN|FN)\s?\d+)$"
)
_THREAD = Pattern(
    r"^(M|G)\s*\d|\b(UNC|UNF|UNEF|UNS|UN|NPT|BSPP|BSW|BSF|WHITWORTH|WHIT|ME|BRASS)\b|\dBA\b|\d BA\b"
    r"|\d W$|^#?\d+-\d+$",
    re.I,
)
_TPI = Pattern(r"^\d+/\d+-\d+$")
_DRILL = Pattern(r"^(?:(?:#|no\.?\s*|number\s+)\d+|(?:letter\s+)?[A-Za-z]|\d+/\d+(?:\s*(?:in|\"))?)$", re.I)


def parse(text: str, unit: Unit) -> Callout:
    """Read one callout; ``unit`` holds for a plain size or fit without its own. Raises NotInTables."""
    words = re.sub(r"\s+", " ", text.strip().lstrip("Øø⌀ "))
    _plainly_written(words)
    _one_unit(words)
    if match := _CLEARANCE.match(words):
        return _clearance(match, words, unit)
    if match := _FIT.match(words):
        return _fit(match, words, unit)
    if _THREAD.search(words) or _TPI.match(words):
        return _thread(words, unit)
    if _DRILL.match(words):
        return _drill(words, unit)
    return _plain(words, unit)


LONGEST = 60
"""Signs that a callout has at most."""


def _plainly_written(words: str) -> None:
    """Raise NotInTables for what no callout is: nothing, a page of text, other digits, a decimal comma, a fit first."""
    if not words:
        raise NotInTables("the callout is empty", words, examples=_EXAMPLES)
    if len(words) > LONGEST:
        raise NotInTables(f"a callout is one size; this has {len(words)} signs", "", examples=_EXAMPLES)
    if any(sign.isdigit() and not sign.isascii() for sign in words):
        plain = "".join(str(unicodedata.decimal(sign, sign)) for sign in words)
        meant = plain if plain.isascii() else ""
        raise NotInTables("write the digits 0 to 9", words, meant, examples="" if meant else _EXAMPLES)
    refuse_decimal_comma(words)
    if turned := re.fullmatch(r"([A-Za-z]{1,2}\d+) (\d[\d.]*)", words):
        raise NotInTables("the size stands first, then the fit", words, f"{turned[2]} {turned[1]}")


def _one_unit(words: str) -> None:
    units = _UNITS.findall(words)
    named = {Unit.MM if one == "mm" else Unit.INCH for one in units}
    if len(units) > 1:
        what = "two units" if len(named) > 1 else "two sizes"
        raise NotInTables(
            f"{words!r} holds {what}; a callout has one", words, words[: words.index(units[0]) + len(units[0])]
        )
    if units and (re.match(r"^M\s*\d", words) or _named_thread(words)):
        raise NotInTables(
            f"{words!r}: a thread or screw carries its own unit", words, words.replace(units[0], "").strip()
        )


def _named_thread(words: str) -> bool:
    return bool(re.search(r"\b(UNC|UNF|UNEF|UNS|NPT|BSPP|BSW|BSF)\b|\dBA\b", words, re.IGNORECASE))


def _clearance(match: re.Match[str], words: str, unit: Unit) -> Callout:
    series = (match["after"] or match["word"] or "medium").lower()
    screw = clearance.screw_name(match["screw"])
    if screw not in clearance.screws():
        screw = _screw_of_thread(screw)
    nominal, upper, source, status = clearance.hole(screw, series)
    name = clearance.drill(screw, series)
    label = f"no. {name[1:]}" if name.startswith("#") else name
    return Callout(
        "clearance",
        words,
        unit,
        nominal,
        nominal,
        upper,
        screw=screw,
        series=series,
        label=label,
        source=source,
        status=status,
    )


def _screw_of_thread(screw: str) -> str:
    """Return the screw size of a whole thread designation: '#8-32 UNC' -> '#8', 'M8x1' -> 'M8'."""
    try:
        thread = threads.find(screw)
    except NotInTables:
        return screw
    if thread.series.startswith("metric"):
        return thread.designation.split("x")[0]
    if thread.designation in clearance.screws() or not thread.series.startswith("UN"):
        return thread.designation
    size = thread.designation.rsplit("-", 1)[0]
    return size if "/" in size or thread.major_mm > 25.0 else f"#{size}"


def _fit(match: re.Match[str], words: str, unit: Unit) -> Callout:
    fit = match["fit"].replace(" ", "")
    size = _length(match["size"], words, Unit.INCH if fit[:2] in _INCH_FITS else unit)
    return Callout("fit", words, unit, size.mm, fit=fit, length=size)


def _thread(words: str, unit: Unit) -> Callout:
    thread = threads.find(words)
    lower, upper = threads.minor_limits_mm(thread)
    state = threads.status(thread)
    return Callout(
        "thread", words, unit, thread.minor_basic_mm, lower, upper, thread=thread, source=thread.source, status=state
    )


def _drill(words: str, unit: Unit) -> Callout:
    size = drills.find(words)
    inch = size.series != "metric"
    exact = length.parse(f"{size.diameter_mm!r} mm", Unit.MM)
    kept = Length(exact.exact_mm, words, Unit.INCH if inch else Unit.MM)
    return Callout(
        "drill", words, unit, size.diameter_mm, length=kept, label=size.label, source=size.source, status=size.status
    )


def _plain(words: str, unit: Unit) -> Callout:
    size = _length(words, words, unit)
    if words.endswith("mm"):
        near, label = drills.nearest(size.mm, "metric")
        if near == size.mm:
            found = drills.find(label)
            return Callout(
                "drill", words, unit, size.mm, length=size, label=label, source=found.source, status=found.status
            )
    return Callout("plain", words, unit, size.mm, length=size)


def _length(text: str, words: str, unit: Unit) -> Length:
    try:
        size = length.parse(text, Unit.INCH if "/" in text else unit)
    except ValueError as fault:
        raise NotInTables(str(fault), words, examples=_EXAMPLES) from fault
    if size.exact_mm <= 0:
        raise NotInTables(f"{words!r}: a hole needs a size above 0", words, examples=_EXAMPLES)
    return size
