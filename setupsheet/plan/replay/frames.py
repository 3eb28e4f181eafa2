"""Rules on how a part lies: its matrix, the faces named, the turning over, the zeros. Pure arithmetic."""

from __future__ import annotations

import math
from itertools import pairwise

from setupsheet.plan.replay.angles import angles, touched
from setupsheet.plan.replay.cut import Json
from setupsheet.plan.replay.sites import name_of
from setupsheet.plane import Point3

_EXACT = 1e-6
_FACES = {
    "right": (1, 0, 0),
    "left": (-1, 0, 0),
    "back": (0, 1, 0),
    "front": (0, -1, 0),
    "top": (0, 0, 1),
    "bottom": (0, 0, -1),
}
Turning = tuple[tuple[float, ...], ...]
"""A 3 x 3 rotation, row-major."""


def frames(plan: Json) -> list[str]:
    """Return what is wrong with the frames of all setups."""
    said = []
    for setup in plan["setups"]:
        heard = _rigid(setup)
        said += heard if heard else _faces(setup) + _zeros(setup) + angles(setup) + touched(setup)
    for before, setup in pairwise(plan["setups"]):
        said += _turn(before, setup)
    return said


def _turning(setup: Json) -> Turning:
    return tuple(tuple(float(value) for value in row[:3]) for row in setup["part_to_setup"][:3])


def _product(a: Turning, b: Turning) -> Turning:
    return tuple(tuple(sum(a[i][k] * b[k][j] for k in range(3)) for j in range(3)) for i in range(3))


def _rigid(setup: Json) -> list[str]:
    rows = setup["part_to_setup"]
    words = f"{name_of(setup)}: part_to_setup is no right-handed rigid motion"
    if len(rows) != 4 or any(len(row) != 4 for row in rows) or list(rows[3]) != [0, 0, 0, 1]:
        return [words]
    a, b, c = _turning(setup)
    lengths = [
        sum(p * q for p, q in zip(u, v, strict=True)) for u, v in ((a, a), (b, b), (c, c), (a, b), (b, c), (c, a))
    ]
    cross = (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
    right = max(abs(p - q) for p, q in zip(cross, c, strict=True)) < _EXACT
    square = all(abs(found - wanted) < _EXACT for found, wanted in zip(lengths, (1, 1, 1, 0, 0, 0), strict=True))
    return [] if right and square else [words]


def _faces(setup: Json) -> list[str]:
    said = []
    for key, row, way in (("up", 2, "up"), ("fixed_jaw", 1, "away from the reader")):
        normal = _FACES.get(setup[key])
        if normal is None:
            continue
        along = sum(p * q for p, q in zip(_turning(setup)[row], normal, strict=True))
        if along < 0.5 if _tilted(setup) else abs(along - 1) > _EXACT:
            said.append(f"{name_of(setup)}: part_to_setup does not bring the {setup[key]} face {way}")
    return said


def _tilted(setup: Json) -> bool:
    return any(_EXACT < abs(value) < 1 - _EXACT for row in _turning(setup) for value in row)


def _zeros(setup: Json) -> list[str]:
    """Compare each zero's place in the part with the matrix; for a tilted axis ``angles.touched`` does it."""
    said = []
    for zero in setup["zero"]:
        index = "xyz".index(zero["axis"].lower())
        *row, shift = (float(value) for value in setup["part_to_setup"][index])
        along = [value for value in row if abs(value) > _EXACT]
        if len(along) != 1 or zero.get("part_point") is not None:
            continue
        if abs(along[0] * zero["part_coordinate"] + shift) > 0.0005:
            said.append(
                f"{name_of(setup)}: zero {zero['axis'].upper()} is at {zero['at']} ({zero['part_coordinate']:g} in the "
                f"part), but part_to_setup puts that at {along[0] * zero['part_coordinate'] + shift:g}"
            )
    return said


def _about(axis: str, degrees: float) -> Turning:
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return {
        "x": ((1.0, 0.0, 0.0), (0.0, c, -s), (0.0, s, c)),
        "y": ((c, 0.0, s), (0.0, 1.0, 0.0), (-s, 0.0, c)),
        "z": ((c, -s, 0.0), (s, c, 0.0), (0.0, 0.0, 1.0)),
    }[axis]


def _turn(before: Json, setup: Json) -> list[str]:
    """Compare the turning over as told with the two matrices (only where it is told as moves)."""
    moves = setup["turn"].get("moves") or []
    if any(axis not in ("x", "y", "z") for axis, _ in moves):
        return []
    told = _turning(before)
    for axis, degrees in moves:
        told = _product(_about(axis, degrees), told)
    gap = max(abs(p - q) for a, b in zip(told, _turning(setup), strict=True) for p, q in zip(a, b, strict=True))
    if gap > _EXACT:
        return [f"{name_of(setup)}: the turning over ({setup['turn']['sentence']}) does not lead to part_to_setup"]
    return []


def in_part(setup: Json, point: Point3) -> Point3:
    """Return a point of a setup in the part frame."""
    rows = setup["part_to_setup"]
    from_zero = [point[i] - rows[i][3] for i in range(3)]
    x, y, z = (sum(rows[i][k] * from_zero[i] for i in range(3)) for k in range(3))
    return x, y, z
