"""Small plans by hand for the tests of the replay: plan.json dicts and limit bodies, made from typed numbers.

Every block is a plan that a machinist could work from, with the two limit bodies of its part built here by
the mesh kernel from the part's own sizes (never from the plan's). Lengths in mm.
"""

from __future__ import annotations

import copy
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import manifold3d

from setupsheet.length import fixed, to_step
from setupsheet.plan.replay.replay import MeshData

Json = dict[str, Any]
Box = Sequence[Sequence[float]]


@dataclass(frozen=True, slots=True)
class Block:
    """A plan and its part's limit bodies."""

    plan: Json
    least: MeshData
    most: MeshData

    def copy(self) -> Json:
        """Return a plan to spoil."""
        return copy.deepcopy(self.plan)


# ---- limit bodies ----------------------------------------------------------------------------------


def block(low: Sequence[float], high: Sequence[float]) -> Any:
    """Return a box of metal."""
    return manifold3d.Manifold.cube([b - a for a, b in zip(low, high, strict=True)]).translate(tuple(low))


def rod(x: float, y: float, diameter: float, low: float, high: float) -> Any:
    """Return an upright cylinder as the part's meshes have it: corners on the true circle, sag 0.002."""
    count = 4 * math.ceil(math.pi / math.acos(1 - 0.004 / diameter) / 4)
    return manifold3d.Manifold.cylinder(high - low, diameter / 2, circular_segments=count).translate((x, y, low))


def cone(x: float, y: float, wide: float, z_wide: float, angle_deg: float) -> Any:
    """Return a countersink's cone, its ``wide`` diameter at ``z_wide``, point down."""
    height = wide / 2 / math.tan(math.radians(angle_deg / 2))
    return manifold3d.Manifold.cylinder(height, 0.0, wide / 2, 240).translate((x, y, z_wide - height))


def mesh(body: Any) -> MeshData:
    """Return a body of the mesh kernel as the replay takes it."""
    data = body.to_mesh64()
    return MeshData(data.vert_properties[:, :3].tolist(), data.tri_verts.tolist())


# ---- cutters ---------------------------------------------------------------------------------------


def end_mill(diameter: float, flutes: float = 40.0) -> Json:
    """Return an end mill."""
    half = diameter / 2
    return _tool("end mill", diameter, 180.0, [[0, 0], [half, 0], [half, flutes]], flutes)


def drill(diameter: float, point_deg: float = 118.0, kind: str = "drill") -> Json:
    """Return a drill, or a spot drill with another point."""
    half = diameter / 2
    tip = half / math.tan(math.radians(point_deg / 2))
    return _tool(kind, diameter, point_deg, [[0, 0], [half, tip], [half, 50]], 50.0)


def reamer(diameter: float) -> Json:
    """Return a reamer; it cuts at its side only."""
    half = diameter / 2
    return _tool("reamer", diameter, 180.0, [[0, 0], [half, 0], [half, 40]], 40.0)


def _tool(kind: str, diameter: float, point: float, profile: list[list[float]], flutes: float) -> Json:
    return {
        "kind": kind,
        "label": f"{kind} {diameter:g}",
        "owned": True,
        "diameter_mm": diameter,
        "point_angle_deg": point,
        "corner_radius_mm": 0.0,
        "flute_length_mm": flutes,
        "shank_diameter_mm": diameter,
        "stickout_mm": flutes + 20,
        "profile": profile,
        "holder_diameter_mm": 0.0,
    }


# ---- the plan --------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Machine:
    """How the positions of a block are read: a readout with a step, or dials of 2.54 (0.1 in) a turn."""

    kind: str = "readout"
    step: float = 0.005
    z_counts: int = 1

    def at(self, value: float) -> float:
        """Return the nearest position that can be set."""
        return round(to_step(value, self.step), 9)

    def clear_of(self, value: float, stands: float) -> float:
        """Return the nearest position that can be set and is no nearer to what must stand."""
        steps = round(value / self.step, 6)
        return round((math.floor(steps) if stands > value else math.ceil(steps)) * self.step, 9)

    @property
    def least_change(self) -> float:
        """The smallest spoiling that must be noticed: two steps or 0.01, whichever is more."""
        return max(2 * self.step, 0.01)

    def text(self, value: float, axis: str) -> str:
        """Return the printed text of a position."""
        reading = value * (self.z_counts if axis == "z" else 1)
        if self.kind == "readout":
            return fixed(reading, 3, sign=True)
        turns = math.floor((reading + 254.0) / 2.54 + 1e-6)
        return f"{turns} + {fixed((reading + 254.0 - turns * 2.54) / 25.4, 4).removeprefix('0')}"

    def readout(self) -> Json:
        """Return the plan's readout."""
        dial = self.kind == "dial"
        one = {
            "kind": self.kind,
            "step_mm": 0.0 if dial else self.step,
            "per_turn_mm": 2.54 if dial else 0.0,
            "division_mm": self.step if dial else 0.0,
            "unit": "inch" if dial else "mm",
            "angle_step_deg": 0.0,
            "offset_mm": 254.0 if dial else 0.0,
        }
        return {axis: dict(one) for axis in "xyz"}


DRO = Machine()
DIALS = Machine("dial", 0.0254)


def position(machine: Machine, label: str, at: tuple[float, float], heights: tuple[float, float]) -> Json:
    """Return one place of hole work; ``heights`` are z_from and the tip's z_to (taken as they are)."""
    x, y = machine.at(at[0]), machine.at(at[1])
    return {
        "label": label,
        "feature": label.rstrip("0123456789"),
        "x": x,
        "y": y,
        "z_from": heights[0],
        "z_to": heights[1],
        "z_full": heights[1],
        "shown": {"x": machine.text(x, "x"), "y": machine.text(y, "y"), "z": machine.text(heights[1], "z")},
    }


def move(entry: str, z: float, path: Sequence[tuple[float, float]], z_clear: float = 20.0) -> Json:
    """Return one cut by the table."""
    return {
        "entry": entry,
        "z": z,
        "z_clear": z_clear,
        "path": [list(p) for p in path],
        "by": "table",
        "why": "last",
    }


def limit(machine: Machine, axis: str, value: float) -> Json:
    """Return a stop for the cutter's centre."""
    return {"axis": axis, "value": value, "side": "", "shown": machine.text(value, axis), "words": ""}


def step(number: int, operation: str, features: Sequence[str], tool: Json | None, **more: Any) -> Json:
    """Return one step of work; ``more`` overrides any field."""
    plain: Json = {
        "number": number,
        "operation": operation,
        "title": operation,
        "features": list(features),
        "method": "quill",
        "removes": True,
        "tool": tool,
        "rpm": 600,
        "rpm_words": "",
        "feed_mm_per_min": 60.0,
        "feed_s_per_turn": 0.0,
        "touch_off": None,
        "direction": "",
        "positions": [],
        "moves": [],
        "arcs": [],
        "rings": [],
        "limits": [],
        "points": [],
        "z_shown": [],
        "where": "",
        "words": [],
        "leftover": [],
        "depends_on": [],
        "checks": [],
        "cautions": [],
        "not_proved": "",
    }
    if tool is not None and tool["kind"] == "drill":
        point = tool["profile"][1][1]
        more["positions"] = [{**p, "z_full": p["z_to"] + point} for p in more.get("positions", ())]
    return {**plain, **more}


def setup(machine: Machine, number: int, lies: tuple[str, str], matrix: list[list[float]], **more: Any) -> Json:
    """Return a setup; ``lies`` is the part face that is up and the one away from the reader."""
    zero = []
    for axis, row in zip("xyz", matrix, strict=False):
        part = next(k for k in range(3) if row[k])
        zero.append(
            {
                "axis": axis,
                "at": "zero",
                "part_coordinate": -row[3] / row[part],
                "method": "told",
                "touch": "",
                "side": "",
                "tip_diameter_mm": 0.0,
                "feeler_mm": 0.0,
                "reading": 0.0,
                "key_in": "",
                "words": "",
            }
        )
    plain: Json = {
        "number": number,
        "name": f"setup {number}",
        "machine": "mill",
        "up": lies[0],
        "fixed_jaw": lies[1],
        "turn": {"axis": "", "angle_deg": 0.0, "sentence": "as it lies", "moves": []},
        "witness": None,
        "mark": "",
        "hold": {
            "in": "vise",
            "words": [],
            "grip_mm": 5.0,
            "proud_before_mm": 0.0,
            "proud_after_mm": 0.0,
            "jaw_top_z": 0.0,
            "rest": "",
            "bodies": [],
        },
        "zero": zero,
        "sums": [],
        "part_to_setup": matrix,
        "counts": {"x": 1, "y": 1, "z": machine.z_counts},
        "readout": machine.readout(),
        "volume_before_mm3": 0.0,
        "volume_after_mm3": 0.0,
        "before_cutting": [],
        "steps": [],
        "rings": [],
        "cautions": [],
    }
    return {**plain, **more}


def plan(stock: Box, setups: list[Json], volumes: Sequence[float], features: Sequence[Json] = ()) -> Json:
    """Return a plan; ``stock`` is its box in the part frame, ``volumes`` what is left after each setup."""
    low, high = stock
    size = [b - a for a, b in zip(low, high, strict=True)]
    before = size[0] * size[1] * size[2]
    for told, after in zip(setups, volumes, strict=True):
        told["volume_before_mm3"], told["volume_after_mm3"] = before, after
        before = after
    to_part = [[1, 0, 0, low[0]], [0, 1, 0, low[1]], [0, 0, 1, low[2]], [0, 0, 0, 1]]
    return {
        "format": 1,
        "part": "block",
        "number": "B-1",
        "revision": "A",
        "unit": "mm",
        "stock": {"form": "plate", "size_mm": size, "stock_to_part": to_part},
        "features": list(features),
        "setups": setups,
        "not_proved": [],
        "findings": [],
    }


def feature(id_: str, places: Box, size: float, limits: tuple[float, float] | None = None) -> Json:
    """Return a feature with its places along Z."""
    return {
        "id": id_,
        "kind": "hole",
        "callout": "",
        "size_mm": size,
        "lower_mm": limits[0] if limits else None,
        "upper_mm": limits[1] if limits else None,
        "axis": [0.0, 0.0, 1.0],
        "places": [list(p) for p in places],
        "labels": [],
        "made_in": [],
    }


def shifted(x: float, y: float, z: float) -> list[list[float]]:
    """Return the matrix of a part that lies as drawn with its zero at (x, y, z) of the part."""
    return [[1, 0, 0, -x], [0, 1, 0, -y], [0, 0, 1, -z], [0, 0, 0, 1]]


def page_turned(x: float, y: float, z: float) -> list[list[float]]:
    """Return the matrix of a part turned like a page (left over right), zero at (x, y, z) of the part."""
    return [[-1, 0, 0, x], [0, 1, 0, -y], [0, 0, -1, z], [0, 0, 0, 1]]
