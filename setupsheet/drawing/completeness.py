"""Is everything there? The sizes that the part needs against those that the ink gives, counted.

``needs.py`` lists what each kind of feature needs, from the part alone; the dimensions in the ink say what
they give. A size that is missing, or stands twice, is a finding.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from setupsheet.drawing.ink import Dimension, Sheet
from setupsheet.drawing.needs import Need, needs
from setupsheet.finding import Finding, Findings, Place, error
from setupsheet.part.feature import Hole
from setupsheet.part.part import Part

_SOURCE = "ISO 129-1: each size once, none missing"
Key = tuple[str, str, float]


def dimensions_of(sheets: Sequence[Sheet]) -> list[Dimension]:
    """Return every dimension of a drawing."""
    return [item for sheet in sheets for group in sheet.groups for item in group.items if isinstance(item, Dimension)]


def check_completeness(part: Part, sheets: Sequence[Sheet]) -> Findings:
    """Return a finding for every size that is missing, and for every one that is given twice."""
    dims = dimensions_of(sheets)
    return [
        *(_missing(part, need) for need in missing(part, dims)),
        *(_double(part, key) for key in doubled(dims)),
    ]


def missing(part: Part, dims: Sequence[Dimension]) -> list[Need]:
    """Return the needs that no dimension meets; a row of a table places its own hole alone."""
    places = {
        (what, _round(value))
        for dim in dims
        if dim.kind != "table"
        for _, what, value in dim.gives
        if what in ("x", "y", "z")
    }
    sizes = {
        (feature, what, _round(value))
        for dim in dims
        for feature, what, value in dim.gives
        if dim.kind != "table" or what not in ("x", "y")
    }
    sizes |= _tabled(part, dims)
    return [
        need
        for need in needs(part)
        if (need.feature, need.what, _round(need.value)) not in sizes
        and not (need.is_place and (need.what, _round(need.value)) in places)
    ]


def _tabled(part: Part, dims: Sequence[Dimension]) -> set[Key]:
    """Return the places that rows of a table give: those for which every hole that stands there has its row."""
    rows = {
        (dim.feature, *(_round(value) for _, what, value in dim.gives if what in ("x", "y")))
        for dim in dims
        if dim.kind == "table"
    }
    if not rows:
        return set()
    told: set[Key] = set()
    untold: set[Key] = set()
    for hole in (feature for feature in part.features if isinstance(feature, Hole)):
        for spot in hole.spots:
            at = tuple(map(_round, spot.at))
            (told if (hole.id, *at) in rows else untold).update((hole.id, "xy"[k], at[k]) for k in (0, 1))
    return told - untold


def doubled(dims: Sequence[Dimension]) -> list[Key]:
    """Return the sizes that more than one dimension gives.

    Values in parentheses do not count, nor do rows of a table: each holds a hole's two places.
    """
    counted: Counter[Key] = Counter()
    for dim in dims:
        if not dim.text.startswith("(") and dim.kind != "table":
            counted.update({_key(dim, *size) for size in dim.gives})
    return [key for key, count in counted.items() if count > 1]


def _key(dim: Dimension, feature: str, what: str, value: float) -> Key:
    """Return what is counted: a place for all features at once, but a depth in a callout for its own alone."""
    is_place = what in ("x", "y", "z") and dim.kind != "callout"
    return ("" if is_place else feature), what, _round(value)


def _round(value: float) -> float:
    return round(value, 4) + 0.0


def _missing(part: Part, need: Need) -> Finding:
    return error(
        "size-not-drawn",
        f"the drawing does not give the {need.what} of {need.feature}",
        place_of(part, need.feature),
        feature=need.feature,
        found="no dimension",
        allowed=f"{need.what} {need.value:g}",
        try_="this is a fault of the program: keep the spec and report it",
        because="nobody can make the part from this sheet without measuring the paper",
        source=_SOURCE,
    )


def _double(part: Part, key: Key) -> Finding:
    feature, what, value = key
    return error(
        "size-drawn-twice",
        f"the drawing gives {what} {value:g} {('of ' + feature) if feature else ''} twice".strip(),
        place_of(part, feature),
        feature=feature,
        found="two dimensions",
        allowed="one",
        try_="this is a fault of the program: keep the spec and report it",
        because="after a change the two may disagree",
        source=_SOURCE,
    )


def place_of(part: Part, feature: str) -> Place | None:
    """Return where in the spec a feature stands, None for the part as a whole."""
    return next((f.place for f in part.features if f.id == feature), None)
