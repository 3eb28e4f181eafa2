"""The texts of dimensions: sizes with their limits, and holes in the order of operations.

How a number is printed is ``number_format.py``'s; here is which number, with how many decimals, and
which words and signs stand round it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace

from setupsheet.drawing import number_format as numbers
from setupsheet.drawing import texture
from setupsheet.drawing.signs import (
    COAXIALITY,
    COUNTERBORE,
    COUNTERSINK,
    DEPTH,
    DIAMETER,
    FLATNESS,
    PARALLELISM,
    POSITION,
    SPOTFACE,
    SQUARENESS,
)
from setupsheet.length import Unit
from setupsheet.part.feature import BoltCircle, Counterbore, Countersink, Feature, Hole, HoleChamfer, Size
from setupsheet.part.geometry import Geometry
from setupsheet.part.part import Part

_LEAST_PLACES = 3
"""Decimals of an inch size whose written text is not known: the closer of the usual two tolerances."""
_FRACTION = re.compile(r"^\s*(?:\d+[- ])?\d+/\d+(?=\s*(?:in|inch|\")?\s*$)")
_FIRST_NUMBER = re.compile(r"^\s*[+-]?\d*(?:\.(\d*))?")


@dataclass(frozen=True, slots=True)
class Words:
    """The texts of one drawing: the number style, and the decimals that carry a tolerance (inch)."""

    style: numbers.Style
    places_known: tuple[int, ...] = ()
    texts: dict[tuple[str, int], str] = field(default_factory=dict)
    """Inch lengths as the author wrote them, by feature ('' where all agree) and length in 0.0001 mm."""
    feature: str = ""

    def of(self, feature: str) -> Words:
        """Return the words for one feature: its lengths keep the decimals that they are written with there."""
        return replace(self, feature=feature)

    @property
    def iso(self) -> bool:
        """Whether the ISO words hold."""
        return self.style.standard == "iso"

    def length(self, mm: float) -> str:
        """Return a plain length; inches as written, else with the fewest decimals that are exact and toleranced."""
        text = self._as_written(mm)
        fraction = _FRACTION.match(text)
        return fraction[0].strip() if fraction else numbers.length(self.style, mm, self._places(mm, text))

    def fixed(self, mm: float, places: int) -> str:
        """Return a length with exactly so many decimals in inches, none too many in mm."""
        return numbers.length(self.style, mm, places if self.style.is_inch else None)

    def signed(self, mm: float) -> str:
        """Return a coordinate, with its sign."""
        return f"-{self.length(-mm)}" if mm < 0 else self.length(mm)

    def _as_written(self, mm: float) -> str:
        """Return the text that the author wrote a length as, '' where none is known (always in mm)."""
        key = _key(mm)
        return self.texts.get((self.feature, key)) or self.texts.get(("", key), "")

    def size(self, size: Size) -> str:
        """Return a size with its fit or limits as the profile prints them, without diameter sign."""
        mm = size.nominal_mm
        if size.kind == "fit":
            return numbers.fit(self.style, mm, size.fit, size.lower_mm, size.upper_mm)
        if size.kind == "limits":
            return self.with_limits(mm, size.lower_mm - mm, size.upper_mm - mm, size.written)
        fraction = _FRACTION.match(size.written) if self.style.is_inch else None
        if fraction:
            return fraction[0].strip()
        return numbers.length(self.style, mm, self._places(mm, size.written))

    def with_limits(self, mm: float, lower_mm: float, upper_mm: float, written: str = "") -> str:
        """Return a size with deviations from it; equal ones become ±."""
        lower, upper = round(lower_mm, 7) + 0.0, round(upper_mm, 7) + 0.0
        places = self._places(mm, written) if self.style.is_inch else None
        return numbers.unequal(self.style, mm, upper, lower, _enough(self.style, places, (lower, upper)))

    def diameter(self, size: Size) -> str:
        """Return a size with the diameter sign."""
        return DIAMETER + self.size(size)

    def angle(self, degrees: float) -> str:
        """Return an angle with its sign."""
        return numbers.angle(self.style, degrees)

    def times(self, count: int, what: str) -> str:
        """Return a text with the count of equal things before it."""
        return numbers.times(self.style, count, what)

    @property
    def by(self) -> str:
        """The sign between two sizes that belong together."""
        return numbers.by(self.style)

    @property
    def through(self) -> str:
        """The word behind a hole that goes right through."""
        return " through" if self.iso else " THRU"

    def _places(self, mm: float, written: str = "") -> int | None:
        """Decimals to print: None drops zeros (mm); inches keep what was written, else what is exact."""
        if not self.style.is_inch:
            return None
        match = _FIRST_NUMBER.match(written)
        if match and match[1] and "/" not in written and not written.rstrip().endswith("mm"):
            return min((p for p in self.places_known if p >= len(match[1])), default=len(match[1]))
        inch = mm / float(Unit.INCH.mm)
        allowed = [p for p in self.places_known if p >= _LEAST_PLACES] or [3, 4]
        return next((p for p in allowed if abs(round(inch, p) - inch) < 5e-7), allowed[-1])


def _enough(style: numbers.Style, places: int | None, deviations: tuple[float, float]) -> int | None:
    """Return at least as many inch decimals as the deviations need; mm keeps None."""
    if places is None:
        return None
    unit = float(style.unit.mm)
    need = next((p for p in range(places, 6) if all(abs(round(d / unit, p) * unit - d) < 1e-6 for d in deviations)), 5)
    return max(places, need)


def words_of(part: Part) -> Words:
    """Return the texts that a part's drawing uses."""
    style = numbers.Style(part.drawing.standard, part.unit, part.drawing.decimal_sign)
    texts = _texts(part) if style.is_inch else {}
    return Words(style, tuple(sorted(p for p in part.tolerance.by_places_mm if p >= 0)), texts)


def _texts(part: Part) -> dict[tuple[str, int], str]:
    """Return the lengths as written: of each feature the one with most decimals, of all where they agree."""
    found: dict[tuple[str, int], str] = {}
    shared: dict[int, set[str]] = {}
    for written in part.written:
        key = (written.feature, _key(written.mm))
        if written.feature:
            found[key] = max(found.get(key, ""), written.text, key=len)
        shared.setdefault(key[1], set()).add(written.text.lstrip("0+-"))
    alike = {("", key): texts.pop() for key, texts in shared.items() if len(texts) == 1}
    return {**found, **alike}


def _key(mm: float) -> int:
    return round(abs(mm) * 1e4)


def hole_lines(hole: Hole, words: Words) -> tuple[str, ...]:
    """Return a hole's lines, one an operation: drill or fit, counterbore, countersink, thread, edges."""
    lines = [words.times(len(hole.spots), _first(hole, words))]
    if hole.counterbore:
        lines.append(_counterbore(hole.counterbore, words))
    if hole.countersink:
        lines.append(_countersink(hole.countersink, words))
    lines += _chamfers(hole, words)
    if isinstance(hole.pattern, BoltCircle):
        lines.append(_circle(hole.pattern, words))
    return (*lines, *spoken(hole, words))


def spoken(feature: Feature, words: Words) -> tuple[str, ...]:
    """Return what an author says in words at a feature: a finish that has no symbol, then the note."""
    finish, note = getattr(feature, "finish", ""), feature.note
    return tuple(_said(text, words) for text in ("" if texture.is_texture(finish) else finish, note) if text)


def texture_of(feature: Feature, words: Words) -> str:
    """Return the value at the surface symbol of a feature, '' where none is asked for."""
    finish = getattr(feature, "finish", "")
    return surface(finish, words) if texture.is_texture(finish) else ""


def surface(finish: str, words: Words) -> str:
    """Return a finish as it stands at a surface symbol."""
    return texture.shown(finish, words.iso, words.style.unit, words.style.decimal_sign)


def frame_of(geometry: Geometry, words: Words) -> tuple[str, ...]:
    """Return the compartments of a tolerance frame: sign, zone, datums (ISO 1101, ASME Y14.5).

    ASME Y14.5-2018 has no sign for concentricity any more; a position to the datum's axis says the same.
    """
    sign = {
        "flatness": FLATNESS,
        "parallelism": PARALLELISM,
        "perpendicularity": SQUARENESS,
        "concentricity": COAXIALITY if words.iso else POSITION,
    }[geometry.what]
    zone = words.length(geometry.zone_mm)
    return (sign, DIAMETER + zone if geometry.round_zone else zone, *geometry.datums.split())


def _first(hole: Hole, words: Words) -> str:
    if hole.thread:
        return _thread(hole, words)
    drill = (
        f" ({_said(hole.callout, words)})"
        if hole.callout.startswith("no.") or re.fullmatch(r"[A-Z]", hole.callout)
        else ""
    )
    return words.diameter(hole.diameter) + drill + _depth(hole, words)


def _said(text: str, words: Words) -> str:
    """Return an author's words as the profile prints them: ASME in capitals."""
    return text if words.iso else text.upper()


def _depth(hole: Hole, words: Words) -> str:
    return words.through if hole.through else f" {DEPTH}{words.length(hole.depth_mm or 0.0)}"


def _thread(hole: Hole, words: Words) -> str:
    thread = hole.thread
    assert thread is not None
    drill = ""
    if not hole.through and hole.drill_depth_mm:
        drill = f" / {DEPTH}{words.length(hole.drill_depth_mm)}"
    grade = thread.tolerance_class
    mark = f"-{grade}" if grade and grade not in thread.designation and not (words.iso and grade == "6H") else ""
    return f"{thread.designation}{mark}{_depth(hole, words)}{drill}"


def _counterbore(bore: Counterbore, words: Words) -> str:
    sign = SPOTFACE if bore.spotface else COUNTERBORE
    return f"{sign} {words.diameter(bore.diameter)} {DEPTH}{words.length(bore.depth_mm)}"


def _countersink(sink: Countersink, words: Words) -> str:
    end = "" if sink.end == "mouth" else _said(" far side", words)
    return f"{COUNTERSINK} {words.diameter(sink.diameter)}{words.by}{words.angle(sink.angle_deg)}{end}"


def _chamfers(hole: Hole, words: Words) -> list[str]:
    """Return the line of broken edges: one for both ends if they are alike."""
    ends = {chamfer.end: chamfer for chamfer in hole.chamfers}
    if len(ends) == 2 and _same(ends["mouth"], ends["exit"]):
        both = " both ends" if words.iso else " BOTH ENDS"
        return [_chamfer(ends["mouth"], words) + both]
    far = {"mouth": "", "exit": " far side" if words.iso else " FAR SIDE"}
    return [_chamfer(chamfer, words) + far[chamfer.end] for chamfer in hole.chamfers]


def _same(a: HoleChamfer, b: HoleChamfer) -> bool:
    return a.diameter_mm == b.diameter_mm and a.angle_deg == b.angle_deg


def _chamfer(chamfer: HoleChamfer, words: Words) -> str:
    return f"{COUNTERSINK} {DIAMETER}{words.length(chamfer.diameter_mm)}{words.by}{words.angle(chamfer.angle_deg)}"


def _circle(circle: BoltCircle, words: Words) -> str:
    size = f"{DIAMETER}{words.length(circle.pcd_mm)}"
    if circle.skipped or abs(circle.arc_deg) != 360:
        step = circle.arc_deg / circle.count if abs(circle.arc_deg) == 360 else circle.arc_deg / (circle.count - 1)
        return f"on {size} PCD, every {words.angle(step)}" if words.iso else f"{words.angle(step)} APART ON {size} B.C."
    return f"equally spaced on {size} PCD" if words.iso else f"EQ SP ON {size} B.C."
