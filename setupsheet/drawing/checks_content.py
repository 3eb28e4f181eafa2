"""Rules for what dimensions say: value, geometry and text agree, no closed chain, overall sizes, formats."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction

from setupsheet.drawing.check_record import Case, Fault, dimensions
from setupsheet.drawing.completeness import dimensions_of
from setupsheet.drawing.ink import Dimension
from setupsheet.length import Unit

_NUMBER = re.compile(r"(?:(\d+)[- ])?(\d+)/(\d+)|(\d*)[.,]?(\d*)")


def values_true(case: Case) -> list[Fault]:
    """C1: the printed number is the value, and the measured points are that far apart on paper."""
    faults = []
    for group in case.views:
        for dim in dimensions(group):
            if dim.kind not in ("linear", "drawn", "running", "turn"):
                continue
            printed, step = printed_value(dim.text)
            if printed is None or abs(printed - dim.value) > step / 2 + 1e-6:
                faults.append(
                    Fault("value-text", True, f"{dim.text!r} does not say {dim.value:g}", dim.feature, found=dim.text)
                )
            if dim.kind != "turn" and abs(_measured(dim, case) - dim.value) > 1e-4:
                faults.append(
                    Fault("value-geometry", True, f"{dim.text!r} measures {_measured(dim, case):.4f}", dim.feature)
                )
    return faults


def printed_value(text: str) -> tuple[float | None, float]:
    """Return the first number of a text and its last digit's worth; a fraction is exact."""
    bare = text.lstrip("(R⌀ ")
    match = _NUMBER.match(bare)
    if match is None or not match[0]:
        return None, 0.0
    if match[2]:
        return float(int(match[1] or 0) + Fraction(int(match[2]), int(match[3]))), 0.0
    return float(f"{match[4] or 0}.{match[5] or 0}"), 10.0 ** -len(match[5])


def _measured(dim: Dimension, case: Case) -> float:
    """Return the size between the measured points, in drawing units at full size."""
    axis = 0 if dim.angle_deg == 0 else 1
    unit = float(Unit(case.sheet.unit).mm)
    return abs(dim.points[1][axis] - dim.points[0][axis]) / dim.scale / unit


def chains_open(case: Case) -> list[Fault]:
    """C3: in each direction of a view the dimensions form no ring."""
    faults = []
    for group in case.views:
        for angle in (0.0, 90.0):
            parent: dict[float, float] = {}
            for dim in dimensions(group):
                if dim.kind not in ("linear", "drawn", "running") or dim.angle_deg != angle or dim.text.startswith("("):
                    continue
                axis = 0 if angle == 0 else 1
                a, b = (_root(parent, round(p[axis], 3)) for p in dim.points)
                if a == b:
                    faults.append(Fault("closed-chain", True, f"{dim.text} closes a chain of dimensions", dim.feature))
                parent[a] = b
    return faults


def _root(parent: dict[float, float], node: float) -> float:
    parent.setdefault(node, node)
    while parent[node] != node:
        node = parent[node]
    return node


def overall_given(case: Case) -> list[Fault]:
    """C4: length, width and height stand on the drawing."""
    if case.sheet is not case.all_sheets[0]:
        return []
    given = {what for dim in dimensions_of(case.all_sheets) for _, what, _ in dim.gives}
    return [
        Fault("no-overall-size", True, f"the {what} size is not given", "part")
        for what in ("overall x", "overall y", "overall z")
        if what not in given
    ]


def formats_right(case: Case) -> list[Fault]:
    """C8: no zero before the point in inches, a zero in mm; one decimal sign; C14: no TYP."""
    inch = case.sheet.unit == Unit.INCH.value
    wrong = re.compile(r"(?<!\d)0[.,]\d") if inch else re.compile(r"(?<![\d])[.,]\d")
    faults = []
    for group in case.views:
        for dim in dimensions(group):
            if wrong.search(dim.text):
                faults.append(Fault("number-format", True, f"{dim.text!r} is not in the drawing's format", dim.feature))
            if "TYP" in dim.text.upper().split():
                faults.append(Fault("typical", True, f"{dim.text!r} does not say how many", dim.feature))
    return faults


RULES: tuple[Callable[[Case], list[Fault]], ...] = (values_true, chains_open, overall_given, formats_right)
"""The rules of this file."""
