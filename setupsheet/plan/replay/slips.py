"""Numbers that contradict other numbers of the same plan: slips within the part's limits, so that no metal tells.

A hole with wide limits may stand a little aside, or be a little wider, and the part is still to the drawing; but the
plan says elsewhere where the hole belongs, how large the cutter's name is, how far its point reaches, where its
neighbours end. Each rule sets two such numbers side by side. Pure arithmetic.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from setupsheet.plan.replay.cut import Json, largest_radius, profile_of, step_of, tolerance_mm
from setupsheet.plan.replay.frames import in_part
from setupsheet.plan.replay.sites import name_of
from setupsheet.plane import Point2
from setupsheet.tables import drills
from setupsheet.tables.unknown import NotInTables

_SAME = 1e-6
_NEARLY_MM = 0.06
"""mm: two settings that differ by less are meant to be one; the thinnest cut planned is thicker."""
_RING_MM = 0.03
"""mm: two settings of a boring head that differ by less are meant to be one; the last cut is 0.05."""
_NAMED = re.compile(
    r"^(?:(?P<kind>drill|end mill|spot drill|centre drill|counterbore|countersink|reamer) )"
    r"(?P<size>no\. \d+|[A-Z]\b|(?:\d+[- ])?\d+/\d+|\d*\.?\d+)"
)
_NAME_MM = 0.02
"""mm that a name may be rounded by: three decimals of an inch."""


def slips(plan: Json) -> list[str]:
    """Return where two numbers of a plan contradict each other."""
    said: list[str] = []
    for setup in plan["setups"]:
        for step in setup["steps"]:
            said += _named(setup, step) + _point(setup, step) + _nearly(setup, step) + _rings(setup, step)
        said += _one_depth(setup) + _places(plan, setup)
    return list(dict.fromkeys(said))


# ---- the cutter and its name -----------------------------------------------------------------------


def _named(setup: Json, step: Json) -> list[str]:
    """Object when a cutter is not as wide as its name says."""
    tool = step["tool"]
    match = _NAMED.match(tool["label"]) if tool is not None else None
    if match is None or match["kind"] != tool["kind"]:
        return []
    sizes = list(_sizes(match["size"]))
    if not sizes or any(abs(size - tool["diameter_mm"]) <= near for size, near in sizes):
        return []
    return [f"{name_of(setup, step)}: {tool['label']} is said to be {tool['diameter_mm']:g} mm in diameter"]


def _sizes(text: str) -> Iterator[tuple[float, float]]:
    """Yield what a size on a cutter's shank can mean, mm, and how far it may be rounded."""
    if text[0].isalpha():
        try:
            yield drills.find(text).diameter_mm, _SAME
        except NotInTables:
            return
    elif "/" in text:
        whole, _, part = text.replace("-", " ").rpartition(" ")
        over, under = part.split("/")
        yield (int(whole or 0) + int(over) / int(under)) * 25.4 if int(under) else 0.0, _SAME
    else:
        places = len(text.partition(".")[2])
        yield float(text), 10.0**-places / 2 if places > 1 else 0.0005
        yield float(text) * 25.4, min(10.0**-places / 2 * 25.4, _NAME_MM) if places > 1 else 0.0005


# ---- depths ----------------------------------------------------------------------------------------


def _point(setup: Json, step: Json) -> list[str]:
    """Object when a drill's tip and the end of its full diameter are not its point apart."""
    tool = step["tool"]
    if tool is None or tool["kind"] != "drill" or step["operation"] not in ("drill", "pilot"):
        return []
    reach = largest_radius(tool)
    point = min((h for r, h in profile_of(tool) if r >= reach - _SAME), default=0.0)
    near = step_of(setup["readout"]["z"]) + 0.001
    return [
        f"{name_of(setup, step)}: {p['label'] or p['feature']} ends at Z {p['z_to']:g} with its tip and at "
        f"Z {p['z_full']:g} with its full diameter, but the point is {point:.3f} long"
        for p in step["positions"]
        if abs(p["z_full"] - p["z_to"] - point) > near
    ]


def _one_depth(setup: Json) -> list[str]:
    """Object when places of one feature, done by one kind of work, end at heights that are nearly but not quite one."""
    said = []
    ends: dict[tuple[str, str, str], dict[float, str]] = {}
    for step in setup["steps"]:
        if step["tool"] is None:
            continue
        for p in step["positions"]:
            found = ends.setdefault((p["feature"], step["operation"], step["tool"]["label"]), {})
            for z, label in found.items():
                if _SAME < abs(z - p["z_to"]) < _NEARLY_MM:
                    here = f"{p['label'] or p['feature']} ends at Z {p['z_to']:g}"
                    said.append(f"{name_of(setup, step)}: {here}, {label} at Z {z:g}")
            found.setdefault(p["z_to"], p["label"] or p["feature"])
    return said


def _nearly(setup: Json, step: Json) -> list[str]:
    """Object when two passes of a step are nearly but not quite one: in height, or one above the other.

    Two ways at one height may lie close together (a slot a little wider than its cutter); but where one height has
    only the one and another height only the other, a number slipped.
    """
    name, heights = name_of(setup, step), sorted({float(move["z"]) for move in step["moves"]})
    said = [
        f"{name}: it cuts at Z {a:g} and at Z {b:g}: one of the two slipped"
        for a, b in pairwise(heights)
        if _SAME < b - a < _NEARLY_MM
    ]
    at: dict[_Way, set[float]] = {}
    for move in step["moves"]:
        at.setdefault(tuple((float(x), float(y)) for x, y in move["path"]), set()).add(float(move["z"]))
    for a, b in _close(list(at)):
        if at[a] - at[b] and at[b] - at[a]:
            low, high = min(at[a] - at[b]), min(at[b] - at[a])
            said.append(
                f"{name}: the passes at Z {low:g} and Z {high:g} do not lie over each other ({_gap(a, b):.3f} apart)"
            )
    return said


_Way = tuple[Point2, ...]


def _close(ways: list[_Way]) -> Iterator[tuple[_Way, _Way]]:
    """Yield pairs of ways that differ nowhere by more than a slip; sorted, so that only neighbours are compared."""
    ways = sorted(ways)
    for index, a in enumerate(ways):
        for b in ways[index + 1 :]:
            if b and a and b[0][0] - a[0][0] > _NEARLY_MM:
                break
            if len(a) == len(b) and _gap(a, b) < _NEARLY_MM:
                yield a, b


def _gap(a: _Way, b: _Way) -> float:
    return max((abs(p[k] - q[k]) for p, q in zip(a, b, strict=True) for k in (0, 1)), default=0.0)


def _rings(setup: Json, step: Json) -> list[str]:
    """Object when rings of one step stand about two centres, or differ by less than a cut in height or radius."""
    rings, name = step["rings"], name_of(setup, step)
    if len({tuple(ring["centre"]) for ring in rings}) > 1:
        return [f"{name}: the boring head cuts about two centres"]
    said = []
    for key, words in (("z_to", "Z"), ("z_from", "Z"), ("radius_inner", "radius"), ("radius_outer", "radius")):
        row = sorted({float(ring[key]) for ring in rings})
        said += [
            f"{name}: the boring head is set to {words} {a:g} and to {words} {b:g}: one of the two slipped"
            for a, b in pairwise(row)
            if _SAME < b - a < _RING_MM
        ]
    return said


# ---- places ----------------------------------------------------------------------------------------


def _places(plan: Json, setup: Json) -> list[str]:
    """Object when work on a hole, or a ring, does not stand where the plan lists its feature in the part."""
    listed = {
        (feature["id"], label): (place, feature["axis"])
        for feature in plan["features"]
        for label, place in _labelled(feature)
        if feature["axis"] is not None
    }
    said = []
    for step in setup["steps"]:
        for key, at in _worked(step) if step["removes"] else ():
            aside = _aside(setup, at, *listed[key]) if key in listed else 0.0
            if aside > tolerance_mm(setup):
                who = key[1] or key[0]
                said.append(f"{name_of(setup, step)}: {who} stands {aside:.3f} mm beside its place in the part")
    return said


def _labelled(feature: Json) -> Iterator[tuple[str, Sequence[float]]]:
    """Yield the places of a feature by label; the only place also without one."""
    yield from zip(feature["labels"], feature["places"], strict=False)
    if len(feature["places"]) == 1:
        yield "", feature["places"][0]


def _worked(step: Json) -> Iterator[tuple[tuple[str, str], Point2]]:
    """Yield what a step works on by a place: feature and label, and where."""
    yield from (((p["feature"], p["label"]), (p["x"], p["y"])) for p in step["positions"] if p["label"])
    if len(step["features"]) == 1:
        yield from (((step["features"][0], ""), (ring["centre"][0], ring["centre"][1])) for ring in step["rings"])


def _aside(setup: Json, at: Point2, place: Sequence[float], axis: Sequence[float]) -> float:
    """Return how far a place of a setup lies beside a feature's axis; 0 where the spindle is not along it."""
    up = abs(sum(a * b for a, b in zip(axis, setup["part_to_setup"][2][:3], strict=True)))
    if up < 1 - _SAME:
        return 0.0
    gap = [b - a for a, b in zip(place, in_part(setup, (at[0], at[1], 0.0)), strict=True)]
    along = sum(g * w for g, w in zip(gap, axis, strict=True))
    return math.sqrt(max(0.0, sum(g * g for g in gap) - along * along))
