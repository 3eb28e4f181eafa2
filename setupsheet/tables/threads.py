"""Screw threads: by their designation, or any 60 degree thread by diameter and pitch.

    find("M5")              -> Thread("M5", "metric coarse", 5.0, 0.8, 4.134, "6H", "60", ...)
    find("5/16-27 UNS")     -> a special thread, limits by the standard's own formulae
    minor_limits_mm(thread) -> (4.134, 4.334)

Per cent of thread counts on the full height that tap-drill charts use (1.299 P on diameter for 60
degree threads, see ``percent_basis``); on the basic profile (1.083 P) the same hole gives a larger
figure. The minor diameter's upper limit of Whitworth forms comes from memory and its row says so.
"""

from __future__ import annotations

import functools
import re
from fractions import Fraction

from setupsheet.length import MM_PER_INCH
from setupsheet.part.size import Thread
from setupsheet.pattern import Pattern
from setupsheet.tables import loader, near
from setupsheet.tables.clearance import near_screws
from setupsheet.tables.unknown import NotInTables

TAPER = "60 taper"
"""Form of pipe threads that get thinner; no per cent of thread is given for them."""

_CLASS = Pattern(r"[\s-]+(?P<class>[4-8][GH]|[123]B)$")
_OUTSIDE = Pattern(r"[\s-]+(?P<class>[3-9][efgh]|[123]A)$")
_WHITWORTH = Pattern(r"\s+(?:W|WHIT|WHITWORTH)$", re.IGNORECASE)
_METRIC = Pattern(r"^M\s*(?P<d>\d+(?:\.\d+)?)(?:\s*[x×X*]\s*(?P<p>\d*\.?\d+))?$", re.IGNORECASE)
_SIZE = r"(?:#|no\.?\s*)?(?P<size>\d+(?:[- ]\d+/\d+)?|\d+/\d+)"
_INCH = Pattern(
    rf"^{_SIZE}(?:\s*[-x×]\s*(?P<tpi>\d+))?\s*(?P<series>UNC|UNF|UNEF|UNS|UN|NPT|BSPP|BSW|BSF|ME|brass)?$",
    re.IGNORECASE,
)
_G = Pattern(r"^G\s*(?P<size>\d+/\d+|\d+)$", re.IGNORECASE)
_BA = Pattern(r"^(?:no\.?\s*)?(?P<n>\d+)\s*BA$", re.IGNORECASE)


def find(text: str) -> Thread:
    """Return the thread that ``text`` names; raises NotInTables with the nearest one."""
    words = re.sub(r"\s+", " ", text.strip())
    if outside := _OUTSIDE.search(words):
        name = words[: outside.start()]
        raise NotInTables(f"{outside['class']} is a class of screws; a hole has 6H or 2B", outside["class"], name)
    if match := _CLASS.search(words):
        words = words[: match.start()]
    words = _WHITWORTH.sub(" BSW", words)
    if match := _METRIC.match(words):
        return _metric(match, text)
    if match := _BA.match(words):
        return _listed(f"{int(match['n'])}BA", text)
    if match := _G.match(words):
        return _listed(f"G{match['size']}", text)
    if match := _INCH.match(words):
        return _inch(match, text)
    raise NotInTables(f"{text!r} names no thread", text, near.nearest(words, _by_name()))


def _metric(match: re.Match[str], text: str) -> Thread:
    size, pitch = float(match["d"]), float(match["p"]) if match["p"] else None
    name = f"M{size:g}" if pitch is None else f"M{size:g}x{pitch:g}"
    coarse = _by_name().get(f"M{size:g}")
    if pitch is not None and coarse and float(coarse["pitch_mm"]) == pitch:
        name = f"M{size:g}"
    if pitch is None or name in _by_name():
        return _listed(name, text)
    if not 0 < pitch < size / 2:
        raise NotInTables(f"a pitch of {pitch:g} does not fit {size:g} mm", text, _of_metric_size(size))
    return special(size, pitch, name)


def _of_metric_size(size: float) -> str:
    same = [row["designation"] for row in loader.rows("threads") if row["designation"].split("x")[0] == f"M{size:g}"]
    return ", ".join(same) or near_screws(f"M{size:g}", tuple(_by_name()))


def _inch(match: re.Match[str], text: str) -> Thread:
    size, tpi, series = match["size"].replace(" ", "-"), match["tpi"], (match["series"] or "").upper()
    if series == "BSPP":
        return _listed(f"G{size}", text)
    if series in ("UNS", "UN") and tpi:
        return _special_inch(size, int(tpi), text)
    fitting = [
        row
        for row in loader.rows("threads")
        if row["pitch_tpi"]
        and row["designation"].startswith(f"{size}-")
        and row["designation"].count("-") == size.count("-") + 1
        and (not tpi or row["pitch_tpi"] == tpi)
        and (row["designation"].upper().endswith(f" {series}") if series else row["series"].startswith("UN"))
    ]
    if len(fitting) == 1:
        return _thread(fitting[0])
    if fitting:
        raise NotInTables(f"{text!r} could be one of several threads", text, _names(fitting))
    raise NotInTables(
        f"{text!r} is in no thread table", text, _near_inch(size, f"{size}-{tpi or 20} {series or 'UNC'}")
    )


def _names(rows: list[loader.Row]) -> str:
    return ", ".join(row["designation"] for row in rows)


def _near_inch(size: str, name: str) -> str:
    same = [row for row in loader.rows("threads") if row["pitch_tpi"] and row["designation"].startswith(f"{size}-")]
    return _names(same[:4]) or near.nearest(name, (key for key in _by_name() if "-" in key))


def _special_inch(size: str, tpi: int, text: str) -> Thread:
    inch = _inch_diameter(size)
    if tpi * inch <= 2:
        raise NotInTables(f"{tpi} threads an inch are too coarse for {size}", text, _near_inch(size, size))
    return special(float(inch * MM_PER_INCH), float(MM_PER_INCH / tpi), f"{size}-{tpi} UNS")


def _inch_diameter(size: str) -> Fraction:
    """Return the major diameter in inches; a number size is looked up in a listed thread's row."""
    if "/" in size:
        return sum((Fraction(part) for part in size.split("-")), Fraction(0))
    for row in loader.rows("threads"):
        if row["series"] in ("UNC", "UNF", "UNEF") and row["designation"].split("-")[0] == size and size != "1":
            return Fraction(row["major_mm"]) / MM_PER_INCH
    return Fraction(size)


def special(major_mm: float, pitch_mm: float, designation: str = "") -> Thread:
    """Return a 60 degree thread of any diameter and pitch (mm); its minor limits follow the formulae.

    A designation that ends in UNS counts as inch (class 2B), every other one as metric (6H).
    """
    name = designation or f"M{major_mm:g}x{pitch_mm:g}"
    inch = name.endswith("UNS")
    minor = round(major_mm - _factor("60", "basic_height_factor") * pitch_mm, 4 if inch else 3)
    kind, tolerance = ("UNS", "2B") if inch else ("metric special", "6H")
    source = "formulae of ASME B1.1" if inch else "formulae of ISO 68-1 and ISO 965-1"
    return Thread(name, kind, major_mm, pitch_mm, minor, tolerance, "60", source)


def _listed(name: str, text: str) -> Thread:
    row = _by_name().get(name)
    if row is not None:
        return _thread(row)
    if name.startswith("M"):
        nearby = [key for key in _by_name() if key.startswith(f"{name}x")]
        sizes = near_screws(name, tuple(_by_name()))
        why = f"{text!r} is no thread of the tables; any pitch may be written behind it, as in M30x3.5"
        raise NotInTables(why, text, ", ".join([sizes, *nearby]))
    alike = [row for row in loader.rows("threads") if row["series"] == ("BA" if name.endswith("BA") else "BSPP")]
    wanted = float(Fraction(name.removesuffix("BA").removeprefix("G")))
    best = min(alike, key=lambda row: abs(_number(row["designation"]) - wanted))
    raise NotInTables(f"{text!r} is no thread of the tables", text, best["designation"])


def _number(designation: str) -> float:
    return float(Fraction(designation.removesuffix("BA").removeprefix("G")))


@functools.cache
def _by_name() -> dict[str, loader.Row]:
    return {row["designation"]: row for row in loader.rows("threads")}


def _thread(row: loader.Row) -> Thread:
    return Thread(
        row["designation"],
        row["series"],
        major_mm=float(row["major_mm"]),
        pitch_mm=float(row["pitch_mm"]),
        minor_basic_mm=float(row["minor_basic_mm"]),
        tolerance_class=row["tolerance_class"],
        form=row["form_deg"],
        source=row["source"],
    )


def status(thread: Thread) -> str:
    """Return how far the thread's figures are trusted."""
    row = _by_name().get(thread.designation)
    return row["status"] if row else "computed by the standard's formulae"


def minor_limits_mm(thread: Thread) -> tuple[float, float]:
    """Return the limits of the internal minor diameter (6H, 2B or the series' own), in mm."""
    row = _by_name().get(thread.designation)
    if row is not None:
        return float(row["minor_lower_mm"]), float(row["minor_upper_mm"])
    width = _width_2b_mm(thread) if thread.tolerance_class == "2B" else _width_6h_mm(thread.pitch_mm)
    return thread.minor_basic_mm, round(thread.minor_basic_mm + width, 4)


def _width_6h_mm(pitch_mm: float) -> float:
    for row in loader.rows("thread_tolerance_6h"):
        if float(row["pitch_mm"]) == pitch_mm:
            return float(row["minor_width_um"]) / 1000.0
    if pitch_mm < 1.0:
        return float(_term("metric p") * pitch_mm + _term("metric p to 1.22") * pitch_mm**1.22) / 1000.0
    return float(_term("metric coarse p to 0.7") * pitch_mm**0.7) / 1000.0


def _width_2b_mm(thread: Thread) -> float:
    """Return the 2B minor tolerance: one formula from 1/4 in up, another with two bounds below."""
    inch = float(MM_PER_INCH)
    pitch, major = thread.pitch_mm / inch, thread.major_mm / inch
    large = _term("p") * pitch + _term("p squared") * pitch**2
    if major >= 0.25:
        return large * inch
    small = _term("small p to 2/3") * pitch ** (2 / 3) + _term("small p over d") * pitch / major
    small = min(small + _term("small constant"), _term("small cap p") * pitch)
    return float(max(small, large)) * inch


def _term(name: str) -> float:
    return next(float(row["factor"]) for row in loader.rows("thread_tolerance_formulas") if row["term"] == name)


def _factor(form: str, column: str) -> float:
    return next(float(row[column]) for row in loader.rows("thread_forms") if row["form_deg"] == form)


def hand_tight_mm(thread: Thread) -> tuple[float, float]:
    """Return how far a pipe fitting goes into a taper thread by hand, and with the wrench's turns (mm)."""
    row = _by_name()[thread.designation]
    return float(row["hand_tight_mm"]), float(row["hand_and_wrench_mm"])


def percent(thread: Thread, drill_mm: float) -> float | None:
    """Return the per cent of thread that a hole leaves, on the full-height basis; None for a taper thread."""
    if thread.form == TAPER:
        return None
    height = _factor(thread.form, "full_height_factor") * thread.pitch_mm
    return 100.0 * (thread.major_mm - drill_mm) / height


def percent_basis(thread: Thread) -> str:
    """Return what the per cent counts on, to print beside it ('of 1.299 P on diameter')."""
    rows = loader.rows("thread_forms")
    return next((row["percent_basis"] for row in rows if row["form_deg"] == thread.form), "")
