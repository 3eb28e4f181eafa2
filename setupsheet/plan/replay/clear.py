"""Ways that must be clear: into the cut, between cuts, past the jaws, and room for the shank.

A cutter that enters from outside must start clear of metal; between two cuts it travels at its clear
height; its shank follows it down; and nothing of it may meet what holds the part. All in the setup frame.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from setupsheet.plan.replay import metal
from setupsheet.plan.replay.arcs import arc_area, arc_leg
from setupsheet.plan.replay.cut import Json, Run, cutters, largest_radius, rough_run, way
from setupsheet.plan.replay.metal import Metal
from setupsheet.plan.replay.sites import name_of, top_of
from setupsheet.plane import Point2, Point3, polar

_TOUCH_MM3 = 1e-3
"""mm3: less than this is two surfaces that touch, as a cutter's side does the wall it has cut."""
_SAME = 1e-6


@dataclass(frozen=True, slots=True)
class _Must:
    """A room that must hold no metal before cut ``index`` (moves first, then arcs); ``words`` say what is wrong."""

    room: Metal
    index: int
    words: str


def holders(setup: Json) -> list[tuple[str, Metal]]:
    """Return the named bodies that hold the part."""
    found = []
    for body in setup["hold"]["bodies"]:
        low, high = tuple(body["low"]), tuple(body["high"])
        if body["radius_mm"] > 0:
            centre = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
            room = metal.drawn_up(
                metal.moved(metal.disc(body["radius_mm"], rough_run(48).how), centre), low[2], high[2]
            )
        else:
            room = metal.box(low, high)
        if not room.is_empty():
            found.append((body["name"], room))
    return found


def highest(body: Metal, setup: Json) -> float:
    """Return a height above the metal and everything that holds it."""
    return max([top_of(body), *(float(held["high"][2]) + 1.0 for held in setup["hold"]["bodies"])])


def overlap(a: tuple[Point3, Point3], b: tuple[Point3, Point3], slack: float = 0.0) -> bool:
    """Tell whether two boxes overlap by more than nothing (``slack``: or are that near)."""
    return all(a[0][k] < b[1][k] + slack and b[0][k] < a[1][k] + slack for k in range(3))


def meets(a: Metal, b: Metal) -> bool:
    """Tell whether two bodies have more in common than surfaces that touch."""
    if a.is_empty() or b.is_empty() or not overlap(metal.bounds(a), metal.bounds(b)):
        return False
    return metal.is_there(metal.shared(a, b), _TOUCH_MM3)


def starts_and_ways(body: Metal, setup: Json, step: Json, run: Run) -> list[str]:
    """Object when a cut begins inside metal, or the way to it at the clear height leads through metal."""
    top = highest(body, setup)
    boxes = [metal.bounds(body), *(metal.bounds(held) for _, held in holders(setup))]
    musts = _starts(setup, step, run, boxes) + _ways(setup, step, run, top) + _plunges(setup, step, run, boxes)
    said = _drilled(body, setup, step)
    if not musts:
        return said
    near = [must for must in musts if overlap(metal.bounds(must.room), metal.bounds(body))]
    if near and meets(metal.join([must.room for must in near]), body):
        said += _one_by_one(near, body, lambda index: _earlier(step, index, top))
    for name, held in holders(setup):
        said += [f"{must.words} ({name} is in the way)" for must in musts if meets(must.room, held)]
    return list(dict.fromkeys(said))


def _one_by_one(musts: Sequence[_Must], body: Metal, earlier: Callable[[int], list[Metal]]) -> list[str]:
    said = []
    for must in musts:
        if not meets(must.room, body):
            continue
        stands = metal.cut(metal.shared(must.room, body), earlier(must.index))
        if metal.is_there(stands, _TOUCH_MM3):
            said.append(must.words)
    return said


def _earlier(step: Json, index: int, top: float) -> list[Metal]:
    """Return what a step has swept before its cut ``index``, a hair larger than the numbers say."""
    moves = step["moves"][: max(index, 0)]
    arcs = step["arcs"][: max(index - len(step["moves"]), 0)]
    before = {**step, "moves": moves, "positions": [], "arcs": arcs, "rings": []}
    rough = rough_run(32)
    return cutters([before], Run(1, 0.001, 0.0, rough.how), top)


def _comes_near(at: Point2, z: float, radius: float, boxes: Sequence[tuple[Point3, Point3]]) -> bool:
    """Tell whether a cutter that stands at a point, from z upwards, reaches into any of the boxes."""
    return any(
        low[0] < at[0] + radius
        and at[0] - radius < high[0]
        and low[1] < at[1] + radius
        and at[1] - radius < high[1]
        and z < high[2]
        for low, high in boxes
    )


def _cuts(step: Json) -> list[Json]:
    """Return where each cut begins, moves first: an arc as the way along which its cutter is fed in."""
    fed = [
        {
            "entry": arc.get("entry", "outside"),
            "z": arc["z"],
            "z_clear": arc.get("z_clear", arc["z"]),
            "path": arc_leg(arc),
        }
        for arc in step["arcs"]
    ]
    return [*step["moves"], *fed]


def _starts(setup: Json, step: Json, run: Run, boxes: Sequence[tuple[Point3, Point3]]) -> list[_Must]:
    musts = []
    top = max(high[2] for _, high in boxes) + 1.0
    for index, move in enumerate(_cuts(step)):
        if move["entry"] != "outside" or not move["path"]:
            continue
        if not _comes_near(_point(move["path"][0]), move["z"], largest_radius(step["tool"]), boxes):
            continue
        only = {**move, "path": move["path"][:1], "by": "table"}
        start = {**step, "moves": [only], "positions": [], "arcs": [], "rings": []}
        words = (
            f"{name_of(setup, step)}: the cut at Z {move['z']:g} should start outside the metal, but at "
            f"X {move['path'][0][0]:g} Y {move['path'][0][1]:g} the cutter stands in it"
        )
        musts += [_Must(room, index, words) for room in cutters([start], run, top)]
    return musts


def _ways(setup: Json, step: Json, run: Run, top: float) -> list[_Must]:
    musts = []
    radius = largest_radius(step["tool"]) + run.grow()
    for index, (last, move) in enumerate(zip(step["moves"], step["moves"][1:], strict=False), 1):
        height = max(last["z_clear"], move["z_clear"]) - run.grow()
        if height >= top or not last["path"] or not move["path"] or last["path"][-1] == move["path"][0]:
            continue
        a, b = _point(last["path"][-1]), _point(move["path"][0])
        room = metal.drawn_up(way([a, b], radius, run.how), height, top)
        words = (
            f"{name_of(setup, step)}: going at Z {height:g} from X {a[0]:g} Y {a[1]:g} to X {b[0]:g} Y {b[1]:g} "
            "the cutter meets metal that stands"
        )
        if not room.is_empty():
            musts.append(_Must(room, index, words))
    return musts + _turnings(setup, step, run, top)


def _turnings(setup: Json, step: Json, run: Run, top: float) -> list[_Must]:
    """Return the rooms that the cutter passes, lifted, while the table is turned back for the next arc."""
    musts = []
    radius = largest_radius(step["tool"]) + run.grow() if step["arcs"] else 0.0
    for index, (last, arc) in enumerate(pairwise(step["arcs"]), len(step["moves"]) + 1):
        height = max(last["z_clear"], arc["z_clear"]) - run.grow()
        if height >= top or math.dist(_arc_end(last), arc_leg(arc)[0]) < _SAME:
            continue
        back = {**last, "from_deg": arc["from_deg"], "to_deg": last["to_deg"]}
        ways = [arc_area(back, radius, run.how), way([_arc_end(arc, "from_deg"), arc_leg(arc)[0]], radius, run.how)]
        words = f"{name_of(setup, step)}: turning the table back at Z {height:g} the cutter meets metal that stands"
        room = metal.drawn_up(metal.join_areas(ways), height, top)
        if not room.is_empty():
            musts.append(_Must(room, index, words))
    return musts


def _arc_end(arc: Json, key: str = "to_deg") -> Point2:
    """Return where the cutter's centre stands at an end of an arc."""
    return polar(_point(arc["centre"]), float(arc["radius"]), float(arc[key]))


def _plunges(setup: Json, step: Json, run: Run, boxes: Sequence[tuple[Point3, Point3]]) -> list[_Must]:
    musts = []
    top = max(high[2] for _, high in boxes) + 1.0
    for p in step["positions"]:
        if not step["removes"] or not _comes_near((p["x"], p["y"]), p["z_from"], largest_radius(step["tool"]), boxes):
            continue
        start = {**step, "positions": [{**p, "z_to": p["z_from"]}], "moves": [], "arcs": [], "rings": []}
        words = (
            f"{name_of(setup, step)}: {p['label'] or p['feature']} should start at Z {p['z_from']:g}, "
            "but the cutter stands in metal there"
        )
        musts += [_Must(room, 0, words) for room in cutters([start], run, top)]
    return musts


def _drilled(body: Metal, setup: Json, step: Json) -> list[str]:
    said = []
    for move in _cuts(step):
        if move["entry"] == "drilled" and move["path"]:
            at = _point(move["path"][0])
            if metal.first_metal(body, at, top_of(body), move["z"] + 1e-3) is not None:
                said.append(f"{name_of(setup, step)}: no drilled hole to enter by at X {at[0]:g} Y {at[1]:g}")
    return list(dict.fromkeys(said))


def _point(pair: Sequence[float]) -> Point2:
    return float(pair[0]), float(pair[1])


def meets_holders(setup: Json, step: Json, swept: Sequence[Metal], shanks: Sequence[Metal]) -> list[str]:
    """Object when a cutter or its shank meets a jaw, clamp, parallel, stop or the table."""
    said = []
    for name, held in holders(setup):
        for what, bodies in (("cutter", swept), ("shank", shanks)):
            if any(meets(body, held) for body in bodies):
                said.append(f"{name_of(setup, step)}: the {what} meets {name}")
    return said


def meets_metal(setup: Json, step: Json, shanks: Sequence[Metal], stands: Metal) -> list[str]:
    """Object when the shank meets metal that this step leaves standing."""
    if any(meets(body, stands) for body in shanks):
        return [
            f"{name_of(setup, step)}: the shank of {step['tool']['label']} meets metal that stands: flutes too short"
        ]
    return []


def ways_of(step: Json) -> Iterator[tuple[list[Point2], float]]:
    """Yield the straight ways of a step's cutter with their heights; of an arc the way along which it is fed in."""
    yield from (([_point(p) for p in move["path"]], move["z"]) for move in step["moves"])
    yield from ((arc_leg(arc), arc["z"]) for arc in step["arcs"])


def shanks(step: Json, top: float) -> list[Metal]:
    """Return the rooms that a cutter's shank takes, between flutes and holder, below ``top``."""
    tool = step["tool"]
    if tool is None or tool["flute_length_mm"] <= 0 or tool["stickout_mm"] <= tool["flute_length_mm"]:
        return []
    radius, how = tool["shank_diameter_mm"] / 2, rough_run(32).how
    ways = list(ways_of(step))
    if radius > largest_radius(tool):
        ways += [([(p["x"], p["y"])], p["z_to"]) for p in step["positions"]]
    rooms = []
    for path, z in ways:
        low, high = z + tool["flute_length_mm"], min(top, z + tool["stickout_mm"])
        if radius > 0 and low < high and path:
            rooms.append(metal.drawn_up(way(path, radius, how), low, high))
    for arc in step["arcs"]:
        low, high = arc["z"] + tool["flute_length_mm"], min(top, arc["z"] + tool["stickout_mm"])
        if radius > 0 and low < high:
            rooms.append(metal.drawn_up(arc_area(arc, radius, how), low, high))
    return rooms
