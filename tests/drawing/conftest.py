"""A sheet with every kind of stroke and dimension, for the writers' tests."""

from __future__ import annotations

import math

import pytest

from setupsheet.drawing import frame, hole_table, signs, title_block
from setupsheet.drawing.hole_table import HoleRow
from setupsheet.drawing.ink import (
    Arc,
    Circle,
    Dimension,
    Ellipse,
    Fill,
    Group,
    Line,
    Pen,
    Polyline,
    Sheet,
    Stroke,
    Text,
)
from setupsheet.drawing.title_block import TitleBlock
from setupsheet.plane import Point2, polar

BLOCK = TitleBlock("iso", "first", owner="Old mill", number="X-1", title='Plate <&"> 100 %', scale="1:1", sheet="1/1")


def _strokes() -> tuple[Stroke, ...]:
    return (
        Polyline(Pen.VISIBLE, ((60.0, 120.0), (140.0, 120.0), (140.0, 180.0), (60.0, 180.0)), closed=True),
        Circle(Pen.VISIBLE, (90.0, 150.0), 6.0),
        Arc(Pen.THREAD, (120.0, 150.0), 3.0, 97.0, 353.0),
        Arc(Pen.VISIBLE, (120.0, 130.0), 3.0, -30.0, 45.0),
        Line(Pen.CENTRE, (80.0, 150.0), (100.0, 150.0)),
        Line(Pen.HIDDEN, (60.0, 160.0), (140.0, 160.0)),
        Ellipse(Pen.PHANTOM, (70.0, 130.0), (8.0, 3.0), 0.4),
        Ellipse(Pen.HIDDEN, (70.0, 145.0), (4.0, 0.0), 0.5, 20.0, 250.0),
        Polyline(Pen.HATCH, ((60.0, 120.0), (65.0, 125.0), (66.5, 123.25))),
        Fill(((150.0, 120.0), (153.0, 121.0), (153.0, 119.0))),
        Fill(((150.0, 130.0), (153.0, 130.0), (154.0, 132.0), (152.0, 134.0), (150.0, 133.0)), 0.6),
        *signs.line(Text((150.0, 150.0), 3.5, "6× ⌀4.5 ↧12", path="/features/0/callout")),
        Text((150.0, 160.0), 3.5, "30° ±0.5° <b>&amp;", "middle", 30.0, halo=True),
        Text((150.0, 170.0), 5.0, "Ø12 H7", "right", bold=True),
    )


def _linear() -> Dimension:
    ends: tuple[Point2, Point2] = ((60.0, 120.0), (140.0, 120.0))
    strokes = (
        Line(Pen.DIM, (60.0, 119.0), (60.0, 108.0)),
        Line(Pen.DIM, (140.0, 119.0), (140.0, 108.0)),
        Line(Pen.DIM, (60.0, 110.0), (140.0, 110.0)),
        Fill(((60.0, 110.0), (63.5, 110.46), (63.5, 109.54))),
        Text((100.0, 111.0), 3.5, "80 ±0.1", "middle", path="/solid/box_mm/1/0"),
    )
    return Dimension("linear", "part", "x", 80.0, "80 ±0.1", ends, (100.0, 110.0), 0.0, strokes)


def _aligned() -> Dimension:
    strokes = (Line(Pen.DIM, (140.0, 180.0), (170.0, 220.0)), Text((150.0, 200.0), 3.5, "50", "middle", 53.13))
    return Dimension(
        "aligned", "s", "length", 50.0, "50", ((140.0, 180.0), (170.0, 220.0)), (155.0, 200.0), 53.13, strokes
    )


def _angular() -> Dimension:
    corner = (200.0, 150.0)
    legs = (corner, polar(corner, 40, 0), corner, polar(corner, 40, 60))
    strokes = (Arc(Pen.DIM, corner, 30.0, 0.0, 60.0), Text(polar(corner, 31, 30), 3.5, "60°", "middle", -60.0))
    return Dimension("angular", "s", "angle", 60.0, "60°", legs, polar(corner, 30, 30), 0.0, strokes)


def _detail() -> Dimension:
    ends: tuple[Point2, Point2] = ((200.0, 210.0), (220.0, 210.0))
    strokes = (Line(Pen.DIM, (200.0, 200.0), (220.0, 200.0)), Text((210.0, 201.0), 3.5, "4", "middle"))
    return Dimension("linear", "groove", "width", 4.0, "4", ends, (210.0, 200.0), 0.0, strokes, scale=5.0)


def _running() -> Dimension:
    strokes = (Line(Pen.DIM, (90.0, 182.0), (90.0, 195.0)), Text((90.0, 196.0), 3.5, "30", "middle", 90.0))
    return Dimension("running", "A1", "x", 30.0, "30", ((90.0, 150.0),), (90.0, 190.0), 0.0, strokes)


@pytest.fixture
def sheet() -> Sheet:
    """Return an A3 sheet with frame, title block, hole table and a view with every kind of stroke."""
    size = frame.sheet_size("A3")
    rows = [HoleRow(f"A{i}", f"{10 * i}", f"({math.pi * i:.3f})", "⌀5", path=f"/features/{i}") for i in range(1, 5)]
    (blocks,) = hole_table.place(hole_table.hole_table(rows), [((250.0, 280.0), 100.0, 80.0)])
    items = (*_strokes(), _linear(), _aligned(), _angular(), _detail(), _running())
    view = Group("top view", items, ((50.0, 100.0), (240.0, 240.0)))
    groups = (frame.frame(size), title_block.title_block(BLOCK, size), *blocks, view)
    return Sheet("drawing", size.width, size.height, 1.0, "mm", groups, BLOCK.as_fields())
