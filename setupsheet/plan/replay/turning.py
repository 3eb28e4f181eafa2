"""What turns above the cutting edge and must find room: the chuck or collet over a cutter, the bar of a boring head.

A cutter hangs out of its holder by ``stickout_mm``; from there up everything within the holder's radius has to be free,
however far down the cutter goes. The bar of a boring head stands outside an edge that faces inwards and sweeps a ring
round the boss; in a bore it sweeps all of the circle that its edge has just cut. All in the setup frame.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.replay import metal
from setupsheet.plan.replay.arcs import annulus, arc_area
from setupsheet.plan.replay.clear import holders, meets, ways_of
from setupsheet.plan.replay.cut import Json, rough_run, way
from setupsheet.plan.replay.metal import Metal
from setupsheet.plan.replay.sites import name_of

_HAIR_MM = 0.05
_SHARE = 0.02
"""By how much a room is smaller than told, mm and part of its radius: circles of few corners miss by less."""
_CORNERS = 48
_BLADE = "groove"
"""Work whose cutter is a blade no wider than its groove: the bar stays above."""


def meets_what_stands(setup: Json, step: Json, top: float, stands: Metal) -> list[str]:
    """Object when the holder of a cutter or the bar of a boring head meets metal or what holds the part."""
    said = []
    rooms = [*(("holder", room) for room in _holder(step, top)), *(("bar", room) for room in _bar(step, top))]
    for what, room in rooms:
        label = f"{name_of(setup, step)}: the {what} of {step['tool']['label']} meets"
        if meets(room, stands):
            said.append(f"{label} metal that stands")
        said += [f"{label} {name}" for name, held in holders(setup) if meets(room, held)]
    return list(dict.fromkeys(said))


def _holder(step: Json, top: float) -> Iterator[Metal]:
    """Yield the rooms that a chuck or collet takes below ``top``; none where its size is not known."""
    tool = step["tool"]
    radius = _less(tool.get("holder_diameter_mm", 0.0) / 2)
    if radius <= 0 or tool["stickout_mm"] <= 0:
        return
    how = rough_run(_CORNERS).how
    places = [([(float(p["x"]), float(p["y"]))], float(p["z_to"])) for p in step["positions"]]
    for path, z in (*ways_of(step), *places):
        if path and z + tool["stickout_mm"] < top:
            yield metal.drawn_up(way(path, radius, how), z + tool["stickout_mm"], top)
    for arc in step["arcs"]:
        if arc["z"] + tool["stickout_mm"] < top:
            yield metal.drawn_up(arc_area(arc, radius, how), arc["z"] + tool["stickout_mm"], top)


def _bar(step: Json, top: float) -> Iterator[Metal]:
    """Yield the rooms that the bar of a boring head sweeps, down to the depth of each ring."""
    if step["operation"] == _BLADE:
        return
    how, bar = rough_run(_CORNERS).how, float(step["tool"]["diameter_mm"])
    for ring in step["rings"]:
        centre = (float(ring["centre"][0]), float(ring["centre"][1]))
        low, high = ring["z_to"] + _HAIR_MM, min(top, ring["z_to"] + step["tool"]["stickout_mm"])
        if ring["edge"] == "in":
            inner, outer = ring["radius_inner"] * (1 + _SHARE) + _HAIR_MM, ring["radius_inner"] + bar
        else:
            inner, outer = 0.0, max(ring["radius_outer"], bar - ring["radius_outer"])
        yield metal.drawn_up(annulus(centre, inner, _less(outer), how), low, high)


def _less(radius: float) -> float:
    return radius * (1 - _SHARE) - _HAIR_MM
