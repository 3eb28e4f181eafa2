"""The DXF as a widely used free CAD program prints it against our own PDF, dot by dot at 150 dpi."""

from __future__ import annotations

import math
import shutil
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from setupsheet.drawing import dxf, svg
from setupsheet.drawing.boxes import Rect, grow
from setupsheet.drawing.ink import DASHES_MM, Arc, Circle, Line, Polyline, Sheet, Stroke, Text
from setupsheet.drawing.strokes import text_room
from setupsheet.drawing.svg import strokes_of
from setupsheet.papers import html, pdf
from setupsheet.plane import Point2, polar
from tests.drawing.printed import MM, Dots, dot, print_dxf, print_pdf, spread
from tests.drawing.test_demo_drawings import DEMOS, drawn

pytestmark = [
    pytest.mark.skipif(shutil.which("librecad") is None, reason="LibreCAD is not installed: DXF not compared"),
    pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="poppler-utils is not installed: DXF not compared"),
]
NEAR_MM = 0.3
STEP_MM = 0.25
LEAST_DOTS = 9
"""A stroke of 1 mm alone has 9; fewer are where ends of lines are cut off square in one print, round in the other."""


@pytest.fixture(scope="module", params=DEMOS)
def paper(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Sheet, Dots, Dots]:
    """Return the first sheet of a part, its dots as LibreCAD prints them, and those of our PDF."""
    folder: Path = tmp_path_factory.mktemp("printed")
    sheet = drawn(request.param)[1][0]
    size = (sheet.width, sheet.height)
    ours = pdf.drawing_pdf([svg.sheet_svg(sheet)], [size], html.font_faces())
    return sheet, print_dxf(dxf.sheet_dxf(sheet), size, folder), print_pdf(ours, size, folder)


def strokes(sheet: Sheet) -> tuple[Stroke, ...]:
    """Return every stroke of a sheet."""
    return tuple(s for group in sheet.groups for s in strokes_of(group.items))


def along(stroke: Stroke) -> Iterator[Point2]:
    """Yield points along the line of a stroke."""
    if isinstance(stroke, Circle | Arc):
        start, end = (stroke.from_deg, stroke.to_deg) if isinstance(stroke, Arc) else (0.0, 360.0)
        count = max(4, int(math.radians(end - start) * stroke.radius / STEP_MM))
        yield from (polar(stroke.centre, stroke.radius, start + (end - start) * k / count) for k in range(count + 1))
        return
    points = [stroke.a, stroke.b] if isinstance(stroke, Line) else list(getattr(stroke, "points", ()))
    if isinstance(stroke, Polyline) and stroke.closed:
        points.append(points[0])
    for a, b in pairwise(points):
        count = max(1, int(math.dist(a, b) / STEP_MM))
        for k in range(count + 1):
            yield a[0] + (b[0] - a[0]) * k / count, a[1] + (b[1] - a[1]) * k / count


def solid(stroke: Stroke) -> bool:
    """Tell whether a stroke is a continuous line."""
    return isinstance(stroke, Line | Circle | Arc | Polyline) and stroke.pen not in DASHES_MM


def blank(shape: tuple[int, ...], boxes: list[Rect]) -> Dots:
    """Return a mask of the boxes."""
    mask = np.zeros(shape, dtype=bool)
    for low, high in boxes:
        (r0, c0), (r1, c1) = dot(low), dot(high)
        mask[max(r0, 0) : r1 + 1, max(c0, 0) : c1 + 1] = True
    return mask


def texts(sheet: Sheet) -> list[Text]:
    """Return the texts of a sheet."""
    return [s for s in strokes(sheet) if isinstance(s, Text) and s.text.strip()]


def test_every_solid_stroke_is_in_both_prints(paper: tuple[Sheet, Dots, Dots]) -> None:
    """Each point of each continuous line has ink within 0.3 mm, in LibreCAD's print and in ours."""
    sheet, theirs, ours = paper
    for dots in (spread(theirs, NEAR_MM), spread(ours, NEAR_MM)):
        for stroke in filter(solid, strokes(sheet)):
            assert all(dots[dot(point)] for point in along(stroke)), stroke


def test_neither_print_has_a_stroke_that_the_other_lacks(paper: tuple[Sheet, Dots, Dots]) -> None:
    """Ink of one lies within 0.3 mm of the other's, texts and dashed lines left out; none of it beyond a dot more."""
    sheet, theirs, ours = paper
    spare = blank(theirs.shape, [grow(text_room(t), 1.5) for t in texts(sheet)])
    dashed = np.zeros_like(spare)
    for stroke in strokes(sheet):
        if not isinstance(stroke, Text) and getattr(stroke, "pen", None) in DASHES_MM:
            for point in along(stroke):
                dashed[dot(point)] = True
    spare |= spread(dashed, 0.6)
    for one, other in ((theirs, ours), (ours, theirs)):
        for near, least in ((NEAR_MM, LEAST_DOTS), (NEAR_MM + 1 / MM, 2)):
            alone = np.argwhere(one & ~spread(other, near) & ~spare)
            assert len(alone) < least, [(column / MM, row / MM) for row, column in alone[:5]]


def test_dashed_lines_have_their_dashes(paper: tuple[Sheet, Dots, Dots]) -> None:
    """LibreCAD has dashes of its own: ink along 60 % of the length of each dashed line, and gaps in the long ones."""
    sheet, theirs, _ = paper
    near = spread(theirs, 0.2)
    seen = 0
    for stroke in strokes(sheet):
        if not isinstance(stroke, Text) and getattr(stroke, "pen", None) in DASHES_MM:
            inked = [bool(near[dot(point)]) for point in along(stroke)]
            assert sum(inked) >= 0.6 * len(inked), stroke
            seen += 1
    assert seen


def test_texts_stand_where_ours_stand(paper: tuple[Sheet, Dots, Dots]) -> None:
    """The ink of each text, in narrower letters of its own, and ours share half of the smaller one's box."""
    sheet, theirs, ours = paper
    lines = np.zeros_like(theirs)
    for stroke in strokes(sheet):
        if not isinstance(stroke, Text):
            for point in along(stroke):
                lines[dot(point)] = True
    lines = spread(lines, 0.5)
    for text in texts(sheet):
        gap = round(0.2 * text.height * MM)
        a, b = (ink_box(dots & ~lines, grow(text_room(text), 0.8), gap) for dots in (theirs, ours))
        shared = max(0, min(a[1], b[1]) - max(a[0], b[0])) * max(0, min(a[3], b[3]) - max(a[2], b[2]))
        assert shared >= 0.5 * min(area(a), area(b)), text


def area(box: tuple[int, int, int, int]) -> int:
    """Return the dots that a box holds."""
    return (box[1] - box[0]) * (box[3] - box[2])


def ink_box(dots: Dots, room: Rect, gap: int) -> tuple[int, int, int, int]:
    """Return first and last row and column of the ink in a box, with the gap between letters (2/10 h, ISO 3098)."""
    (r0, c0), (r1, c1) = dot(room[0]), dot(room[1])
    rows, columns = np.nonzero(dots[max(r0, 0) : r1, max(c0, 0) : c1])
    assert rows.size, room
    rows, columns = rows + r0, columns + c0
    return int(rows.min()) - gap, int(rows.max()) + gap, int(columns.min()) - gap, int(columns.max()) + gap
