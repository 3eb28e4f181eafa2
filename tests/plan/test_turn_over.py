"""After every turn-over the sheet's own numbers find the part: holes, sums, walls, texts, over all plans."""

from __future__ import annotations

import math
import re

import pytest

from setupsheet.part.feature import Hole, RoundBoss
from setupsheet.part.part import Part
from setupsheet.plan.record import Move, Plan, Setup, Step
from setupsheet.plane import Point2, polar
from setupsheet.solid import column
from setupsheet.solid.volume import Primitive
from setupsheet.solid.volumes import finished_volumes
from tests.plan.planned import DEMOS, SPECS, in_part, parse_shown, plan_of, read

EVERY = (*DEMOS, *SPECS)


def _gone(part: Part) -> tuple[Primitive, ...]:
    return tuple(shape for volume in finished_volumes(part).values() for shape in volume)


def _read(setup: Setup, axis: str, text: str) -> float:
    return parse_shown(text, setup.readout[axis], setup.counts[axis])


def _texts(setup: Setup) -> list[tuple[str, str, float]]:
    """Return axis, printed text and number of everything that a setup prints as a reading."""
    found = [(zero.axis, zero.key_in.removeprefix(f"{zero.axis.upper()} "), zero.reading) for zero in setup.zero]
    found += [(edge.axis, edge.shown, edge.value) for edge in setup.edges]
    if setup.witness:
        found += [(axis, setup.witness.shown[axis], getattr(setup.witness, axis)) for axis in "xy"]
    for step in setup.steps:
        found += _texts_of(step)
    return found


def _texts_of(step: Step) -> list[tuple[str, str, float]]:
    found = [(limit.axis, limit.shown, limit.value) for limit in step.limits]
    for at in step.positions:
        found += [("x", at.shown["x"], at.x), ("y", at.shown["y"], at.y)]
        assert ("z" in at.shown) == (step.operation != "scribe")  # a point pricks: no depth is read off
        found += [("z", at.shown["z"], at.z_to)] if "z" in at.shown else []
    for pair in step.points:
        other = "y" if pair.step_axis == "x" else "x"
        found += [(pair.step_axis, pair.shown_step, pair.step), (other, pair.shown_stop, pair.stop)]
    if step.touch_off:
        off = step.touch_off
        found += [("x", off.shown["x"], off.x), ("y", off.shown["y"], off.y)]
    return found


@pytest.mark.parametrize("name", EVERY)
def test_printed_readings_are_the_numbers(name: str) -> None:
    """Every printed reading, dial or readout, read back as a person reads it, is the number that is cut."""
    for setup in plan_of(name).setups:
        assert len(_texts(setup)) > 3
        for axis, text, value in _texts(setup):
            assert _read(setup, axis, text) == pytest.approx(value, abs=1e-6), (setup.name, axis, text)


@pytest.mark.parametrize("name", EVERY)
def test_readings_are_multiples_of_the_step(name: str) -> None:
    """Nothing is printed or cut that the machine's readout or dial cannot show."""
    for setup in plan_of(name).setups:
        numbers = [(axis, value) for axis, _, value in _texts(setup)]
        for step in setup.steps:
            numbers += [("z", move.z) for move in step.moves]
            numbers += [(axis, point[i]) for move in step.moves for point in move.path for i, axis in enumerate("xy")]
            numbers += [(axis, ring.centre[i]) for ring in step.rings for i, axis in enumerate("xy")]
        for axis, value in numbers:
            readout = setup.readout[axis]
            count = value / (readout.step_mm or readout.division_mm)
            assert count == pytest.approx(round(count), abs=1e-4), (setup.name, axis, value)


def _through_places(part: Part, plan: Plan) -> list[tuple[Setup, Hole, Point2, str]]:
    """Return each printed place of a through hole: the setup, the hole, X and Y as read, the label."""
    holes = {f.id: f for f in part.features if isinstance(f, Hole) and f.through}
    return [
        (setup, holes[at.feature], (_read(setup, "x", at.shown["x"]), _read(setup, "y", at.shown["y"])), at.label)
        for setup in plan.setups
        for step in setup.steps
        for at in step.positions
        if at.feature in holes
    ]


def _is_over(part: Part, axes: tuple[int, int], at: Point2) -> bool:
    """Tell whether a place lies within the part's outline: a hole may break its edge."""
    return all(part.box.low[axis] < value < part.box.high[axis] for axis, value in zip(axes, at, strict=True))


@pytest.mark.parametrize("name", [name for name in EVERY if _through_places(read(name)[0], plan_of(name))])
def test_axes_of_through_holes_meet_the_solid(name: str) -> None:
    """A line down the spindle at the printed X, Y runs free through the finished solid, with metal close round it."""
    part, plan = read(name)[0], plan_of(name)
    gone = _gone(part)
    for setup, hole, (x, y), label in _through_places(part, plan):
        axis = hole.face.axis
        u, v = hole.face.in_plane
        here = in_part(setup, (x, y, 0.0))
        assert column.metal(part.box, gone, axis, (here[u], here[v])) == (), (label, here)
        true = next(spot.at for spot in hole.spots if spot.label == label)
        step = setup.readout["x"].step_mm or setup.readout["x"].division_mm
        assert math.dist((here[u], here[v]), true) <= 0.7072 * step + 1e-9
        around = [polar((here[u], here[v]), hole.diameter.upper_mm / 2 + 3 * step, turn) for turn in range(0, 360, 30)]
        ring = [at for at in around if _is_over(part, (u, v), at)]
        assert len(ring) >= 6, label
        assert all(column.metal(part.box, gone, axis, at) for at in ring), (label, here)


_SUM = re.compile(
    r"^machine (?P<axis>[XYZ]) = (?:(?P<first>[\d.]+) (?P<op>[+-]) )?(?P<minus>minus )?"
    r"(?P<name>drawing [xyz]|height above (?:\w+|the \w+))(?: (?P<last_op>[+-]) (?P<last>[\d.]+))?$"
)


def _by_sum(text: str, part_point: tuple[float, float, float], unit_mm: float) -> tuple[str, float]:
    """Return the axis and the machine's coordinate (mm) that a printed sum gives for a part point."""
    match = _SUM.match(text)
    assert match, text
    index = "xyz".index(match["name"][-1]) if match["name"].startswith("drawing") else 2
    value = part_point[index] / unit_mm
    value = -value if match["minus"] else value
    if match["first"]:
        value = float(match["first"]) + (value if match["op"] == "+" else -value)
    if match["last"]:
        value += float(match["last"]) * (1 if match["last_op"] == "+" else -1)
    return match["axis"].lower(), value * unit_mm


@pytest.mark.parametrize("name", EVERY)
def test_sums_agree_with_the_positions(name: str) -> None:
    """The printed sum, worked out with the drawing's coordinates of a hole, gives the printed position."""
    plan = plan_of(name)
    unit = 1.0 if plan.unit == "mm" else 25.4
    places = {(f.id, label): at for f in plan.features for label, at in zip(f.labels, f.places, strict=False)}
    for setup in plan.setups:
        if setup.angle_setting is not None:
            continue  # X and Z are no sums of drawing sizes there
        sums, rest = setup.sums[:3], setup.sums[3:]
        assert [_SUM.match(text) is not None for text in sums] == [True] * 3
        assert [text.startswith("dials: ") for text in rest] == [True] * (setup.readout["x"].kind == "dial")
        drilled = [at for step in setup.steps for at in step.positions if (at.feature, at.label) in places]
        for at in drilled:  # not the holes that a cutter enters an opening by: no drawing gives their places
            by_axis = dict(_by_sum(text, places[(at.feature, at.label)], unit) for text in sums)
            step = setup.readout["x"].step_mm or setup.readout["x"].division_mm
            assert (at.x, at.y) == pytest.approx((by_axis["x"], by_axis["y"]), abs=step / 2 + unit * 5e-4)


def _last_ways(setup: Setup) -> list[tuple[Step, Move]]:
    return [(s, m) for s in setup.steps for m in s.moves if s.tool and s.tool.kind == "end mill" and m.why != "rough"]


@pytest.mark.parametrize("name", EVERY)
def test_walls_stay_a_cutter_radius_away(name: str) -> None:
    """Nothing of the finished part higher than the cutter's end lies within its radius of a last pass or a point.

    A boss by points is cut to the middle of its limits, which may lie under the nominal size that is drawn here.
    """
    part, plan = read(name)[0], plan_of(name)
    gone = _gone(part)
    bosses = [f.diameter for f in part.features if isinstance(f, RoundBoss)]
    under = max((size.nominal_mm - size.lower_mm for size in bosses), default=0.0) / 2
    for setup in plan.setups:
        step_mm = setup.readout["x"].step_mm or setup.readout["x"].division_mm
        for step, move in _last_ways(setup):
            assert step.tool is not None
            reach = step.tool.diameter_mm / 2 - 0.71 * step_mm - 0.003 - under
            for at in _along(move):
                for turn in range(0, 360, 45):
                    x, y = polar(at, reach, turn)
                    assert not _stands(part, gone, setup, (x, y, move.z + step_mm)), (setup.name, step.title, x, y)


def _along(move: Move) -> list[Point2]:
    """Return a few places on a way: its corners and quarters of each leg."""
    found = [move.path[0]]
    for a, b in zip(move.path, move.path[1:], strict=False):
        found += [(a[0] + (b[0] - a[0]) * i / 4, a[1] + (b[1] - a[1]) * i / 4) for i in range(1, 5)]
    return found


def _stands(part: Part, gone: tuple[Primitive, ...], setup: Setup, point: tuple[float, float, float]) -> bool:
    """Tell whether the finished part stands over a point of the setup frame."""
    rows = setup.part_to_setup
    axis = next(i for i in range(3) if abs(rows[2][i]) > 0.5)
    here = in_part(setup, point)
    others = [here[i] for i in range(3) if i != axis]
    spans = column.metal(part.box, gone, axis, (others[0], others[1]))
    return any(high > here[axis] if rows[2][axis] > 0 else low < here[axis] for low, high in spans)


@pytest.mark.parametrize("name", EVERY)
def test_stops_are_reached_from_the_open_side(name: str) -> None:
    """Every printed stop is one that a last pass runs along, and its side lies across its axis."""
    plan = plan_of(name)
    for setup in plan.setups:
        for step in setup.steps:
            for limit in step.limits:
                index = "xy".index(limit.axis)
                ways = [
                    m for m in step.moves if m.why == "last" and any(abs(p[index] - limit.value) < 1e-6 for p in m.path)
                ]
                assert ways, (setup.name, step.title, limit.shown)
                assert limit.side in (("right", "left") if index == 0 else ("away", "near"))
