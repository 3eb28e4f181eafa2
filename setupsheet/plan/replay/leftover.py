"""Metal that a plan may leave: the bounds of known leftovers, worked out again from cutter and path."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from setupsheet.plan.replay.cut import Json, largest_radius, profile_of, tolerance_mm
from setupsheet.plan.replay.sites import name_of
from setupsheet.plane import Point2, distance

KINDS = ("inside_corner", "cusp", "drill_point", "by_hand")
_BY_HAND_MM = 0.5
"""mm that a file may take where the feature gives no limits; common practice, no source."""
_CORNER = math.sqrt(2) - 1
"""Share of its radius that a round cutter leaves in a square corner."""


def bound_mm(plan: Json, step: Json, leftover: Json) -> float:
    """Return the most that this kind of leftover can be after this step, mm; 0 for an unknown kind."""
    kind, tool = leftover["kind"], step["tool"]
    if kind == "by_hand":
        return _by_hand(plan, leftover)
    if tool is None or kind not in KINDS:
        return 0.0
    if kind == "inside_corner":
        return _CORNER * largest_radius(tool)
    if kind == "drill_point":
        reach = largest_radius(tool)
        return min((h for r, h in profile_of(tool) if r >= reach - 1e-9), default=0.0)
    return _cusp(step)


def _by_hand(plan: Json, leftover: Json) -> float:
    wide = [
        feature["upper_mm"] - feature["lower_mm"]
        for feature in plan["features"]
        if feature["id"] in leftover["features"] and feature["upper_mm"] is not None and feature["lower_mm"] is not None
    ]
    return max(wide, default=_BY_HAND_MM)


def _cusp(step: Json) -> float:
    """Ridge between neighbouring plunges or stops; on a bend of the path a little more."""
    radius, worst = largest_radius(step["tool"]), 0.0
    for a, b, bend in _neighbours(step):
        gap = distance(a, b)
        if gap < 2 * radius * 0.95:
            worst = max(worst, radius - math.sqrt(radius**2 - gap**2 / 4) + bend)
    return worst


def _neighbours(step: Json) -> Iterator[tuple[Point2, Point2, float]]:
    """Yield points that follow each other and the rise of the arc through them and the next."""
    ends = [(p["x"], p["y"]) for p in step["positions"]]
    ends += [(float(move["path"][-1][0]), float(move["path"][-1][1])) for move in step["moves"] if move["path"]]
    points = list(dict.fromkeys(ends))
    limit = 1.2 * largest_radius(step["tool"])
    for index, (a, b) in enumerate(pairwise(points)):
        if distance(a, b) <= limit:
            c = points[index + 2] if index + 2 < len(points) else points[index - 1]
            yield a, b, _rise(a, b, c)


def _rise(a: Point2, b: Point2, c: Point2) -> float:
    """Return the sagitta over a-b of the circle through three points, 0 if they lie in a line."""
    twice = abs((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]))
    if twice < 1e-9:
        return 0.0
    radius = distance(a, b) * distance(b, c) * distance(c, a) / (2 * twice)
    return radius - math.sqrt(max(0.0, radius**2 - distance(a, b) ** 2 / 4))


def refused(plan: Json) -> list[str]:
    """Object to leftovers of an unknown kind and to bounds larger than cutter and path can leave."""
    said = []
    for setup in plan["setups"]:
        for step in setup["steps"]:
            for leftover in step.get("leftover", ()):
                said += _refused(plan, setup, step, leftover)
    return said


def _refused(plan: Json, setup: Json, step: Json, leftover: Json) -> list[str]:
    if leftover["kind"] not in KINDS:
        return [f"{name_of(setup, step)}: {leftover['kind']} is no kind of leftover that may stay"]
    allowed = bound_mm(plan, step, leftover)
    if leftover["bound_mm"] <= allowed + tolerance_mm(setup):
        return []
    return [
        f"{name_of(setup, step)}: it says that {leftover['bound_mm']:g} mm stay ({leftover['kind']}), "
        f"but cutter and path leave at most {allowed:.3f}"
    ]
