"""Zero of a part at an angle: X and Z from a pin in a reamed hole, or from a corner of two finished faces.

Both are there and are touched truly although no face is square to the machine: a pin is round, and a corner is the
highest or outermost line. Y is found as in any setup.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import product

from setupsheet.finding import Finding, error
from setupsheet.part.face import FACE_OF
from setupsheet.part.feature import Hole
from setupsheet.part.part import ZeroAsked
from setupsheet.plan.bench import Bench, Removed
from setupsheet.plan.milling import area
from setupsheet.plan.record import AxisZero
from setupsheet.plan.setup.zero import feeler_for, find_zero
from setupsheet.plan.sizes import length
from setupsheet.plan.tilt.lie import Lie, hole_at
from setupsheet.plane import Point2
from setupsheet.solid.laid import lay
from setupsheet.solid.tilted import Tilted

TRUE_BAND_MM = 0.05
"""A hole whose diameter varies by more than this does not hold a pin true. Common practice, no source."""

_NEAR = 1e-6
CORNERS = ("high corner", "left corner", "right corner")


@dataclass(frozen=True, slots=True)
class Mark:
    """What is touched for an axis: its words, where it is (X, Z), and the pin in it (0: none)."""

    words: str
    at: Point2
    pin_mm: float = 0.0
    hole: str = ""


def marks(lie: Lie, made: frozenset[str]) -> tuple[dict[str, Mark], list[Finding]]:
    """Return what is touched for x and z; ``made`` are the holes that are there by now."""
    found, faults = {}, []
    for axis in "xz":
        wanted = lie.asked.zero.get(axis)
        mark, heard = _mark(lie, made, axis, wanted.found if wanted else _default(lie, made, axis), wanted)
        found[axis] = mark
        faults += heard
    return found, faults


def _default(lie: Lie, made: frozenset[str], axis: str) -> str:
    """Return how zero is found where the spec does not say: a pin if there is a hole for one, else a corner."""
    pins = [f.id for f in lie.part.features if isinstance(f, Hole) and f.id in made and _holds_pin(lie, f)]
    if pins:
        return f"pin in {pins[0]}"
    if axis == "z":
        return "high corner"
    left, right = (_extreme(lie, words)[1] for words in CORNERS[1:])
    return "left corner" if left >= right else "right corner"


def _holds_pin(lie: Lie, hole: Hole) -> bool:
    return hole_at(lie, hole.id) is not None and hole.diameter.upper_mm - hole.diameter.lower_mm <= TRUE_BAND_MM


def _mark(
    lie: Lie, made: frozenset[str], axis: str, words: str, wanted: ZeroAsked | None
) -> tuple[Mark, list[Finding]]:
    place = wanted.place if wanted else lie.asked.place
    if words.startswith("pin in "):
        name = words.removeprefix("pin in ")
        there = hole_at(lie, name)
        if there is not None and name in made and _holds_pin(lie, there[0]):
            pin = there[0].diameter.lower_mm
            return Mark(f"a pin in {name}", there[1], pin, name), []
        stand_in = Mark(words, there[1] if there else (0.0, 0.0))
        return stand_in, [
            error(
                "pin-not-true",
                f"{name} gives no true place for a pin in setup {lie.asked.name!r}",
                place,
                feature=name,
                found=words,
                allowed="one reamed or bored hole square to the fixed jaw that an earlier setup makes",
                try_="ream the hole before, or touch the high corner",
            )
        ]
    at = _extreme(lie, words)
    faults = [] if _is_corner(lie, at) else [_no_corner(lie, axis, words, wanted)]
    return Mark(f"the {words}", at), faults


def _extreme(lie: Lie, words: str) -> Point2:
    """Return the highest corner of the metal, or the one farthest to the left or the right."""
    corners = [(float(x), float(z)) for piece in area.polygons(lie.metal) for x, z in piece.exterior.coords]
    if words.startswith("left"):
        return min(corners)
    return max(corners) if words.startswith("right") else max(corners, key=lambda p: (p[1], p[0]))


def _is_corner(lie: Lie, at: Point2) -> bool:
    """Tell whether a place is a sharp corner of two machined faces."""
    u, v = lie.tilted.upright.back.in_plane
    for first, second in product((FACE_OF[(u, -1)], FACE_OF[(u, 1)]), (FACE_OF[(v, -1)], FACE_OF[(v, 1)])):
        x, z = lie.tilted.flat((lie.part.box.at(first), lie.part.box.at(second)))
        if abs(at[0] - x) < _NEAR * 10 and abs(at[1] - z) < _NEAR * 10:
            return not {first, second} & set(lie.part.stock.as_bought)
    return False


def _no_corner(lie: Lie, axis: str, words: str, wanted: ZeroAsked | None) -> Finding:
    return error(
        "corner-not-true",
        f"{axis.upper()}: the {words} is not one of two finished faces when setup {lie.asked.name!r} begins",
        wanted.place if wanted else lie.asked.place,
        found=words,
        allowed="a sharp corner of two machined faces, or a pin in a reamed hole",
        try_="finish both faces before, or write found: pin in and the id of a hole",
    )


def zero_point(lie: Lie, found: dict[str, Mark], y: float) -> tuple[Tilted, list[Finding]]:
    """Return the lie with its zero: X and Z where asked for (else X at what is touched, Z at the level face)."""
    faults: list[Finding] = []
    at: dict[str, float] = {}
    for axis in "xz":
        wanted = lie.asked.zero.get(axis)
        value = None if wanted is None else _coordinate(lie, found, wanted.at, axis)
        if wanted is not None and value is None:
            faults.append(_no_place(lie, wanted, axis))
        default = found["x"].at[0] if axis == "x" else lie.floor
        at[axis] = default if value is None else value
    upright = lie.tilted.upright
    point = list(lie.tilted.to_part((at["x"], 0.0, at["z"])))
    point[upright.axes[1]] = y
    zero = (point[0], point[1], point[2])
    return Tilted(lay(upright.up, upright.back, zero), lie.tilted.turn_deg), faults


def _coordinate(lie: Lie, found: dict[str, Mark], name: str, axis: str) -> float | None:
    """Return where a name is along X or Z: a hole's middle, a level face's height, a point of the drawing."""
    index = 0 if axis == "x" else 1
    there = hole_at(lie, name)
    if there is not None:
        return there[1][index]
    levels = [height for slope, height in lie.work if slope.feature.id == name]
    if levels and axis == "z":
        return levels[0]
    if name in lie.part.points and lie.tilted.upright.axes[1] == 2:
        return lie.tilted.flat(lie.part.points[name])[index]
    return found[axis].at[index] if name in CORNERS else None


def _no_place(lie: Lie, wanted: ZeroAsked, axis: str) -> Finding:
    levels = [slope.feature.id for slope, _ in lie.work] if axis == "z" else []
    holes = [f.id for f in lie.part.features if hole_at(lie, f.id) is not None]
    return error(
        "zero-has-no-place",
        f"{wanted.at!r} has no place along {axis.upper()} where the part is tilted",
        wanted.place,
        found=wanted.at,
        allowed=", ".join((*levels, *holes)) or "leave zero: out",
        try_="name a hole square to the fixed jaw; for Z the face that lies level",
    )


def zeros(bench: Bench, removed: Removed, lie: Lie, found: dict[str, Mark]) -> tuple[AxisZero, ...]:
    """Return the three zeros; ``lie`` and ``found`` with the zero set."""
    asked = {name: zero for name, zero in bench.asked.zero.items() if name == "y"}
    square = replace(bench, asked=replace(bench.asked, zero=asked))
    y = find_zero(square, removed, bench.shop.edge_finder_mm)[0][1]
    return _x(bench, lie, found["x"]), y, _z(bench, lie, found["z"])


def _x(bench: Bench, lie: Lie, mark: Mark) -> AxisZero:
    sign = 1 if mark.words.endswith("right corner") else -1
    tip = bench.shop.edge_finder_mm
    reading = bench.settle("x", mark.at[0] + sign * (mark.pin_mm + tip) / 2)
    parts = [f"half the tip {_plain(bench, tip / 2)}"]
    if mark.pin_mm:
        parts.insert(0, f"half the pin {_plain(bench, mark.pin_mm / 2)}")
    if abs(mark.at[0]) > _NEAR:
        parts.insert(0, f"{_plain(bench, abs(mark.at[0]))} to zero")
    side = "right" if sign > 0 else "left"
    words = f"{_pin_words(lie, mark)}finder on the {side} of it: {', '.join(parts)}"
    return _zero(bench, lie, ("x", mark, f"your {side}", reading), (tip, 0.0, words))


def _z(bench: Bench, lie: Lie, mark: Mark) -> AxisZero:
    feeler = feeler_for(bench)
    reading = bench.settle("z", mark.at[1] + mark.pin_mm / 2 + feeler)
    parts = [f"feeler {_plain(bench, feeler)}"]
    if mark.pin_mm:
        parts.insert(0, f"half the pin {_plain(bench, mark.pin_mm / 2)}")
    level = " and ".join(slope.feature.id for slope, _ in lie.work)
    drop = mark.at[1] - lie.floor
    where = (
        f"{'its middle' if mark.pin_mm else 'it'} lies {_plain(bench, abs(drop))} {'above' if drop > 0 else 'below'}"
    )
    words = f"{_pin_words(lie, mark)}feeler under the cutter, spindle stopped: {', '.join(parts)}; {where} {level}"
    return _zero(bench, lie, ("z", mark, "above", reading), (0.0, feeler, words))


def _pin_words(lie: Lie, mark: Mark) -> str:
    if not mark.pin_mm:
        return f"{mark.words}; "
    return f"pin {length(mark.pin_mm, lie.part.unit)} standing out towards you; "


def _zero(bench: Bench, lie: Lie, what: tuple[str, Mark, str, float], how: tuple[float, float, str]) -> AxisZero:
    axis, mark, side, reading = what
    tip, feeler, words = how
    wanted = lie.asked.zero.get(axis)
    default = mark.words if axis == "x" else " and ".join(slope.feature.id for slope, _ in lie.work)
    row = lie.tilted.matrix["xyz".index(axis)]
    x, z = mark.at
    return AxisZero(
        axis,
        wanted.at if wanted else default,
        -row[3],
        "edge finder" if axis == "x" else "feeler",
        mark.words,
        side,
        tip,
        feeler,
        reading,
        f"{axis.upper()} {bench.shown(axis, reading)}",
        words,
        lie.tilted.to_part((x, 0.0, z)),
        mark.pin_mm,
    )


def _plain(bench: Bench, value_mm: float) -> str:
    return bench.scales["z"].plain(value_mm).lstrip("+-")


def reach_faults(lie: Lie, found: dict[str, Mark], jaw_top: float) -> list[Finding]:
    """Tell of a pin or a side corner that lies behind jaws or clamps."""
    said = []
    for axis, mark in found.items():
        low = mark.at[1] - mark.pin_mm / 2 if mark.pin_mm or axis == "x" else jaw_top + 1.0
        if low >= jaw_top - _NEAR:
            continue
        wanted = lie.asked.zero.get(axis)
        said.append(
            error(
                "zero-behind-jaw",
                f"{axis.upper()}: {mark.words} lies {length(jaw_top - low, lie.part.unit)} below what holds the part",
                wanted.place if wanted else lie.asked.place,
                found=mark.words,
                allowed="a pin or corner that stands free above jaws or clamps",
                try_="another hole or the high corner; or grip lower",
            )
        )
    return said
