"""What the replay objects to besides metal: one spoiling a rule, and the sentence that it must bring."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from setupsheet.plan.replay.replay import replay
from tests.plan.replay_blocks import DRO, Block, Json, drill, position, step
from tests.plan.replay_parts import boss, end_cut, plate, turned_over

Make = Callable[[], Block]


def _step(plan: Json, number: int, setup: int = 1) -> Any:
    return plan["setups"][setup - 1]["steps"][number - 1]


def _body(name: str, low: list[float], high: list[float], radius: float = 0.0) -> Json:
    return {"name": name, "low": low, "high": high, "radius_mm": radius}


def _hold(plan: Json, *bodies: Json) -> None:
    plan["setups"][0]["hold"]["bodies"] = list(bodies)


def _zero(plan: Json, axis: int, **fields: Any) -> None:
    plan["setups"][0]["zero"][axis].update(method="edge finder", touch="left end", **fields)


def _off_step(plan: Json) -> None:
    place = _step(plan, 3)["positions"][0]
    place["x"], place["shown"]["x"] = 10.002, "+10.002"


def _again(plan: Json) -> None:
    steps = plan["setups"][0]["steps"]
    steps.append({**steps[2], "number": 6})


def _one_idle(plan: Json) -> None:
    steps = plan["setups"][0]["steps"]
    places = [steps[2]["positions"][0], position(DRO, "N1", (25.0, 34.0), (1.0, -5.0))]
    steps.append(step(6, "drill", ["H"], drill(5.9), positions=places))


def _long_way(plan: Json) -> None:
    _step(plan, 3)["moves"][0]["path"] = [[-40.2, 40.0], [-40.0, -40.0]]


def _start_inside(plan: Json) -> None:
    _step(plan, 3)["moves"][0]["path"] = [[-40.0, 0.0], [-40.0, -40.0]]


def _low_way(plan: Json) -> None:
    moves = _step(plan, 1)["moves"]
    moves[0]["z_clear"] = moves[1]["z_clear"] = -2.0
    moves[0]["path"] = [[40.0, 40.0], [40.0, -40.0]]
    moves[1]["path"] = [[-40.0, 40.0], [-40.0, -40.0]]


def _short_flutes(plan: Json) -> None:
    tool = _step(plan, 3)["tool"]
    tool.update(flute_length_mm=10.0, shank_diameter_mm=16.0, profile=[[0, 0], [6, 0], [6, 10]])


def _wider_shank(plan: Json) -> None:
    _step(plan, 3)["tool"].update(flute_length_mm=17.0, shank_diameter_mm=20.0, stickout_mm=60.0)
    _hold(plan, _body("clamp", [-34.0, -3.0, 0.5], [-30.5, 3.0, 12.0]))


CASES: list[tuple[str, Make, Callable[[Json], object], str]] = [
    ("no multiple of the step", plate, _off_step, "no multiple of what the axis can be set to"),
    ("text and number", plate, lambda p: _step(p, 3)["positions"][0]["shown"].update(x="+10.010"), "the sheet shows X"),
    ("depth text", plate, lambda p: _step(p, 3)["positions"][0]["shown"].update(z="-13.010"), "the sheet shows Z"),
    ("counted the other way", plate, lambda p: p["setups"][0]["counts"].update(x=-1), "the sheet shows X"),
    (
        "height not shown",
        boss,
        lambda p: _step(p, 1).update(z_shown=["-4.000", "-7.990"]),
        "not among the heights shown",
    ),
    ("two handwheels at once", end_cut, _long_way, "two handwheels cannot be turned as one"),
    ("the same work again", plate, _again, "cuts nothing"),
    ("one place cut before", plate, _one_idle, "step 6 (drill) cuts nothing at H1"),
    ("no cutter's way", plate, lambda p: _step(p, 5).update(positions=[]), "no cutter's way is given"),
    ("one hole, two places", plate, lambda p: _step(p, 2)["positions"][0].update(x=10.1), "in step 2 at X 10.1"),
    (
        "too much to ream",
        plate,
        lambda p: _step(p, 4)["tool"].update(diameter_mm=6.9, profile=[[0, 0], [3.45, 2.073], [3.45, 50]]),
        "mm to ream",
    ),
    ("numbers out of order", plate, lambda p: _step(p, 2).update(number=9), "stands in place"),
    ("needs a later step", plate, lambda p: _step(p, 2).update(depends_on=[3]), "comes no earlier"),
    ("touch-off over a hole", plate, lambda p: _step(p, 4)["touch_off"].update(x=10.0, y=8.0), "stands over no metal"),
    ("touch-off too high", plate, lambda p: _step(p, 2)["touch_off"].update(z=0.5), "the surface there is at Z"),
    ("witness not there", turned_over, lambda p: p["setups"][1]["witness"].update(x=-17.0, y=6.0), "does not go in"),
    ("start in metal", end_cut, _start_inside, "should start outside the metal"),
    ("drill starts in metal", plate, lambda p: _step(p, 2)["positions"][0].update(z_from=-1.0), "should start at Z -1"),
    ("way through a boss", boss, _low_way, "meets metal that stands"),
    (
        "no drilled hole to enter",
        boss,
        lambda p: _step(p, 1)["moves"][1].update(entry="drilled", path=[[18.25, 0.0], [18.25, 18.25]]),
        "no drilled hole to enter by",
    ),
    (
        "drill into a parallel",
        plate,
        lambda p: _hold(p, _body("parallel", [0, 0, -30], [60, 12, -10])),
        "meets parallel",
    ),
    (
        "drill into a round stop",
        plate,
        lambda p: _hold(p, _body("stop", [8, 30, -30], [16, 34, -11], 4.0)),
        "meets stop",
    ),
    (
        "mill into a jaw",
        end_cut,
        lambda p: _hold(p, _body("jaw", [-40, -40, -40], [40, -14.9, -15.9])),
        "the cutter meets jaw",
    ),
    ("way through a clamp", end_cut, lambda p: _hold(p, _body("clamp", [-36, 10, 0], [-20, 50, 6])), "clamp"),
    ("shank meets metal", end_cut, _short_flutes, "the shank of end mill 12 meets metal"),
    ("shank meets a clamp", end_cut, _wider_shank, "the shank meets clamp"),
    (
        "stop that no cut reaches",
        end_cut,
        lambda p: _step(p, 3)["limits"][0].update(value=-41.0, shown="-41.000"),
        "no cut ends at the stop",
    ),
    (
        "ring and its text",
        boss,
        lambda p: _step(p, 3)["rings"][0].update(shown="then 24.10 twice"),
        "the ring ends at radius",
    ),
    ("cutter and half section", plate, lambda p: _step(p, 3)["tool"].update(diameter_mm=6.1), "its half section 6"),
    ("point angle", plate, lambda p: _step(p, 3)["tool"].update(point_angle_deg=135.0), "not that of a drill"),
    ("volume before", plate, lambda p: p["setups"][0].update(volume_before_mm3=30000.0), "said to be there before it"),
    ("volume after", plate, lambda p: p["setups"][0].update(volume_after_mm3=20000.0), "said to be there after it"),
    (
        "edge that is not there",
        plate,
        lambda p: _zero(p, 0, tip_diameter_mm=10.0, reading=-5.01),
        "nothing stands 5 from there",
    ),
    (
        "turning that is told otherwise",
        turned_over,
        lambda p: p["setups"][1]["turn"].update(moves=[["x", 180]]),
        "does not lead to part_to_setup",
    ),
    ("another face up", turned_over, lambda p: p["setups"][0].update(up="top"), "does not bring the top face up"),
    ("point not cut", boss, lambda p: _step(p, 2).update(points=[_pair("x", 17.9, 3.0)]), "of the table is not cut"),
]


def _pair(axis: str, at: float, stop: float) -> Json:
    shown = {"shown_step": DRO.text(at, axis), "shown_stop": DRO.text(stop, "y" if axis == "x" else "x")}
    return {"step_axis": axis, "step": at, "stop": stop, "group": "", **shown}


@pytest.mark.parametrize(("make", "spoil", "words"), [c[1:] for c in CASES], ids=[c[0] for c in CASES])
def test_objection(make: Make, spoil: Callable[[Json], object], words: str) -> None:
    """A sound plan spoiled in one way is objected to in words that name it."""
    made = make()
    plan = made.copy()
    spoil(plan)
    verdict = replay(plan, made.least, made.most)
    assert not verdict.proved
    assert any(words in said for said in verdict.objections), verdict.objections


SOUND: list[tuple[str, Make, Callable[[Json], object]]] = [
    ("edge found with a finder", plate, lambda p: _zero(p, 0, tip_diameter_mm=10.0, reading=-5.0)),
    ("bore indicated", plate, lambda p: p["setups"][0]["zero"][0].update(method="indicate", tip_diameter_mm=2.0)),
    ("jaws beside the cut", end_cut, lambda p: _hold(p, _body("jaw", [-30, -40, -40], [40, -15, -5]))),
    ("parallels beside the holes", plate, lambda p: _hold(p, _body("parallel", [0, 12, -30], [60, 17.5, -10]))),
    ("words for a position", plate, lambda p: _step(p, 3)["positions"][0]["shown"].update(x="as scribed")),
    ("a tap", plate, lambda p: p["setups"][0]["steps"].append(_tapped(_step(p, 3)))),
    ("a witness that is there", turned_over, lambda p: p["setups"][1]["witness"].update(pin_mm=4.5)),
]


def _tapped(drilled: Json) -> Json:
    return {**drilled, "number": 6, "operation": "tap", "removes": False, "depends_on": [3], "touch_off": None}


@pytest.mark.parametrize(("make", "change"), [c[1:] for c in SOUND], ids=[c[0] for c in SOUND])
def test_no_objection(make: Make, change: Callable[[Json], object]) -> None:
    """A change that is as sound as before is not objected to."""
    made = make()
    plan = made.copy()
    change(plan)
    verdict = replay(plan, made.least, made.most)
    assert verdict.proved, verdict.words
