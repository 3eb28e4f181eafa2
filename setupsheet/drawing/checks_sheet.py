"""Rules for the sheet as a whole: frame, projection, scale, unit, filling.

That mandatory fields of the title block are blank is said where the spec is read, once.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import combinations

from setupsheet.drawing import projection_symbol
from setupsheet.drawing.boxes import inside, overlap, size
from setupsheet.drawing.check_record import FURNITURE, Case, Fault
from setupsheet.drawing.compose import outline_of
from setupsheet.drawing.ink import Circle, Group, Pen, Polyline, Text
from setupsheet.drawing.scales import scale_words

_SCALES = {1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01}


def inside_frame(case: Case) -> list[Fault]:
    """S1: everything inside the frame."""
    frame = _space(case)
    if frame is None:
        return [Fault("no-frame", True, "the sheet has no frame")]
    return [
        Fault("outside-frame", True, f"{group.name} runs over the frame of {case.sheet.name}")
        for group in case.sheet.groups
        if group.name != "frame" and not inside(group.box, frame)
    ]


def _space(case: Case) -> tuple[tuple[float, float], tuple[float, float]] | None:
    for group in case.sheet.groups:
        if group.name == "frame":
            for item in group.items:
                if isinstance(item, Polyline) and item.pen is Pen.FRAME and item.closed:
                    return item.points[0], item.points[2]
    return None


def groups_apart(case: Case) -> list[Fault]:
    """S1: no view, table or note over another."""
    groups = [g for g in case.sheet.groups if g.name != "frame"]
    return [
        Fault("groups-overlap", True, f"{a.name} and {b.name} overlap on {case.sheet.name}")
        for a, b in combinations(groups, 2)
        if overlap(a.box, b.box) and {a.name, b.name} != {"title block", "revisions"}
    ]


def scale_true(case: Case) -> list[Fault]:
    """S2: the scale as written is the one used, and one of ISO 5455."""
    faults = []
    if case.sheet.fields.get("scale") != scale_words(case.sheet.scale):
        faults.append(Fault("scale-text", True, "the title block names another scale than the one used"))
    if case.sheet.scale not in _SCALES:
        faults.append(Fault("scale-odd", False, f"scale {scale_words(case.sheet.scale)} is none of ISO 5455"))
    faults += [
        Fault("view-scale", True, f"{group.name} is drawn at another scale than the sheet's without saying so")
        for group in case.views
        if abs(group.scale - case.sheet.scale) > 1e-9 and not _says_scale(group)
    ]
    return faults


def _says_scale(group: Group) -> bool:
    """Tell whether the title of a view names the view's own scale."""
    words = scale_words(group.scale)
    return any(isinstance(item, Text) and words in re.split(r"[ ()]+", item.text) for item in group.items)


def details_marked(case: Case) -> list[Fault]:
    """C17: the letter of every detail stands at a circle of one view, and that view has a smaller scale."""
    faults = []
    everywhere = [g for sheet in case.all_sheets for g in sheet.groups if g.name not in FURNITURE]
    for detail in (g for g in case.views if g.name.startswith("detail ")):
        letter = detail.name.removeprefix("detail ")
        parents = [g for g in everywhere if g is not detail and _has_circle(g, letter)]
        if len(parents) != 1 or parents[0].scale >= detail.scale:
            faults.append(Fault("detail-unmarked", True, f"no view shows what detail {letter} enlarges"))
    return faults


def _has_circle(group: Group, letter: str) -> bool:
    ring = any(isinstance(item, Circle) and item.pen is Pen.THIN for item in group.items)
    return ring and any(isinstance(item, Text) and item.text == letter for item in group.items)


def projection_true(case: Case) -> list[Fault]:
    """S3: the symbol agrees with where the views stand (ISO 5456-2)."""
    symbol = next((projection_symbol.read(g.items) for g in case.sheet.groups if g.name == "title block"), "")
    asked = case.sheet.fields.get("projection", "")
    if asked and symbol != asked:
        return [
            Fault("projection-symbol", True, f"the projection symbol shows {symbol or 'nothing'}, not {asked} angle")
        ]
    boxes = {g.name: outline_of(g) for g in case.views}
    if "front" not in boxes or "top" not in boxes:
        return []
    top_is_above = boxes["top"][0][1] > boxes["front"][0][1]
    if top_is_above is (symbol == "first"):
        return [Fault("projection-views", True, "the main view stands on the wrong side of the front view")]
    if abs(boxes["top"][0][0] - boxes["front"][0][0]) > 0.05:
        return [Fault("views-out-of-line", True, "main view and front view are not in line")]
    return []


def units_said(case: Case) -> list[Fault]:
    """S4: unit and general tolerances stand on the sheet."""
    faults = []
    if not case.sheet.fields.get("unit"):
        faults.append(Fault("no-unit", True, "the sheet does not say its unit"))
    if not case.sheet.fields.get("tolerances"):
        faults.append(Fault("no-general-tolerance", True, "the sheet names no general tolerance"))
    return faults


def well_filled(case: Case) -> list[Fault]:
    """S5: views and dimensions take between 30 and 85 % of the room."""
    space = _space(case)
    if space is None or case.sheet is not case.all_sheets[0]:
        return []
    area = sum(w * h for w, h in (size(g.box) for g in case.sheet.groups if g.name != "frame"))
    share = area / (size(space)[0] * size(space)[1])
    if 0.3 <= share <= 0.85:
        return []
    return [
        Fault("sheet-fill", False, "the sheet is nearly empty or crowded", found=f"{share:.0%}", allowed="30 to 85 %")
    ]


def view_names(case: Case) -> list[Fault]:
    """C17: letters of sections are none of I, O, Q and stand over their view."""
    faults = []
    for group in case.sheet.groups:
        if group.name in FURNITURE or "-" not in group.name:
            continue
        if any(letter in "IOQ" for letter in group.name):
            faults.append(Fault("section-letter", True, f"section {group.name} uses a letter that reads as a digit"))
        if not _names_itself(group):
            faults.append(Fault("section-unnamed", True, f"section {group.name} does not carry its letters"))
    return faults


def _names_itself(group: Group) -> bool:
    return any(group.name in getattr(item, "text", "") for item in group.items)


RULES: tuple[Callable[[Case], list[Fault]], ...] = (
    inside_frame,
    groups_apart,
    scale_true,
    projection_true,
    units_said,
    well_filled,
    view_names,
    details_marked,
)
"""The rules of this file."""
