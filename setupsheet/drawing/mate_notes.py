"""What goes into a feature, as a note on the drawing: the fit's name, the least and the greatest clearance."""

from __future__ import annotations

import re

from setupsheet.drawing.words import Words
from setupsheet.part.part import Part
from setupsheet.plan.fits import fit_plans
from setupsheet.plan.record_fit import FitPlan


def mate_notes(part: Part, words: Words) -> tuple[str, ...]:
    """Return a note for each mate with limits, cased already: the letters of a fit mean hole or shaft (ISO 286-1)."""
    return tuple(_note(fit, words) for fit in fit_plans(part) if fit.clearance_min_mm is not None)


def _note(fit: FitPlan, words: Words) -> str:
    """Return the note: 'bearing-bore: 12 H7 with bush 12 r6, pressed: interference 0.005 to 0.034'."""
    low, _, high = fit.shown["clearance"].partition(" to ")
    kind, room = "clearance", f"{low} to {high}"
    if fit.kind == "interference":
        kind, room = fit.kind, f"{high.lstrip('-')} to {low.lstrip('-')}"
    elif fit.kind == "clearance":
        room = f"{low.lstrip('+')} to {high.lstrip('+')}"
    room = room.replace(".", words.style.decimal_sign)
    if words.style.is_inch:
        room = room.replace("0.", ".")
    mate = fit.other or fit.mate
    size = _size(fit, words)
    said = (f"{fit.feature}:", size, "with", f"{mate}:", kind, room)
    if words.iso:
        return " ".join(said)
    return " ".join((said[0].upper(), size, "WITH", f"{mate}:", kind.upper(), room.replace(" to ", " TO ")))


def _size(fit: FitPlan, words: Words) -> str:
    """Return the feature's size as the views write it: a deviation of 0 in mm has no sign."""
    size = fit.size.replace(".", words.style.decimal_sign)
    return size if words.style.is_inch else re.sub(r"[+-]0(?=/|$)", "0", size)
