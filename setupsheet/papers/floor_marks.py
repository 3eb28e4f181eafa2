"""Hatch and names of what a setup mills, for the plan view. Paper mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from setupsheet.drawing import lettering
from setupsheet.drawing.boxes import Rect, rect
from setupsheet.drawing.ink import Line, Pen, Stroke, Text
from setupsheet.papers.hatching import Floor, Interval, Ruler, crossing_span, floors, inside, joined, minus, rulers
from setupsheet.papers.labels import Places
from setupsheet.papers.views import Paper, bounds, chain
from setupsheet.plan.record import Setup
from setupsheet.plane import Point2, distance

_PITCH = 2.4
_LEAST = 0.8
"""Shorter strokes of hatch are the corners that a round cutter leaves between two passes."""
_NAME_MM, _READING_MM = 2.2, 2.8
Chains = Sequence[Sequence[Point2]]


@dataclass(frozen=True, slots=True)
class Hatched:
    """A floor, what is cut deeper than it, and the metal's outline: enough to say what a line of hatch covers."""

    floor: Floor
    deeper: tuple[Floor, ...]
    chains: Chains

    def runs(self, ruler: Ruler) -> list[Interval]:
        """Return where a line runs over this floor."""
        own = inside(ruler, self.floor.swept)
        span = crossing_span(ruler, self.chains) if own else None
        if span is None:
            return []
        away = [run for other in self.deeper for run in inside(ruler, other.swept)]
        return minus(own, joined([*away, (-1e9, span[0]), (span[1], 1e9)]))

    def covers(self, low: Point2, high: Point2) -> bool:
        """Tell whether a box lies on this floor: its lower and its upper side do."""
        for y in (low[1], (low[1] + high[1]) / 2, high[1]):
            if not any(a <= low[0] and b >= high[0] for a, b in self.runs(Ruler((0.0, y), (1.0, 0.0)))):
                return False
        return True


def floor_strokes(setup: Setup, coming: Sequence[Stroke], paper: Paper, places: Places, path: str) -> list[Stroke]:
    """Return the hatch of every floor (slopes alternate with the height) and its name and reading."""
    box = bounds(coming)
    if box is None:
        return []
    chains = [chain(stroke) for stroke in coming]
    strokes: list[Stroke] = []
    names: list[Stroke] = []
    deeper: list[Floor] = []
    drawn = 0
    for floor in floors(setup):
        hatched = Hatched(floor, tuple(deeper), chains)
        runs: list[tuple[Point2, Point2]] = []
        for ruler in rulers(*box, 45.0 if drawn % 2 == 0 else 135.0, _PITCH / paper.scale):
            runs += [(paper.point(ruler.at(a)), paper.point(ruler.at(b))) for a, b in hatched.runs(ruler)]
        lines = [Line(Pen.HATCH, a, b) for a, b in runs if distance(a, b) >= _LEAST]
        drawn += bool(lines)
        strokes += lines
        names += _name(setup, hatched, lines, paper, places, path)
        deeper.append(floor)
    return strokes + names


def _name(
    setup: Setup, hatched: Hatched, lines: Sequence[Line], paper: Paper, places: Places, path: str
) -> list[Stroke]:
    """Return the floor's features and its reading where its widest lines leave room, or nothing."""
    floor = hatched.floor
    if floor.reading < 0 or not floor.features:
        return []
    step = f"{path}/steps/{floor.step}"
    word = Text((0.0, 0.0), _NAME_MM, floor.features[0], "middle", halo=True, path=f"{step}/features/0")
    text = setup.steps[floor.step].z_shown[floor.reading]
    reading = Text(
        (0.0, 0.0), _READING_MM, text, "middle", bold=True, halo=True, path=f"{step}/z_shown/{floor.reading}"
    )
    wide = max(lettering.width(lettering.drawable(t.text), t.height, t.bold) for t in (word, reading)) + 1.0
    high = _NAME_MM + _READING_MM + 1.6
    boxes = list(_boxes(lines, wide, high))
    for good in (places.clear, places.free):
        for box in boxes:
            if good(box) and hatched.covers(paper.back(box[0]), paper.back(box[1])):
                places.take(box)
                x = (box[0][0] + box[1][0]) / 2
                upper = (x, box[1][1] - _NAME_MM - 0.3)
                return [replace(word, at=upper), replace(reading, at=(x, box[0][1] + 0.3))]
    return []


def _boxes(lines: Sequence[Line], wide: float, high: float) -> Iterator[Rect]:
    """Yield boxes along the longest lines of hatch, their middles first."""
    for line in sorted(lines, key=lambda line: -distance(line.a, line.b))[:40]:
        for share in (0.5, 0.3, 0.7, 0.15, 0.85):
            x, y = (a + share * (b - a) for a, b in zip(line.a, line.b, strict=True))
            yield rect(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)
