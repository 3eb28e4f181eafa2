"""What the replay found, as plain dicts and sentences: gouges, metal left, what explains it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from setupsheet.plan.replay import metal
from setupsheet.plan.replay.cut import Json, tolerance_mm
from setupsheet.plan.replay.leftover import bound_mm
from setupsheet.plan.replay.metal import Metal
from setupsheet.plan.replay.pieces import Shop, clumps, depth_mm, last_touch
from setupsheet.plan.replay.sites import name_of
from setupsheet.plane import Point3

_MEASURED = 12
"""Pieces whose depth is worked out; more are listed without."""
_ROUND_REGION_MM = 0.05
WIDE_MM = 0.05
"""Above this tolerance the verdict says that the machine cannot hold better."""
_CLOSER = "closer limits must be measured."

Piece = dict[str, Any]
Region = tuple[Point3, Point3]


@dataclass(slots=True)
class Sorted:
    """Pieces by what they are."""

    gouge: list[Piece] = field(default_factory=list)
    left: list[Piece] = field(default_factory=list)
    explained: list[Piece] = field(default_factory=list)
    not_proved: list[Piece] = field(default_factory=list)


def sort_pieces(shop: Shop, gouge: Metal, left: Metal) -> Sorted:
    """Return every piece above noise with its place, size, depth, step, and what explains it."""
    found = Sorted()
    for index, body in enumerate(clumps(gouge)):
        found.gouge.append(_piece(shop, body, -1, index < _MEASURED))
    if not metal.is_there(left):
        return found
    found.explained, rest = _explain(shop, left)
    for index, body in enumerate(clumps(rest)):
        open_work = _open_work(shop.plan, body)
        piece = _piece(shop, body, 1, index < _MEASURED and not open_work)
        if open_work:
            found.not_proved.append({**piece, "words": f"not proved ({open_work}): {_size(piece)}"})
        else:
            found.left.append(piece)
    return found


def _explain(shop: Shop, left: Metal) -> tuple[list[Piece], Metal]:
    """Take away what steps name as their leftovers, each within its bound; return them and the rest.

    Metal is a step's leftover when that step's own cutters, larger by the bound, would take it.
    """
    explained = []
    for i, j, setup, step in shop.steps():
        for leftover in step.get("leftover", ()):
            bound = min(leftover["bound_mm"], bound_mm(shop.plan, step, leftover) + tolerance_mm(setup))
            reach = shop.of_step((i, j), 1, bound)
            taken = metal.shared(left, metal.join(reach))
            if metal.is_there(taken):
                explained.append(_known(taken, setup, step, leftover))
                left = metal.cut(left, reach)
    return explained, left


def _known(body: Metal, setup: Json, step: Json, leftover: Json) -> Piece:
    low, high = metal.bounds(body)
    places = len(clumps(body))
    words = (
        f"{name_of(setup, step)} leaves {leftover['kind'].replace('_', ' ')} of at most {leftover['bound_mm']:.3f} at "
        f"{', '.join(leftover['features']) or 'its edge'}: {_count(places, 'place')}, {body.volume():.3g} mm3 in all"
    )
    return {
        "kind": "left",
        "setup": setup["number"],
        "step": step["number"],
        "features": list(leftover["features"]),
        "box_mm": [[round(v, 4) for v in low], [round(v, 4) for v in high]],
        "volume_mm3": round(body.volume(), 6),
        "depth_mm": round(leftover["bound_mm"], 4),
        "words": words,
    }


def _piece(shop: Shop, body: Metal, sign: int, measure: bool) -> Piece:
    low, high = metal.bounds(body)
    touched = last_touch(shop, body, sign) if measure else None
    depth = depth_mm(shop, body, sign) if measure and touched else None
    setup = shop.plan["setups"][touched[0]] if touched else None
    step = setup["steps"][touched[1]] if setup and touched else None
    features = list(step["features"]) if step else _features_at(shop.plan, (low, high))
    piece: Piece = {
        "kind": "gouge" if sign < 0 else "left",
        "setup": setup["number"] if setup else None,
        "step": step["number"] if step else None,
        "features": features,
        "box_mm": [[round(v, 4) for v in low], [round(v, 4) for v in high]],
        "volume_mm3": round(body.volume(), 6),
        "depth_mm": None if depth is None else round(depth, 4),
    }
    return {**piece, "words": _words(piece, setup, step) if measure else _size(piece)}


def _words(piece: Piece, setup: Json | None, step: Json | None) -> str:
    if setup is None or step is None:
        near = f" (near {', '.join(piece['features'])})" if piece["features"] else ""
        who = f"no step's cutter comes there{near}" if piece["kind"] == "left" else "the stock does not reach there"
    else:
        tool = f", {step['tool']['label']}" if step["tool"] is not None else ""
        who = f"{name_of(setup, step)} ({step['operation']}{tool}) touched it last"
    return f"{_size(piece)}; {who}"


def _size(piece: Piece) -> str:
    """Return how much metal it is, how deep and where, for a person."""
    what = "cut away that must stand" if piece["kind"] == "gouge" else "left standing that must go"
    low, high = piece["box_mm"]
    spans = ", ".join(f"{axis} {a:.3f} to {b:.3f}" for axis, a, b in zip("xyz", low, high, strict=True))
    depth = f", {piece['depth_mm']:.3f} deep" if piece["depth_mm"] is not None else ""
    return f"{piece['volume_mm3']:.4g} mm3 of metal {what}{depth}, part {spans}"


def _features_at(plan: Json, box: Region) -> list[str]:
    """Name the features that have a place in or beside a box."""
    found = []
    for feature in plan["features"]:
        region = _feature_region(feature)
        if region is not None and all(region[0][k] <= box[1][k] and box[0][k] <= region[1][k] for k in range(3)):
            found.append(str(feature["id"]))
    return found


def _feature_region(feature: Json) -> Region | None:
    """Return the box round a feature's places: its size to the sides, any length along its axis."""
    if not feature["places"]:
        return None
    aside = (feature["size_mm"] or 0.0) / 2
    axis = feature["axis"] or (0.0, 0.0, 1.0)
    reach = [1e3 if abs(value) > 0.5 else aside for value in axis]
    low = tuple(min(place[k] for place in feature["places"]) - reach[k] for k in range(3))
    high = tuple(max(place[k] for place in feature["places"]) + reach[k] for k in range(3))
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def _open_work(plan: Json, body: Metal) -> str:
    """Return the words of the not proved step in whose place a piece lies, '' if in none's."""
    low, high = metal.bounds(body)
    for setup in plan["setups"]:
        slack = tolerance_mm(setup) + _ROUND_REGION_MM
        for step in setup["steps"]:
            if not step["not_proved"]:
                continue
            for region in _regions(plan, step):
                if all(region[0][k] - slack <= low[k] and high[k] <= region[1][k] + slack for k in range(3)):
                    return f"{name_of(setup, step)}, {step['not_proved']}"
    return ""


def _regions(plan: Json, step: Json) -> list[Region]:
    told = step.get("region_mm")
    if told is not None:
        return [(tuple(told[0]), tuple(told[1]))]
    regions = [_feature_region(feature) for feature in plan["features"] if feature["id"] in step["features"]]
    return [region for region in regions if region is not None]


def summary(tolerances: Sequence[float], found: Sorted, objections: Sequence[str], unit: str) -> tuple[str, ...]:
    """Return the sentences of the verdict in the part's unit, the one that decides first."""
    faults = len(found.gouge) + len(found.left) + len(objections)
    held = ", ".join(dict.fromkeys(_long(t, unit) for t in tolerances))
    head = (
        f"Cut again from the plan's own numbers, each allowed {held} {unit} for rounding: "
        f"{_count(len(found.gouge), 'gouge')}, {_count(len(found.left), 'place')} with metal left that no step names, "
        f"{_count(len(objections), 'objection')}."
    )
    said = [head if faults else head.replace(" for rounding: ", " for rounding, the part comes out: ")]
    said += [piece["words"] for piece in (*found.gouge, *found.left)] + list(objections)
    said += [f"Known: {piece['words']}" for piece in found.explained]
    said += [piece["words"][0].upper() + piece["words"][1:] for piece in found.not_proved]
    if max(tolerances, default=0.0) > WIDE_MM:
        said.append(f"This machine cannot hold better than {_long(max(tolerances), unit)} {unit}; {_CLOSER}")
    return tuple(said)


def _long(value_mm: float, unit: str) -> str:
    return f"{value_mm / 25.4:.4f}" if unit == "inch" else f"{value_mm:.3f}"


def _count(number: int, word: str) -> str:
    return f"no {word}" if number == 0 else f"{number} {word}{'s' if number > 1 else ''}"
