"""Cutters of the replay: what a step's cutter sweeps, as metal in the setup frame, from plan.json alone.

A run makes every cutter larger (tight) or smaller (loose) by its tolerance all round and lower or higher
by the same. Cutters that share an axis are joined in their half section and turned once; flat cutters at
one height are joined in the plane and drawn out once: that keeps the solid cuts few.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

from setupsheet.plan.replay import metal
from setupsheet.plan.replay.arcs import annulus, arc_area, arc_leg, arc_reach
from setupsheet.plan.replay.metal import Area, Metal, Round
from setupsheet.plane import Point2, Point3, polar

Json = Mapping[str, Any]
"""A piece of plan.json."""

MESH_DEFLECTION_MM = 0.002
"""How far the limit bodies' meshes may be off the true surface (contracts: part_least.stl)."""
_SLACK_MM = 0.0005
_DIAGONAL = 1.4142
_SAG_MM = 0.004
"""How far a fine run's polygon may be off its circle, between the corners (or flats) where it is exact.

A fault shows at those places, dozens on each circle, so this hides none; time grows with its root.
"""
MANY = 200
"""Places above which a plan is a large one."""
_BESIDE_MM = 1.0
_FAR = 1e4
"""mm: a length of flutes that always reaches above the metal."""


@dataclass(frozen=True, slots=True)
class Run:
    """One way of running the plan. ``sign``: +1 tight, -1 loose, 0 as the numbers say; ``t_mm`` >= 0."""

    sign: int
    t_mm: float
    half_angle_rad: float
    how: Round
    room: tuple[Point2, Point2] | None = None
    """Rectangle outside which there is no metal; milling beyond it is left out, because it costs time."""

    def grow(self, radius_mm: float = 0.0) -> float:
        """Return by how much a cutter is larger (negative: smaller), ``radius_mm`` from the turning axis."""
        return self.sign * (self.t_mm + radius_mm * self.half_angle_rad)


def step_of(readout: Json) -> float:
    """Return the smallest length in mm that an axis can be set to: readout step or dial division."""
    if readout["kind"] == "dial" and readout["division_mm"] > 0:
        return float(readout["division_mm"])
    return float(readout["step_mm"])


def tolerance_mm(setup: Json) -> float:
    """Return what rounding explains in a setup, straight moves: half a step on the diagonal, and the mesh."""
    step = max((step_of(readout) for readout in setup["readout"].values()), default=0.0)
    return step / 2 * _DIAGONAL + MESH_DEFLECTION_MM + _SLACK_MM


def half_angle_rad(setup: Json) -> float:
    """Return half the angle step of a setup's rotary table or angle setting, in radians."""
    step = max((readout["angle_step_deg"] for readout in setup["readout"].values()), default=0.0)
    return math.radians(step) / 2


def run_for(setup: Json, sign: int, extra_mm: float = 0.0, box: tuple[Point3, Point3] | None = None) -> Run:
    """Return the loose (-1) or tight (+1) run of a setup, its tolerance ``extra_mm`` larger.

    ``box`` is a box of the setup frame that holds all metal, where it is known.
    """
    how = Round(inside=sign < 0, sag_mm=_SAG_MM)
    room = box and ((box[0][0] - _BESIDE_MM, box[0][1] - _BESIDE_MM), (box[1][0] + _BESIDE_MM, box[1][1] + _BESIDE_MM))
    return Run(sign, max(0.0, tolerance_mm(setup) + extra_mm), half_angle_rad(setup), how, room)


def rough_run(corners: int) -> Run:
    """Return the run with the numbers as they stand, circles as polygons of few corners."""
    return Run(0, 0.0, 0.0, Round(inside=True, sag_mm=_SAG_MM, fixed=corners, true_area=True))


# ---- half sections ---------------------------------------------------------------------------------


def profile_of(tool: Json) -> list[Point2]:
    """Return a cutter's half section [radius, height above tip], its corner radius rounded in."""
    points = [(float(r), float(h)) for r, h in tool["profile"]]
    radius = float(tool["corner_radius_mm"])
    if not points:
        half, length = float(tool["diameter_mm"]) / 2, float(tool["flute_length_mm"]) or _FAR
        points = [(0.0, 0.0), (half, 0.0), (half, length)]
    if radius > 0 and _starts_flat(points):
        reach = max(r for r, _ in points)
        arc = [polar((reach - radius, radius), radius, 270 + 90 * k / 12) for k in range(13)]
        points = [(0.0, 0.0), *arc, *[p for p in points if p[1] > radius]]
    return points


def largest_radius(tool: Json) -> float:
    """Return the largest radius of a cutter's cutting part, mm."""
    return max((float(r) for r, _ in tool["profile"]), default=float(tool["diameter_mm"]) / 2)


def is_flat(tool: Json) -> bool:
    """Tell whether a cutter is a plain cylinder with sharp corners."""
    return _starts_flat(profile_of(tool)) and float(tool["corner_radius_mm"]) == 0


def _starts_flat(points: Sequence[Point2]) -> bool:
    reach = max(r for r, _ in points)
    lowest = min(h for _, h in points)
    return any(h == lowest and r == reach for r, h in points) and all(r in (0.0, reach) for r, _ in points)


def _grown(profile: Sequence[Point2], grow: float) -> list[Point2]:
    """Shift a half section outwards and down (its end up) by ``grow``; what passes the axis is cut off there."""
    shifted = [(r + grow, h - grow) for r, h in profile]
    shifted[-1] = (shifted[-1][0], profile[-1][1] + grow)
    kept: list[Point2] = []
    for index, (r, h) in enumerate(shifted):
        if r < 0:
            continue
        if index and shifted[index - 1][0] < 0:
            r0, h0 = shifted[index - 1]
            kept.append((0.0, h0 + (h - h0) * (-r0) / (r - r0) if r > r0 else h))
        kept.append((r, h))
    return kept


def _swept_half(profile: Sequence[Point2], z_low: float, z_high: float) -> Area:
    """Return the half section that a cutter sweeps along Z with its tip from ``z_high`` down to ``z_low``."""
    if all(a[0] <= b[0] + 1e-12 and a[1] <= b[1] + 1e-12 for a, b in _pairs(profile)):
        lifted = [(r, z_low + h) for r, h in profile]
        top = z_high + profile[-1][1]
        return metal.polygon([(0.0, lifted[0][1]), *lifted, (profile[-1][0], top), (0.0, top)])
    slices = []
    for lower, upper in _pairs(profile):
        if upper[1] <= lower[1]:
            continue
        ends = [_slice(lower, upper, z) for z in (z_low, z_high)]
        slices.append(metal.hull(ends))
    return metal.join_areas(slices)


def _slice(lower: Point2, upper: Point2, z: float) -> Area:
    return metal.polygon([(0.0, z + lower[1]), (lower[0], z + lower[1]), (upper[0], z + upper[1]), (0.0, z + upper[1])])


def _pairs(points: Sequence[Point2]) -> Iterable[tuple[Point2, Point2]]:
    return pairwise(points)


# ---- hole-like work --------------------------------------------------------------------------------

_HalfKey = tuple[tuple[Point2, ...], float, float]


def hole_cutters(steps: Sequence[Json], run: Run) -> list[Metal]:
    """Return one body for each place at which these steps plunge, however many cutters go down there."""
    at: dict[Point2, dict[_HalfKey, None]] = {}
    for step in steps:
        if not step["positions"] or not step["removes"] or step["tool"] is None or _milled(step):
            continue
        profile = tuple(_grown(profile_of(step["tool"]), run.grow()))
        if len(profile) < 2:
            continue
        for p in step["positions"]:
            low, high = min(p["z_to"], p["z_from"]), max(p["z_to"], p["z_from"])
            at.setdefault((p["x"], p["y"]), {})[(profile, low, high)] = None
    return _at_places(at, run)


def _at_places(at: Mapping[Point2, Mapping[_HalfKey, None]], run: Run) -> list[Metal]:
    halves: dict[_HalfKey, Area] = {}
    bodies: dict[tuple[_HalfKey, ...], Metal] = {}
    placed = []
    for place, keys in at.items():
        chain = tuple(keys)
        if chain not in bodies:
            for key in chain:
                if key not in halves:
                    halves[key] = _swept_half(*key)
            reach = max(r for profile, _, _ in chain for r, _ in profile)
            bodies[chain] = metal.turned(metal.join_areas([halves[key] for key in chain]), reach, run.how)
        placed.append(bodies[chain].translate((*place, 0.0)))
    return placed


# ---- milling ---------------------------------------------------------------------------------------


@dataclass(slots=True)
class _Levels:
    """Areas swept by flat cutters, gathered by (bottom, top), and the bodies of all others."""

    areas: dict[tuple[float, float], list[Area]] = field(default_factory=dict)
    bodies: list[Metal] = field(default_factory=list)

    def add(self, low: float, high: float, area: Area) -> None:
        self.areas.setdefault((round(low, 9), round(high, 9)), []).append(area)

    def as_metal(self, run: Run) -> list[Metal]:
        """Join each level in the plane; leave out what lower levels take away anyhow."""
        done: list[tuple[float, Area]] = []
        out = list(self.bodies)
        for (low, high), areas in sorted(self.areas.items(), key=lambda item: (item[0][0], -item[0][1])):
            area = metal.join_areas(areas)
            area = rest = area if run.room is None else metal.area_within(area, *run.room)
            for above, taken in done:
                if above >= high:
                    rest = metal.area_less(rest, taken)
            done.append((high, area))
            if not rest.is_empty() and rest.area() > 1e-9:
                out.append(metal.drawn_up(area, low, high))
        return out


@dataclass(frozen=True, slots=True)
class _Mill:
    """What a step's moves ask of its cutter, worked out once."""

    flat: bool
    radius: float
    tool: Json


def mill_cutters(steps: Sequence[Json], run: Run, top: float) -> list[Metal]:
    """Return what moves, arcs and rings of these steps sweep; ``top`` lies above all metal."""
    levels = _Levels()
    for step in steps:
        if not step["removes"]:
            continue
        for ring in step["rings"]:
            _add_ring(levels, ring, run)
        if step["tool"] is not None and (step["moves"] or step["arcs"] or _milled(step)):
            mill = _Mill(is_flat(step["tool"]), largest_radius(step["tool"]), step["tool"])
            for p in step["positions"] if _milled(step) else ():
                _add_plunge(levels, p, mill, run, top)
            for move in step["moves"]:
                _add_move(levels, move, mill, run, top)
            for arc in step["arcs"]:
                _add_arc(levels, arc, mill, run, top)
    return levels.as_metal(run)


def cutters(steps: Sequence[Json], run: Run, top: float) -> list[Metal]:
    """Return everything that these steps' cutters sweep, setup frame."""
    return [body for body in hole_cutters(steps, run) + mill_cutters(steps, run, top) if not body.is_empty()]


def _milled(step: Json) -> bool:
    """Tell whether places are plunged with an end mill: side by side they are joined in the plane."""
    return bool(step["positions"]) and step["tool"]["kind"] == "end mill" and is_flat(step["tool"])


def _add_plunge(levels: _Levels, place: Json, mill: _Mill, run: Run, top: float) -> None:
    low, high = min(place["z_to"], place["z_from"]), max(place["z_to"], place["z_from"])
    area = way([(place["x"], place["y"])], mill.radius + run.grow(), run.how)
    levels.add(low - run.grow(), _top_of(mill.tool, high, top), area)


def _top_of(tool: Json, z: float, top: float) -> float:
    flutes = float(tool["flute_length_mm"])
    return min(top, z + flutes) if flutes > 0 else top


def move_grow(move: Json, run: Run) -> float:
    """Return by how much a run's cutter is larger in a move; more where the part is set by an angle."""
    return run.grow(turning_radius(move))


def turning_radius(move: Json) -> float:
    """Return how far from the axis about which the part is turned a move cuts; 0 where it is not turned."""
    if move["by"] == "angle_setting":  # the part is turned about Y, through the zero of X and Z
        return max((math.hypot(x, move["z"]) for x, _ in move["path"]), default=0.0)
    if move["by"] == "rotary_table":
        return max((math.hypot(x, y) for x, y in move["path"]), default=0.0)
    return 0.0


def told_mm(setup: Json) -> float:
    """Return the tolerance of a setup as it is told: with the most that turning the part adds."""
    turned = [turning_radius(move) for step in setup["steps"] for move in step["moves"]]
    turned += [arc_reach(arc, largest_radius(step["tool"])) for step in setup["steps"] for arc in step["arcs"]]
    return tolerance_mm(setup) + half_angle_rad(setup) * max([0.0, *turned])


def _add_move(levels: _Levels, move: Json, mill: _Mill, run: Run, top: float) -> None:
    path = [(float(x), float(y)) for x, y in move["path"]]
    if not path:
        return
    grow = move_grow(move, run)
    if mill.flat:
        levels.add(move["z"] - grow, _top_of(mill.tool, move["z"], top), way(path, mill.radius + grow, run.how))
    else:
        levels.bodies.extend(_shaped_way(path, _grown(profile_of(mill.tool), grow), move["z"], run))


def way(path: Sequence[Point2], radius: float, how: Round) -> Area:
    """Return the area that a disc sweeps along a path."""
    plain = metal.disc(radius, how)
    if plain.is_empty():
        return plain
    if len(path) == 1:
        return metal.moved(plain, path[0])
    legs = [metal.hull([metal.moved(plain, a), metal.moved(plain, b)]) for a, b in _pairs(path)]
    return metal.join_areas(legs)


def _shaped_way(path: Sequence[Point2], profile: Sequence[Point2], z: float, run: Run) -> list[Metal]:
    """Return what a cutter that is no plain cylinder sweeps: the hull of each convex slice, leg by leg."""
    reach = max(r for r, _ in profile)
    halves = [profile] if _convex(profile) else [pair for pair in _pairs(profile) if pair[1][1] > pair[0][1]]
    bodies = []
    for half in halves:
        body = metal.turned(_swept_half(half, z, z), reach, run.how)
        if len(path) == 1:
            bodies.append(body.translate((*path[0], 0.0)))
        for a, b in _pairs(path):
            bodies.append(metal.hull_of([body.translate((*a, 0.0)), body.translate((*b, 0.0))]))
    return bodies


def _convex(profile: Sequence[Point2]) -> bool:
    turns = [
        (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
        for a, b, c in zip(profile, profile[1:], profile[2:], strict=False)
    ]
    return all(turn >= -1e-12 for turn in turns) and all(a[0] <= b[0] + 1e-12 for a, b in _pairs(profile))


def _add_arc(levels: _Levels, arc: Json, mill: _Mill, run: Run, top: float) -> None:
    """Add an arc: a table set a little wrong turns to other ends, but never to another radius."""
    turned = _turned_on(arc, run)
    fed = run.grow(arc_reach(arc, mill.radius)) if run.sign < 0 else run.grow()
    if mill.flat:
        legs = way(arc_leg(arc), mill.radius + fed, run.how)
        area = metal.join_areas([arc_area(turned, mill.radius + run.grow(), run.how), legs])
        levels.add(arc["z"] - run.grow(), _top_of(mill.tool, arc["z"], top), area)
        return
    low, high = sorted((turned["from_deg"], turned["to_deg"]))
    count = max(1, math.ceil(run.how.segments(arc["radius"]) * (high - low) / 360))
    path = [polar(tuple(arc["centre"]), arc["radius"], low + (high - low) * k / count) for k in range(count + 1)]
    levels.bodies.extend(_shaped_way(arc_leg(arc), _grown(profile_of(mill.tool), fed), arc["z"], run))
    levels.bodies.extend(_shaped_way(path, _grown(profile_of(mill.tool), run.grow()), arc["z"], run))


def _turned_on(arc: Json, run: Run) -> Json:
    """Return an arc with its ends half an angle step farther apart each (tight), or nearer (loose)."""
    by = math.degrees(run.half_angle_rad) * run.sign
    low, high = arc["from_deg"], arc["to_deg"]
    if abs(high - low) <= 2 * abs(by):
        return arc
    by = by if high > low else -by
    whole = abs(high - low) >= 360 - 1e-9
    return arc if whole else {**arc, "from_deg": low - by, "to_deg": high + by}


def _add_ring(levels: _Levels, ring: Json, run: Run) -> None:
    grow = run.grow()
    centre = (float(ring["centre"][0]), float(ring["centre"][1]))
    area = annulus(centre, ring["radius_inner"] - grow, ring["radius_outer"] + grow, run.how)
    levels.add(ring["z_to"] - grow, ring["z_from"] + max(grow, 0.0), area)
