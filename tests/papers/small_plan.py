"""A small plan, typed by hand, with one of everything that the pages print. Mm, a readout of 0.005."""

from __future__ import annotations

from setupsheet.drawing.ink import Circle, Line, Pen
from setupsheet.papers.views import SetupViews, Strokes, Views
from setupsheet.plan.record import (
    Ask,
    AxisZero,
    Body,
    EdgeMark,
    FitBand,
    Hold,
    Leftover,
    Limit,
    MadeIn,
    Measure,
    Move,
    Plan,
    Position,
    Readout,
    Ring,
    RingFunction,
    Setup,
    SolidPlan,
    Step,
    StockPlan,
    StopPair,
    ToolLine,
    ToolPlan,
    TouchOff,
    Turn,
    Verdict,
    Witness,
)
from setupsheet.plane import Point2

WIDE, DEEP, HIGH = 60.0, 40.0, 12.0
"""The blank, a plate; its lower left corner is the zero of both setups."""

END_MILL = ToolPlan("end mill", "end mill 10", True, 10.0, 180.0, 0.0, 25.0, 10.0, 40.0, ((5.0, 0.0), (5.0, 25.0)))
DRILL = ToolPlan("drill", "drill 5", False, 5.0, 118.0, 0.0, 50.0, 5.0, 60.0, ((0.0, 0.0), (2.5, 1.5), (2.5, 50.0)))

FIT = FitBand(
    "holes",
    "5 H7",
    5.0,
    5.0,
    5.012,
    5.004,
    5.010,
    "reamer 5 H7",
    "inside",
    "pin 5 m6, pressed",
    5.004,
    5.012,
    {
        "required": "5.000 to 5.012",
        "result": "5.004 to 5.010",
        "mate": "5.004 to 5.012",
        "clearance": "-0.012 to +0.008",
    },
)


def reading(value: float) -> str:
    """Return what the readout shows."""
    return f"{value:+.3f}" if value else "0.000"


def position(label: str, at: Point2, tip: float) -> Position:
    """Return a drilled place."""
    x, y = at
    shown = {"x": reading(x), "y": reading(y), "z": reading(tip), "z_full": reading(tip + 1.5)}
    return Position(label, "holes", x, y, 0.0, tip, tip + 1.5, shown)


def step(number: int, title: str, tool: ToolPlan | None, **more: object) -> Step:
    """Return a step; what is not given is empty."""
    empty: dict[str, object] = {
        "operation": "mill",
        "features": ("level",),
        "method": "table",
        "removes": True,
        "rpm": 600 if tool else 0,
        "rpm_words": "",
        "feed_mm_per_min": 0.0,
        "feed_s_per_turn": 0.0,
        "touch_off": None,
        "direction": "",
    }
    return Step(number=number, title=title, tool=tool, **{**empty, **more})  # type: ignore[arg-type]


def milling_steps() -> tuple[Step, ...]:
    """Return facing, a level with stops, and an edge by points."""
    touch = TouchOff(30.0, 20.0, 0.0, 0.1, "+0.100", "the raw top", {"x": "+30.000", "y": "+20.000", "feeler": "0.10"})
    across = Move("outside", -2.0, 5.0, ((-10.0, 10.0), (25.0, 10.0)))
    pairs = tuple(StopPair("x", 10.0 + i, 5.0 + i, reading(10.0 + i), reading(5.0 + i), "feed away") for i in range(5))
    return (
        step(1, "face all", END_MILL, operation="face", moves=(across,), z_shown=("0.000",), touch_off=touch),
        step(
            2,
            "level",
            END_MILL,
            moves=(across,),
            z_shown=("-1.000", "-2.000"),
            direction="conventional",
            limits=(Limit("x", 25.0, "right", "+25.000", "the step's wall"),),
            checks=(Ask("depth of the level", "1.9 to 2.1"),),
            feed_shown="one turn in 1.5 s",
        ),
        step(
            3,
            "slant by points",
            END_MILL,
            method="by_points",
            points=pairs,
            z_shown=("-2.000",),
            leftover=(Leftover("cusp", ("slant",), 0.1, "file the ridges of 0.1 off"),),
        ),
    )


def drilling_steps(places: tuple[tuple[str, Point2], ...]) -> tuple[Step, ...]:
    """Return spotting to two depths, drilling to one, a ring with the boring head, and deburring."""
    spots = tuple(position(label, at, -2.0 if i % 2 else -2.5) for i, (label, at) in enumerate(places))
    holes = tuple(position(label, at, -14.0) for label, at in places)
    ring = Ring((30.0, 20.0), 5.0, 6.0, 0.0, -3.0, "in", "10.00")
    return (
        step(4, "spot all", DRILL, operation="spot", method="quill", positions=spots),
        step(5, "drill all", DRILL, operation="drill", method="quill", positions=holes, cautions=("ease off below",)),
        step(6, "boss", END_MILL, method="boring_head", rings=(ring,), z_shown=("-3.000",), words=("edge inward",)),
        step(7, "break the edges", None, operation="deburr", method="by_hand", removes=False, not_proved="by hand"),
    )


PLACES: tuple[tuple[str, Point2], ...] = (("H1", (10.0, 10.0)), ("H2", (50.0, 10.0)), ("H3", (50.0, 30.0)))


def setup(number: int, places: tuple[tuple[str, Point2], ...] = PLACES) -> Setup:
    """Return a setup in a vise."""
    jaws = (
        Body("fixed jaw", (-20.0, 40.0, -30.0), (80.0, 65.0, -4.0)),
        Body("moving jaw", (-20.0, -25.0, -30.0), (80.0, 0.0, -4.0)),
        Body("parallel at the back", (-20.0, 34.0, -30.0), (80.0, 40.0, -10.0)),
    )
    zero = tuple(
        AxisZero(
            axis, "corner", 0.0, "edge finder", "the left end", "its left", 10.0, 0.0, -5.0, "-5.000", "half the tip"
        )
        for axis in "xyz"
    )
    return Setup(
        number=number,
        name=f"side {number}",
        machine="mill",
        up="top" if number == 1 else "bottom",
        fixed_jaw="back",
        turn=Turn("y", 180.0 if number > 1 else 0.0, "turn it like a page, left over right"),
        witness=Witness("holes", "H1", 10.0, 10.0, 5.0, {"x": "+10.000", "y": "+10.000"}, "a 5 pin goes into H1"),
        mark="stamp BL on the end",
        hold=Hold(
            "vise",
            ("on parallels",),
            6.0,
            6.0,
            5.5,
            -4.0,
            "parallels",
            jaws,
            {"grip": "6", "proud_after": "5.5", "jaw_top": "Z -4.000"},
        ),
        zero=zero,
        sums=("machine X = drawing x",),
        part_to_setup=((1.0, 0.0, 0.0, 0.0), (0.0, 1.0, 0.0, 0.0), (0.0, 0.0, 1.0, -12.0), (0.0, 0.0, 0.0, 1.0)),
        counts={"x": 1, "y": 1, "z": 1},
        readout={axis: Readout("readout", 0.005, 0.0, 0.0, "mm", 0.0) for axis in "xyz"},
        volume_before_mm3=28800.0,
        volume_after_mm3=20000.0,
        before_cutting=("drive to X +60.000",),
        steps=(*milling_steps(), *drilling_steps(places)),
        rings=(RingFunction("holes", (30.0, 20.0), 22.0, "H1", 45.0, "counter-clockwise", 3, 30.0, {}, "radius 22"),),
        cautions=("jaws at -4.000",),
        edges=tuple(EdgeMark("x", v, reading(v), "edge") for v in (0.0, 2.0, 3.0, 60.0))
        + tuple(EdgeMark("y", v, reading(v), "edge") for v in (0.0, 1.0, 40.0)),
        mark_at=(0.0, 40.0, -8.0),
        mark_label="B-L",
    )


def plan(places: tuple[tuple[str, Point2], ...] = PLACES) -> Plan:
    """Return the plan of two setups."""
    identity = ((1.0, 0.0, 0.0, 0.0), (0.0, 1.0, 0.0, 0.0), (0.0, 0.0, 1.0, 0.0), (0.0, 0.0, 0.0, 1.0))
    box = ((0.0, 0.0, 0.0), (WIDE, DEEP, HIGH))
    return Plan(
        format=1,
        part="Plate",
        number="P-1",
        revision="A",
        unit="mm",
        spec_sha256="ab" * 32,
        shop_sha256="cd" * 32,
        program_version="0",
        defaults_applied=(),
        material="aluminium",
        stock=StockPlan(
            "plate",
            (WIDE, DEEP, HIGH),
            "60 x 40 x 12",
            (),
            identity,
            (59.0, 39.0, 11.5),
            "59 x 39 x 11.5",
            0.1,
            "0.1 kg",
        ),
        solid=SolidPlan(20000.0, box, 0.002, (), 0.05, "0.05 kg", "60 x 40 x 11.5"),
        features=(),
        setups=(setup(1, places), setup(2, places)),
        order_reasons=("the big face first",),
        measure=(
            Measure("level", "depth", 1.9, 2.1, "1.9 to 2.1", "depth gauge", MadeIn(1, 2), close=True),
            Measure("holes", "pitch", 39.8, 40.2, "39.8 to 40.2", "caliper over pins", None, "over 5 pins 44.8"),
        ),
        tools=(ToolLine("end mill 10", True, (1, 2), ""), ToolLine("drill 5", False, (1,), "none in the drawer")),
        watch=("thin wall",),
        cautions=("glasses on",),
        not_proved=("edges by hand",),
        findings=(),
        replay=Verdict(True, (0.01,), ("nothing gouged",)),
        revisions=({"letter": "A", "date": "", "change": "first issue"},),
        notes=("anodise after",),
        fits=(FIT,),
    )


def plate(places: tuple[tuple[str, Point2], ...] = PLACES) -> Strokes:
    """Return the plate's outline and its holes, seen from above."""
    corners = ((0.0, 0.0), (WIDE, 0.0), (WIDE, DEEP), (0.0, DEEP))
    sides = tuple(Line(Pen.VISIBLE, a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))
    return (*sides, *(Circle(Pen.VISIBLE, at, 2.5) for _, at in places))


def views(places: tuple[tuple[str, Point2], ...] = PLACES) -> Views:
    """Return flat pictures for both setups."""
    raw, done = plate(()), plate(places)
    return Views(done, (SetupViews(raw, done, raw, done), SetupViews(done, done, done, done)))
