"""Rules for what texts say: zeros, signs, deviations, fits, what the title block must hold."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable

from setupsheet.drawing.check_record import Case, Fault, dimensions
from setupsheet.drawing.ink import Dimension, Text
from setupsheet.length import Unit

_TRAILING = re.compile(r"(?<![\d.,+±/(-])\d+[.,](?:\d*0|)(?![\d.,])")
_DEVIATIONS = re.compile(r"(?<![\d.,])(?P<upper>[+-]?\d*[.,]?\d+)/(?P<lower>[+-]?\d*[.,]?\d+)")
_FIT = re.compile(r"\d (?P<fit>[A-Z]{1,2}\d{1,2})(?P<limits> \()?")
_THREAD = re.compile(r"\bM\d+|\d-\d+ UN")
_NEEDED = ("number", "title", "scale", "sheet", "material", "document_type", "tolerancing")
"""Fields that the program fills; what the author leaves blank (owner, names, date) is said where the spec is read."""


def zeros_right(case: Case) -> list[Fault]:
    """C8: sizes in mm have no zeros at their end, and one decimal sign is used on the sheet."""
    faults = []
    sign = case.sheet.fields.get("decimal_sign", ".")
    wrong_sign = re.compile(r"\d,\d" if sign == "." else r"\d\.\d")
    for dim in _dimensions(case):
        if case.sheet.unit == Unit.MM.value and _TRAILING.search(_size_part(dim.text)):
            faults.append(Fault("trailing-zero", True, f"{dim.text!r} has a zero too many", dim.feature))
        if wrong_sign.search(dim.text) and dim.kind != "callout":
            faults.append(Fault("decimal-sign", True, f"{dim.text!r} has the other decimal sign", dim.feature))
    return faults


def _dimensions(case: Case) -> list[Dimension]:
    return [dim for group in case.views for dim in dimensions(group)]


def _size_part(text: str) -> str:
    """Return a text without its deviations, whose decimals are equal on purpose, and without designations."""
    plain = _DEVIATIONS.sub("", text)
    return "" if _THREAD.search(plain) else plain.partition("±")[0]


def deviations_right(case: Case) -> list[Fault]:
    """C9: the upper deviation first and larger, both with equal decimals, a zero without decimals in mm."""
    faults = []
    for dim in _dimensions(case):
        for match in _DEVIATIONS.finditer(dim.text):
            upper, lower = match["upper"], match["lower"]
            if upper[0] not in "+-0" or (lower[0] not in "+-0" and upper[0] == "0"):
                continue
            if _THREAD.search(dim.text) or not (upper[0] in "+-" or lower[0] in "+-"):
                continue
            if _number(upper) <= _number(lower):
                faults.append(Fault("deviations-turned", True, f"{dim.text!r} has its deviations turned", dim.feature))
            if _number(upper) and _number(lower) and _places(upper) != _places(lower):
                message = f"the deviations of {dim.text!r} have unequal decimals"
                faults.append(Fault("deviation-decimals", True, message, dim.feature))
    return faults


def _number(text: str) -> float:
    return float(text.replace(",", "."))


def _places(text: str) -> int:
    return len(text.replace(",", ".").partition(".")[2])


def fits_with_limits(case: Case) -> list[Fault]:
    """C10: a fit is printed with its limits."""
    return [
        Fault("fit-without-limits", True, f"{dim.text!r} names a fit without its limits", dim.feature)
        for dim in _dimensions(case)
        for match in _FIT.finditer(dim.text)
        if not match["limits"]
    ]


def labels_unique(case: Case) -> list[Fault]:
    """C11: no hole label twice in the main view, no hole twice in the table."""
    faults = []
    for group in case.sheet.groups:
        labels: list[str] = []
        if group.name == "top":
            labels = [i.text for i in group.items if isinstance(i, Text) and i.height == 2.5]
        elif group.name == "hole table":
            texts = [i for i in group.items if isinstance(i, Text)]
            first = min((t.at[0] for t in texts), default=0.0)
            labels = [t.text for t in texts if abs(t.at[0] - first) < 1e-6]
        faults += [
            Fault("label-twice", True, f"{label} stands twice in {group.name}", found=label)
            for label, count in Counter(labels).items()
            if count > 1
        ]
    return faults


def no_right_angles(case: Case) -> list[Fault]:
    """C16: 90 degrees between lines drawn square is not dimensioned."""
    return [
        Fault("right-angle", False, f"{dim.text!r} says what is drawn square anyway", dim.feature)
        for dim in _dimensions(case)
        if dim.kind in ("angular", "turn") and dim.text.strip() == "90°"
    ]


def title_filled(case: Case) -> list[Fault]:
    """S2 and C18: what the program itself writes into the title block is there."""
    return [
        Fault("title-field-empty", True, f"the title block says no {name.replace('_', ' ')}")
        for name in _NEEDED
        if not case.sheet.fields.get(name)
    ]


RULES: tuple[Callable[[Case], list[Fault]], ...] = (
    zeros_right,
    deviations_right,
    fits_with_limits,
    labels_unique,
    no_right_angles,
    title_filled,
)
"""The rules of this file."""
