"""The box of all that is drawn on a sheet, texts by their real width: true extents for a file's header."""

from __future__ import annotations

from setupsheet.drawing.contour import hull, reach
from setupsheet.drawing.ink import Fill, Sheet, Text
from setupsheet.drawing.signs import box
from setupsheet.drawing.svg import strokes_of
from setupsheet.plane import Point2


def sheet_extents(sheet: Sheet) -> tuple[Point2, Point2]:
    """Return the lower left and upper right corner of all ink on a sheet, paper mm."""
    strokes = [stroke for group in sheet.groups for stroke in strokes_of(group.items)]
    texts = [corner for stroke in strokes if isinstance(stroke, Text) and stroke.text for corner in box(stroke)]
    fills = [point for stroke in strokes if isinstance(stroke, Fill) for point in stroke.points]
    lines = [point for stroke in strokes if not isinstance(stroke, Text | Fill) for point in reach(stroke)]
    return hull(texts + fills + lines)
