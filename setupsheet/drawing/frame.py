"""The sheet and its frame: sizes and margins from tables/sheet_sizes.csv, zones, centring marks, check bar.

A4 stands upright, the others lie. Zones are 50 mm long and counted from the centring marks, so the corner
zones take the rest; letters run down from the top, without I and O, figures to the right.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from setupsheet.drawing.ink import Group, Line, Pen, Polyline, Stroke, Text
from setupsheet.plane import Point2
from setupsheet.tables.loader import Row, rows

ZONE_MM = 50.0
_BAND_MM = 5.0
"""Width of the strip outside the frame that carries the zone names."""
_ZONE_TEXT_MM = 2.5
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True)
class SheetSize:
    """A sheet of paper in mm, its margins, and its number of zones (0: none)."""

    name: str
    standard: str
    width: float
    height: float
    left: float
    right: float
    top: float
    bottom: float
    zones_across: int
    zones_up: int

    @property
    def space(self) -> tuple[Point2, Point2]:
        """The drawing space inside the frame: lower left and upper right corner."""
        return (self.left, self.bottom), (self.width - self.right, self.height - self.top)

    @property
    def is_upright(self) -> bool:
        """Tell whether the sheet is higher than wide; the title block then fills its foot."""
        return self.height > self.width


@cache
def sheet_sizes(standard: str) -> tuple[SheetSize, ...]:
    """Return the sheets of a standard ('iso' or 'asme'), the smallest first."""
    return tuple(_sheet_size(row) for row in rows("sheet_sizes") if row["standard"] == standard)


def _sheet_size(row: Row) -> SheetSize:
    width, height, left, right, top, bottom = (
        float(row[f"{key}_mm"]) for key in ("width", "height", "left", "right", "top", "bottom")
    )
    zones = int(row["zones_across_count"]), int(row["zones_up_count"])
    return SheetSize(row["size"], row["standard"], width, height, left, right, top, bottom, *zones)


def sheet_size(name: str) -> SheetSize:
    """Return a sheet by its name (A4, A3, A2, Letter, B); raises KeyError for another one."""
    for size in (*sheet_sizes("iso"), *sheet_sizes("asme")):
        if size.name.lower() == name.lower():
            return size
    raise KeyError(name)


def frame(size: SheetSize) -> Group:
    """Return frame, centring marks and zones of a sheet."""
    (x0, y0), (x1, y1) = size.space
    items: list[Stroke] = [Polyline(Pen.FRAME, ((x0, y0), (x1, y0), (x1, y1), (x0, y1)), closed=True)]
    items += _centring_marks(size)
    if size.zones_across:
        items += _zones_across(size)
        items += _zones_up(size)
    return Group("frame", tuple(items), ((0.0, 0.0), (size.width, size.height)))


def _centring_marks(size: SheetSize) -> list[Stroke]:
    """Return four marks, 5 mm out of and 5 mm into the frame; at an upright sheet's foot only outwards."""
    (x0, y0), (x1, y1) = size.space
    x, y, out = size.width / 2, size.height / 2, _BAND_MM
    into = 0.0 if size.is_upright else out
    return [
        Line(Pen.FRAME, (x0 - out, y), (x0 + out, y)),
        Line(Pen.FRAME, (x1 + out, y), (x1 - out, y)),
        Line(Pen.FRAME, (x, y1 + out), (x, y1 - out)),
        Line(Pen.FRAME, (x, y0 - out), (x, y0 + into)),
    ]


def _zones_across(size: SheetSize) -> list[Stroke]:
    """Return ticks and figures above the frame, and below it too on a lying sheet."""
    (x0, y0), (x1, y1) = size.space
    borders = zone_borders(x0, x1, size.width / 2, size.zones_across)
    edges = [(y1, 1.0)] if size.is_upright else [(y1, 1.0), (y0, -1.0)]
    items: list[Stroke] = []
    for edge, out in edges:
        items += [Line(Pen.THIN, (x, edge), (x, edge + out * _BAND_MM)) for x in _ticks(borders, size.width / 2)]
        base = edge + out * _BAND_MM / 2 - _ZONE_TEXT_MM / 2
        for number, (low, high) in enumerate(pairwise(borders), 1):
            items.append(Text(((low + high) / 2, base), _ZONE_TEXT_MM, str(number), "middle"))
    return items


def _zones_up(size: SheetSize) -> list[Stroke]:
    """Return ticks and letters left of the frame, and right of it too on a lying sheet."""
    (x0, y0), (x1, y1) = size.space
    borders = zone_borders(y0, y1, size.height / 2, size.zones_up)[::-1]
    edges = [(x0, -1.0)] if size.is_upright else [(x0, -1.0), (x1, 1.0)]
    items: list[Stroke] = []
    for edge, out in edges:
        items += [Line(Pen.THIN, (edge, y), (edge + out * _BAND_MM, y)) for y in _ticks(borders, size.height / 2)]
        for letter, (high, low) in zip(_LETTERS, pairwise(borders), strict=False):
            base = (low + high) / 2 - _ZONE_TEXT_MM / 2
            items.append(Text((edge + out * _BAND_MM / 2, base), _ZONE_TEXT_MM, letter, "middle"))
    return items


def zone_borders(low: float, high: float, middle: float, count: int) -> list[float]:
    """Return the borders of ``count`` zones: every 50 mm from the centring mark, corner zones take the rest."""
    half = count // 2
    inner = [middle + ZONE_MM * step for step in range(1 - half, half)]
    return [low, *inner, high]


def _ticks(borders: list[float], middle: float) -> list[float]:
    """Leave out the frame's corners and the place of the centring mark."""
    return [border for border in borders[1:-1] if abs(border - middle) > 1e-9]


def check_bar(left: Point2) -> tuple[Stroke, ...]:
    """Return a bar 100 mm long with a tick every 10 mm, to see whether a print has its true size."""
    x, y = left
    items: list[Stroke] = [Line(Pen.THIN, (x, y), (x + 100.0, y))]
    for step in range(11):
        tall = 2.0 if step in {0, 5, 10} else 1.2
        items.append(Line(Pen.THIN, (x + 10.0 * step, y), (x + 10.0 * step, y + tall)))
    return tuple(items)
