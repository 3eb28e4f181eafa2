"""The replay: machine the stock again from plan.json alone and see whether the part comes out.

What goes in is what a machinist holds: the plan's numbers (plan.json as a dict) and two bodies of the part,
made from the spec by another kernel: *least* (every hole at its upper, every boss at its lower limit) and
*most* (the reverse). Nothing of the planner is used, no record and no geometry.

The stock is cut twice with every cutter that the steps name, along the ways that they give:

* *loose*: each cutter smaller by t all round and held t short of its depth. What is left is the most metal
  that can stand. ``gouge`` is the least part minus that body: metal that must be there and is gone.
* *tight*: each cutter larger by t and t deeper. What is left is the least metal that can stand. ``left`` is
  that body minus the most part: metal that must be gone and stands.

t is what rounding explains: half the readout's step (or the dial's division) on the diagonal, the limit
meshes' deflection and a hair; where a rotary table or an angle setting turns the part, half the angle step
times the radius more. It is worked out from each setup's readout and from nothing else. Both results must
be empty. A piece that is not is reported with its box, volume, depth and the step that touched it last,
unless a step names it as a leftover within a bound that cutter and path explain, or it lies where a step
says that its work is not in the plan as moves (``not_proved``: said, not counted as a fault).

Two nearly equal bodies are never compared, because rounding alone makes hundreds of slivers. A third,
coarse run walks the plan step by step and asks what a machinist would find: does each step cut anything,
is the touched surface there, does the witness pin go in, does a cut that should start outside start in
metal, does cutter or shank meet a jaw (walk). And the numbers themselves are tried: rigid frames,
multiples of the step, printed texts, one handwheel at a time, one place for one hole, two numbers that
contradict each other (frames, shown, rules, slips).

Read on: cut (what a step's cutter sweeps), metal (the mesh kernel, nowhere else),
pieces (depth, whose cutter), report (words). Lengths in mm, part frame unless said.
"""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.plan.record import Verdict
from setupsheet.plan.replay import metal
from setupsheet.plan.replay.cut import Json, cutters, hole_cutters, mill_cutters, run_for, told_mm, tolerance_mm
from setupsheet.plan.replay.frames import frames
from setupsheet.plan.replay.leftover import refused
from setupsheet.plan.replay.metal import MeshData, MeshError, Metal, Round, read_stl
from setupsheet.plan.replay.pieces import Shop
from setupsheet.plan.replay.report import Sorted, sort_pieces, summary
from setupsheet.plan.replay.rounded import rounding
from setupsheet.plan.replay.rules import numbers
from setupsheet.plan.replay.shown import numbers_shown
from setupsheet.plan.replay.slips import slips
from setupsheet.plan.replay.walk import inverse, walk
from setupsheet.plane import Point3

__all__ = ["MeshData", "MeshError", "bodies_after", "read_stl", "replay"]


@dataclass(frozen=True, slots=True)
class _Cutters:
    """All cutters of a plan in one run, part frame; those of holes apart, because they hardly meet."""

    mills: list[Metal]
    holes: list[Metal]


def replay(plan: Json, least: MeshData, most: MeshData) -> Verdict:
    """Cut the stock of a plan twice and compare with the part's limit bodies.

    ``plan`` is plan.json as a dict, sound by its schema (its own ``replay`` is not read). A mesh that is no
    closed body and a frame that is no rigid motion are objections too; nothing is raised.
    """
    tolerances = tuple(told_mm(setup) for setup in plan["setups"])
    objections = frames(plan) + numbers(plan) + numbers_shown(plan) + slips(plan) + refused(plan)
    objections += rounding(plan)
    found = Sorted()
    try:
        thin, thick = metal.from_mesh(least, "least part"), metal.from_mesh(most, "most part")
    except MeshError as fault:
        return _verdict(plan, tolerances, found, [*objections, str(fault)])
    if any("no right-handed rigid motion" in words for words in objections):
        return _verdict(plan, tolerances, found, objections)
    rooms = _rooms(plan)
    objections += walk(plan, stock_body(plan, 0.0))
    gouge, left = _gouge(plan, thin, rooms), _left(plan, thick, rooms)
    found = sort_pieces(Shop(plan, rooms), gouge, left)
    return _verdict(plan, tolerances, found, objections)


def _verdict(plan: Json, tolerances: tuple[float, ...], found: Sorted, objections: list[str]) -> Verdict:
    said = tuple(dict.fromkeys(objections))
    return Verdict(
        proved=not (found.gouge or found.left or said),
        tolerance_mm=tuple(round(t, 6) for t in tolerances),
        words=summary(tolerances, found, said, plan["unit"]),
        gouge=tuple(found.gouge),
        left=tuple(found.left),
        objections=said,
        explained=tuple(found.explained),
        not_proved=tuple(found.not_proved),
    )


def stock_body(plan: Json, grow_mm: float) -> Metal:
    """Return the blank in the part frame, each face moved outwards by ``grow_mm``."""
    stock = plan["stock"]
    size = [float(value) for value in stock["size_mm"]]
    if "round" in stock["form"]:
        body = _round_bar(size, grow_mm)
    else:
        body = metal.box((-grow_mm, -grow_mm, -grow_mm), (size[0] + grow_mm, size[1] + grow_mm, size[2] + grow_mm))
    return metal.placed(body, stock["stock_to_part"])


def _round_bar(size: list[float], grow: float) -> Metal:
    """Return a bar; it lies along the axis whose size differs from the two that are its diameter."""
    axis = next((k for k in (2, 0, 1) if abs(size[(k + 1) % 3] - size[(k + 2) % 3]) < 1e-6), 2)
    across = size[(axis + 1) % 3]
    how = Round(inside=grow < 0, sag_mm=0.001)
    upright = metal.drawn_up(
        metal.moved(metal.disc(across / 2 + grow, how), (across / 2, across / 2)), -grow, size[axis] + grow
    )
    rows = [[1.0 if (axis + 1 + k) % 3 == i else 0.0 for k in range(3)] + [0.0] for i in range(3)]
    return metal.placed(upright, rows)


def _rooms(plan: Json) -> list[tuple[Point3, Point3]]:
    """Return for each setup the box of the blank in its frame."""
    stock = stock_body(plan, 0.1)
    return [metal.bounds(metal.placed(stock, setup["part_to_setup"])) for setup in plan["setups"]]


def _all_cutters(plan: Json, sign: int, rooms: list[tuple[Point3, Point3]]) -> _Cutters:
    found = _Cutters([], [])
    for setup, room in zip(plan["setups"], rooms, strict=True):
        run, back = run_for(setup, sign, 0.0, room), inverse(setup["part_to_setup"])
        mills = mill_cutters(setup["steps"], run, room[1][2] + 1.0)
        found.mills.extend(metal.placed(body, back) for body in mills)
        found.holes.extend(metal.placed(body, back) for body in hole_cutters(setup["steps"], run))
    return found


def _gouge(plan: Json, least: Metal, rooms: list[tuple[Point3, Point3]]) -> Metal:
    """Return what is missing of the least part: the same as that part minus the loose body.

    Time grows with the facets of both bodies at each cut, so the milled blank, which has few, comes first,
    and holes are tried by themselves.
    """
    loose = _all_cutters(plan, -1, rooms)
    blank = stock_body(plan, _rounding(plan))
    for body in loose.mills:
        blank = metal.cut(blank, [body])
    found = [metal.cut(least, [blank]), metal.shared(least, metal.join(loose.holes))]
    return metal.join([body for body in found if metal.is_there(body)])


def _left(plan: Json, most: Metal, rooms: list[tuple[Point3, Point3]]) -> Metal:
    """Return what the tight cutters leave of the blank beside the most part."""
    tight = _all_cutters(plan, 1, rooms)
    blank = stock_body(plan, -_rounding(plan))
    for body in tight.mills:
        blank = metal.cut(blank, [body])
    return metal.cut(metal.cut(blank, [most]), tight.holes)


def _rounding(plan: Json) -> float:
    return max((tolerance_mm(setup) for setup in plan["setups"]), default=0.0)


def bodies_after(plan: Json, sign: int) -> list[MeshData]:
    """Return the metal after each setup as meshes: the most that can stand (sign -1) or the least (+1)."""
    body, after = stock_body(plan, -sign * _rounding(plan)), []
    for setup, room in zip(plan["setups"], _rooms(plan), strict=True):
        back = inverse(setup["part_to_setup"])
        made = cutters(setup["steps"], run_for(setup, sign, 0.0, room), room[1][2] + 1.0)
        body = metal.cut(body, [metal.placed(cutter, back) for cutter in made])
        after.append(metal.to_mesh(body))
    return after
