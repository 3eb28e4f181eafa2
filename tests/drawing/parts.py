"""Small parts for the tests of the drawing stage, built as records; no spec file is read."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from setupsheet.finding import Place
from setupsheet.length import Length, Unit
from setupsheet.part.face import Box, Face
from setupsheet.part.feature import (
    BoltCircle,
    CornerRadius,
    Counterbore,
    Countersink,
    EdgeChamfer,
    EdgeCut,
    Feature,
    Hole,
    Keep,
    Level,
    Mark,
    Pocket,
    Position,
    RingGroove,
    RoundBoss,
    RoundedEnd,
    Size,
    Slot,
    Spot,
    Thread,
)
from setupsheet.part.part import Datum, Drawing, GeneralTolerance, Part, Stock, Title
from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape, SlotShape
from setupsheet.plane import Point2, Point3, polar

HERE = Place("test.yaml", 1, 1)


def size(mm: float, written: str = "", kind: str = "general", lower: float = -0.1, upper: float = 0.1) -> Size:
    """Return a size with deviations about it."""
    return Size(mm, mm + lower, mm + upper, written or f"{mm:g}", kind)


def fit_size(mm: float, upper: float) -> Size:
    """Return an H7 size; the upper deviation comes from the caller."""
    return Size(mm, mm, mm + upper, f"{mm:g} H7", "fit", "H7", "ISO 286-2")


def plain_hole(id_: str, at: Point2, diameter: float, height: float, label: str = "") -> Hole:
    """Return a drilled hole right through from the top."""
    return Hole(id_, HERE, Face.TOP, "plain", size(diameter), f"{diameter:g}", (Spot(label or id_, at, height, 0.0),))


def ring(id_: str, centre: Point2, pcd: float, count: int, height: float, start: float = 15.0) -> Hole:
    """Return clearance holes on a pitch circle with a position tolerance to B."""
    spots = tuple(Spot(f"R{k + 1}", polar(centre, pcd / 2, start + k * 360 / count), height, 0.0) for k in range(count))
    pattern = BoltCircle(centre, pcd, count, start)
    diameter = size(4.5, "M4 medium", "clearance")
    near = Position(0.2, "B", "")
    return Hole(id_, HERE, Face.TOP, "clearance", diameter, "M4 medium", spots, pattern, position=near)


def tapped(id_: str, at: Point2, height: float, depth: float | None = None) -> Hole:
    """Return an M5 hole, blind when a depth is given (minor diameter: ISO 724)."""
    thread = Thread("M5", "metric coarse", 5.0, 0.8, 4.134, "6H", "60", "ISO 724")
    exit_mm = 0.0 if depth is None else height - depth
    hole = Hole(
        id_,
        HERE,
        Face.TOP,
        "tap",
        Size(4.134, 4.134, 4.334, "M5", "thread", "6H"),
        "M5",
        (Spot(id_, at, height, exit_mm),),
        thread=thread,
    )
    if depth is None:
        return hole
    return replace(hole, through=False, depth_mm=depth, drill_depth_mm=depth + 2.0)


def part(
    features: tuple[Feature, ...],
    box: Point3 = (80.0, 60.0, 15.0),
    standard: str = "iso",
    projection: str = "first",
    unit: Unit = Unit.MM,
) -> Part:
    """Return a part of a size with these features; lower left front corner at the origin."""
    low = (0.0, 0.0, 0.0)
    each = dict.fromkeys(Face, 1.0)
    stock_box = Box((-1.0, -1.0, -1.0), (box[0] + 1, box[1] + 1, box[2] + 1))
    lengths = tuple(Length(Fraction(str(v)), f"{v:g}") for v in box)
    tolerance = GeneralTolerance("ISO 2768-1", "m", {}, 1.0, "ISO 2768-1 m")
    if unit is Unit.INCH:
        tolerance = GeneralTolerance("by places", "", {2: 0.254, 3: 0.127, 4: 0.0127}, 1.0, "by places")
    return Part(
        name="Test part",
        number="T-1",
        revision="A",
        unit=unit,
        material="aluminium 6082",
        material_group="aluminium",
        density_kg_m3=2700.0,
        tolerance=tolerance,
        box=Box(low, box),
        size=(lengths[0], lengths[1], lengths[2]),
        envelope={},
        stock=Stock("plate", stock_box, (lengths[0], lengths[1], lengths[2]), each, {}),
        datums=(Datum("A", Face.BOTTOM), Datum("C", Face.FRONT)),
        points={},
        features=features,
        setups=(),
        deburr_mm=0.3,
        title=Title(owner="Star tracker project"),
        drawing=Drawing(standard, projection),
        revisions=(),
        notes=(),
        defaults=(),
        source_file="test.yaml",
        sha256="0" * 64,
        files_read=("test.yaml",),
    )


def everything() -> Part:
    """Return a part that has every kind of feature."""
    bore = (40.0, 45.0)
    step = BoxShape((90.0, 0.0), (120.0, 80.0))
    features: tuple[Feature, ...] = (
        RoundBoss("boss", HERE, Face.TOP, bore, size(24.0, "24 -0.05/-0.15", "limits", -0.15, -0.05), size(20.0)),
        Level("floor", HERE, Face.TOP, None, size(14.0), (Keep(CircleShape(bore, 24.0), "boss"),)),
        Level("step", HERE, Face.TOP, step, size(10.0)),
        Level("relief", HERE, Face.BOTTOM, BoxShape((20.0, 0.0), (60.0, 80.0)), size(1.5)),
        Hole("bore", HERE, Face.TOP, "fit", fit_size(12.0, 0.018), "12 H7", (Spot("bore", bore, 20.0, 1.5),)),
        ring("screws", bore, 46.0, 6, 14.0),
        tapped("T1", (105.0, 15.0), 10.0, 5.0),
        replace(plain_hole("S1", (105.0, 65.0), 5.5, 10.0), counterbore=Counterbore(size(10.0), 4.0, "for M5")),
        replace(plain_hole("K1", (10.0, 70.0), 4.5, 14.0), countersink=Countersink(size(9.0), 90.0, "for M4")),
        Pocket(
            "pocket",
            HERE,
            Face.TOP,
            BoxShape((70.0, 50.0), (86.0, 72.0), 3.0),
            14.0,
            size(8.0),
            8.0,
        ),
        Slot(
            "slot",
            HERE,
            Face.TOP,
            SlotShape((72.0, 12.0), (84.0, 12.0), 6.0),
            size(6.0),
            14.0,
            None,
            0.0,
        ),
        EdgeCut("slant", HERE, Face.TOP, ((108.0, 80.0), (120.0, 68.0)), (0.5**0.5, 0.5**0.5), None, None),
        EdgeCut(
            "end",
            HERE,
            Face.TOP,
            ((0.0, 0.0), (0.0, 80.0)),
            (-1.0, 0.0),
            Face.LEFT,
            None,
            size(40.0, "40 ±0.05", "limits", -0.05, 0.05),
            "bore",
        ),
        CornerRadius("corner", HERE, Face.TOP, (112.0, 8.0), size(8.0), (1, -1), "front right"),
        RingGroove("groove", HERE, Face.TOP, (105.0, 40.0), size(14.0), size(18.0), 10.0, size(8.2)),
        EdgeChamfer("bevel", HERE, Face.BOTTOM, (Face.RIGHT,), size(1.0)),
        Mark("stamp", HERE, Face.TOP, (10.0, 10.0), "stamp number here"),
    )
    whole = part(features, (120.0, 80.0, 20.0))
    return replace(whole, datums=(*whole.datums, Datum("B", None, "bore")))


def rounded() -> Part:
    """Return a lever with a rounded end and a window of many corners."""
    features: tuple[Feature, ...] = (
        RoundedEnd("end", HERE, Face.TOP, (60.0, 15.0), size(15.0), Face.RIGHT),
        plain_hole("P1", (60.0, 15.0), 8.0, 8.0),
        Pocket(
            "window",
            HERE,
            Face.TOP,
            PolygonShape(((10.0, 8.0), (35.0, 8.0), (35.0, 22.0), (10.0, 22.0)), 2.0),
            8.0,
            None,
            0.0,
        ),
    )
    return part(features, (75.0, 30.0, 8.0))
