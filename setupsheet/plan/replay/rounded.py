"""Rules on rounding: each number that is set lies within one step of the one that was worked out.

The plan gives some numbers twice: as they are set, a whole count of the axis' steps, and as they were before that
(``exact``). A step with wide limits, or one whose ridges a file takes off, may be cut a little wrong and still give a
part that is within its limits, so that no metal tells; but then the two lie more than rounding apart. And a cutter
leaves the diameter that the plan says it makes: its own, or that of its cone at the surface. Pure arithmetic.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from setupsheet.plan.replay.cut import Json, largest_radius, profile_of, step_of
from setupsheet.plan.replay.sites import name_of

_SAME = 1e-6
_SIZE_MM = 0.0006
"""mm: how far a diameter may be off by the decimals of an inch size."""
_ABOVE, _BELOW = 0.5, 1.5
"""Steps of Z by which a pointed cutter may end deeper or higher than its mouth asks: it is rounded up, and the surface
to nearest."""


def rounding(plan: Json) -> list[str]:
    """Return the numbers that are more than rounding off what they were worked out to be."""
    said: list[str] = []
    for setup in plan["setups"]:
        for step in setup["steps"]:
            if step["removes"] and step["tool"] is not None:
                said += _ways(setup, step) + _arcs(setup, step) + _rings(setup, step) + _made(setup, step)
    return list(dict.fromkeys(said))


def _step(setup: Json, axis: str) -> float:
    return step_of(setup["readout"][axis]) if axis in setup["readout"] else 0.0


def _ways(setup: Json, step: Json) -> list[str]:
    """Object to a point of a way that lies more than a step beside where it should be."""
    said = []
    steps = [_step(setup, axis) for axis in "xy"]
    for move in step["moves"]:
        exact = move.get("exact", ())
        if exact and len(exact) != len(move["path"]):
            said.append(f"{name_of(setup, step)}: a way of {len(move['path'])} points was worked out as {len(exact)}")
            continue
        for at, true in zip(move["path"], exact, strict=False):
            said += [
                f"{name_of(setup, step)}: {axis} {a:g} of the cut at Z {move['z']:g} was worked out as {b:.4f}"
                for axis, a, b, near in zip("XY", at, true, steps, strict=True)
                if abs(a - b) > near + _SAME
            ]
    return said


def _arcs(setup: Json, step: Json) -> list[str]:
    """Object to an arc whose radius or ends are more than a step beside what they should be."""
    turn = max((readout["angle_step_deg"] for readout in setup["readout"].values()), default=0.0)
    near = (_step(setup, "x"), turn, turn)
    return [
        f"{name_of(setup, step)}: the {key.removesuffix('_deg')} {arc[key]:g} of an arc was worked out as {true:.4f}"
        for arc in step["arcs"]
        for key, true, slack in zip(("radius", "from_deg", "to_deg"), arc.get("exact") or (), near, strict=False)
        if abs(arc[key] - true) > slack + _SAME
    ]


def _rings(setup: Json, step: Json) -> list[str]:
    """Object when the last setting of a boring head is a whole division of its dial off the diameter wanted."""
    said = []
    for ring in step["rings"]:
        made = 2 * (ring["radius_inner"] if ring["edge"] == "in" else ring["radius_outer"])
        wanted, near = ring.get("exact_mm", 0.0), ring.get("division_mm", 0.0)
        if wanted and abs(made - wanted) > near - _SAME:
            said.append(f"{name_of(setup, step)}: the boring head is set to {made:g}, wanted is {wanted:.4f}")
    return said


def _made(setup: Json, step: Json) -> list[str]:
    """Object when a cutter does not leave the diameter that the plan says is there after it."""
    said = []
    tool = step["tool"]
    pointed = tool["kind"] in ("spot drill", "centre drill", "countersink")
    for p in step["positions"]:
        wanted = p.get("made_mm", 0.0)
        if not wanted:
            continue
        off, slack = _mouth(setup, tool, p, wanted) if pointed else (2 * largest_radius(tool) - wanted, _SIZE_MM)
        if abs(off) > slack:
            said.append(
                f"{name_of(setup, step)}: {tool['label']} leaves a diameter of {wanted + off:.3f} at "
                f"{p['label'] or p['feature']}, not {wanted:g}"
            )
    return said


def _mouth(setup: Json, tool: Json, place: Json, wanted: float) -> tuple[float, float]:
    """Return by how much a cone's mouth is wider than wanted, from the middle of what rounding explains, and that."""
    rows = list(_cone(profile_of(tool)))
    height = place["z_full"] - place["z_to"]
    for (r0, h0), (r1, h1) in rows:
        if h0 <= height <= h1:
            slope = 2 * (r1 - r0) / (h1 - h0)
            step = _step(setup, "z") * slope
            off = 2 * r0 + slope * (height - h0) - wanted
            return off + (_BELOW - _ABOVE) / 2 * step, (_BELOW + _ABOVE) / 2 * step + _SIZE_MM
    return 0.0, _SIZE_MM


def _cone(profile: Sequence[tuple[float, float]]) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    """Yield the slanted stretches of a half section."""
    yield from ((a, b) for a, b in pairwise(profile) if b[1] > a[1] and b[0] > a[0])
