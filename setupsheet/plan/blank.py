"""The blank: what to saw, what it weighs, and the least piece that still cleans up all round."""

from __future__ import annotations

from setupsheet.length import Unit, fixed, plain
from setupsheet.part.face import Face
from setupsheet.part.part import Part, SetupAsked
from setupsheet.plan.places import face_of
from setupsheet.plan.record import StockPlan
from setupsheet.plane import Point3

CLEAN_UP_MM = (0.3, 0.3, 0.2)
"""Least metal that cleans up a sawn side (x, y) or a rolled face (z). Common practice, no source."""


def stock_plan(part: Part, setups: tuple[SetupAsked, ...]) -> StockPlan:
    """Return the blank as the plan carries it."""
    box = part.stock.box
    size = box.size
    least = _least(part, setups)
    shift = box.low
    matrix = tuple(tuple([1.0 if i == j else 0.0 for j in range(3)] + [shift[i]]) for i in range(3))
    mass = size[0] * size[1] * size[2] * part.density_kg_m3 * 1e-9
    return StockPlan(
        part.stock.form,
        size,
        " x ".join(length.text() for length in part.stock.size),
        tuple(face.value for face in part.stock.as_bought),
        (*((row[0], row[1], row[2], row[3]) for row in matrix), (0.0, 0.0, 0.0, 1.0)),
        least,
        " x ".join(_shown(part, value) for value in least),
        mass,
        mass_text(mass, part.unit),
    )


def mass_text(mass_kg: float, unit: Unit) -> str:
    """Return a mass as printed: kilograms, with pounds where the part is in inches."""
    grams = mass_kg < 1
    metric = f"{fixed(mass_kg * 1000, 0)} g" if grams else f"{fixed(mass_kg, 2)} kg"
    return metric if unit is Unit.MM else f"{fixed(mass_kg / 0.45359237, 2)} lb ({metric})"


def _least(part: Part, setups: tuple[SetupAsked, ...]) -> Point3:
    """Return the least blank: what comes off at the side that zero is found from, and a clean-up at the other."""
    found = [0.0, 0.0, 0.0]
    for axis in range(3):
        sides = [face for face in Face if face.axis == axis]
        fixed_side = _found_from(part, setups, sides)
        machined = [face for face in sides if face not in part.stock.as_bought]
        if fixed_side is None:
            found[axis] = part.box.size[axis] + len(machined) * CLEAN_UP_MM[axis]
        else:
            other = CLEAN_UP_MM[axis] if fixed_side.opposite in machined else 0.0
            found[axis] = part.box.size[axis] + part.stock.remove_mm.get(fixed_side, 0.0) + other
    return found[0], found[1], found[2]


def _found_from(part: Part, setups: tuple[SetupAsked, ...], sides: list[Face]) -> Face | None:
    """Return the raw side of the stock from which the first setup measures along an axis."""
    if not setups:
        return None
    if setups[0].up in sides:
        return setups[0].up
    words = [word for zero in setups[0].zero.values() if "stock" in zero.found for word in zero.found.split()]
    faces = [face_of(part, word) for word in words]
    return next((face for face in faces if face in sides), None)


def _shown(part: Part, value_mm: float) -> str:
    return plain(value_mm / float(part.unit.mm), 1 if part.unit is Unit.MM else 3)
