"""Two patterns of holes with screws through both: whether they meet, and whether the screw passes and holds.

Places are compared from the middle of each pattern, in the main views of the two parts, as they are or with
one part turned over.
"""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.finding import caution, error
from setupsheet.length import Unit, parse, plain
from setupsheet.part.feature import Hole, Spot
from setupsheet.part.part import Part
from setupsheet.plane import Point2, distance
from setupsheet.spec.desk import Desk
from setupsheet.spec.mate_words import MateWords
from setupsheet.spec.tree import Scalar
from setupsheet.tables import tapping

_SAME_MM = 1e-3
"""Places that differ by less agree; below any readout's step."""


@dataclass(frozen=True, slots=True)
class Pair:
    """A pattern of this part and the one of the other part that it meets."""

    part: Part
    hole: Hole
    other: Part
    there: Hole


def meet(desk: Desk, pair: Pair, words: MateWords, node: Scalar) -> tuple[str, ...]:
    """Return what is said about two patterns and the screws in them; what does not go together is a finding."""
    said = _Meeting(desk, pair, words, node)
    return tuple(text for text in (said.places(), said.room(), said.screw()) if text)


def offsets(hole: Hole, flip: Point2 = (1.0, 1.0)) -> list[Point2]:
    """Return the places from the middle of their pattern; ``flip`` mirrors them."""
    count = len(hole.spots)
    x, y = (sum(spot.at[axis] for spot in hole.spots) / count for axis in (0, 1))
    return [((spot.at[0] - x) * flip[0], (spot.at[1] - y) * flip[1]) for spot in hole.spots]


def apart(one: list[Point2], other: list[Point2]) -> float:
    """Return how far the worst place of a pattern is from the nearest one of the other, mm."""
    return max(min(distance(a, b) for b in other) for a in one)


def _alike(one: list[Point2], other: list[Point2]) -> bool:
    return len(one) == len(other) and apart(one, other) < _SAME_MM


@dataclass(frozen=True, slots=True)
class _Meeting:
    """The questions to two patterns that shall meet."""

    desk: Desk
    pair: Pair
    words: MateWords
    node: Scalar

    @property
    def _name(self) -> str:
        return f"{self.pair.other.number} {self.pair.there.id}"

    def places(self) -> str:
        """Return how the places agree; an error where they do not."""
        mine, theirs = offsets(self.pair.hole), offsets(self.pair.there)
        if _alike(mine, theirs):
            return f"All {len(mine)} holes meet {self._name}."
        for flip, line in (((-1.0, 1.0), "left over right"), ((1.0, -1.0), "front over back")):
            if _alike(offsets(self.pair.hole, flip), theirs):
                return f"All {len(mine)} holes meet {self._name} with one of the parts turned {line}."
        off = "another count of holes"
        if len(mine) == len(theirs):
            off = f"up to {self._shown(apart(mine, theirs))} off"
        self.desk.findings.append(
            error(
                "mate-pattern-differs",
                f"the holes do not meet those of {self._name}: {off}",
                self.node.place,
                feature=self.pair.hole.id,
                found=f"{len(mine)} here, {len(theirs)} there, {off}",
                allowed="the same places, seen from the middle of each pattern",
                try_="write the pattern once in a file of its own, and include: it in both specs",
                because="the screws do not go in",
            )
        )
        return ""

    def _shown(self, value_mm: float) -> str:
        return f"{plain(value_mm / float(self.desk.unit.mm), 3 if self.desk.unit is Unit.MM else 4)}"

    def _sides(self) -> tuple[tuple[Part, Hole], tuple[Part, Hole]] | None:
        """Return the clearance side and the threaded side, None where there are not one of each."""
        here, there = (self.pair.part, self.pair.hole), (self.pair.other, self.pair.there)
        if bool(here[1].thread) is bool(there[1].thread):
            return None
        return (there, here) if here[1].thread else (here, there)

    def room(self) -> str:
        """Return how much room the screw has, held against the positions of both patterns (fixed fastener)."""
        sides = self._sides()
        if sides is None or sides[1][1].thread is None:
            return ""
        clear, tapped = sides[0][1], sides[1][1].thread
        room = clear.diameter.lower_mm - tapped.major_mm
        if room <= 0:
            self.mind("mate-screw-too-thick", f"{tapped.designation} does not pass {clear.callout}", "a larger hole")
            return ""
        zones = [hole.position.zone_mm for hole in (self.pair.hole, self.pair.there) if hole.position]
        if len(zones) < 2:
            return f"A screw {tapped.designation} has {self._shown(room)} of room."
        asked = " and ".join(self._shown(zone) for zone in zones)
        if sum(zones) > room + 1e-6:
            self.mind(
                "mate-position-too-wide",
                f"positions of {asked} are more than the {self._shown(room)} of room round the screw",
                f"together up to {self._shown(room)}",
            )
            return ""
        return f"A screw {tapped.designation} has {self._shown(room)} of room; positions of {asked} are within it."

    def screw(self) -> str:
        """Return how far the screw reaches into its thread, and whether that is enough and not too much."""
        sides = self._sides()
        if not self.words.screw_length or sides is None or sides[1][1].thread is None:
            return ""
        (_, clear), (part, tapped) = sides
        thread = sides[1][1].thread
        length = self._screw_mm(thread.designation)
        if length is None:
            return ""
        reach = _reach(length, clear)
        least = tapping.practice(part.material_group).full_thread_factor * thread.major_mm
        name = f"{self.words.screw}x{self.words.screw_length}"
        into = " to ".join(dict.fromkeys(self._shown(value) for value in reach))
        if tapped.depth_mm is not None and reach[1] > tapped.depth_mm + 1e-6:
            deep = self._shown(tapped.depth_mm)
            self.mind("mate-screw-bottoms", f"{name} reaches {into} in, the thread ends at {deep}", f"up to {deep}")
            return ""
        if reach[0] < least - 1e-6:
            self.mind(
                "mate-screw-too-short",
                f"{name} reaches only {into} into the thread",
                f"at least {self._shown(least)} in {part.material}",
            )
            return ""
        deep = f", the thread is {self._shown(tapped.depth_mm)} deep" if tapped.depth_mm is not None else ""
        return f"{name} reaches {into} into its thread; {self._shown(least)} is enough{deep}."

    def _screw_mm(self, thread: str) -> float | None:
        """Return the screw's length, None (with a finding) where it does not go into the thread."""
        screw = self.words.screw
        unit = Unit.MM if thread.startswith("M") else Unit.INCH
        try:
            length = parse(self.words.screw_length, unit).mm
        except ValueError as problem:
            self.mind("mate-screw-differs", str(problem), f"{thread} x a length")
            return None
        if thread == screw or thread.startswith(f"{screw} "):
            return length
        self.mind("mate-screw-differs", f"a screw {screw} does not go into a thread {thread}", thread)
        return None

    def mind(self, code: str, message: str, allowed: str) -> None:
        """Write down a caution at the mate's words."""
        self.desk.findings.append(
            caution(code, message, self.node.place, feature=self.pair.hole.id, found=self.node.text, allowed=allowed)
        )


def _reach(length_mm: float, clear: Hole) -> tuple[float, float]:
    """Return how far a screw comes out of its clearance holes, least and most over all of them."""
    sunk = clear.counterbore.depth_mm if clear.counterbore else 0.0
    ways = [length_mm - (_thick(spot) - sunk) for spot in clear.spots]
    return min(ways), max(ways)


def _thick(spot: Spot) -> float:
    return abs(spot.mouth_mm - spot.exit_mm)
