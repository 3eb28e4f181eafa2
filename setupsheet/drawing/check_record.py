"""What a rule of checking gets and gives: a sheet with its neighbours, and faults."""

from __future__ import annotations

from dataclasses import dataclass, field

from setupsheet.drawing.boxes import Rect
from setupsheet.drawing.ink import Dimension, Fill, Group, Sheet, Stroke, Text
from setupsheet.drawing.profile import Profile
from setupsheet.drawing.strokes import text_room

FURNITURE = ("frame", "title block", "revisions", "hole table", "notes")
"""Groups that hold no view."""


@dataclass(frozen=True, slots=True)
class Fault:
    """A fault found on a sheet."""

    code: str
    is_error: bool
    message: str
    feature: str = ""
    found: str = ""
    allowed: str = ""
    source: str = ""
    gives: tuple[tuple[str, str, float], ...] = ()
    """For a fault of where a dimension stands, and of nothing else: the sizes that the dimension gives."""


@dataclass(frozen=True, slots=True)
class Case:
    """One sheet under check."""

    sheet: Sheet
    all_sheets: tuple[Sheet, ...]
    profile: Profile = field(repr=False)

    @property
    def views(self) -> tuple[Group, ...]:
        """The groups that show the part, the picture left out."""
        return tuple(g for g in self.sheet.groups if g.name not in FURNITURE and g.name != "picture")


def dimensions(group: Group) -> list[Dimension]:
    """Return the dimensions of a group."""
    return [item for item in group.items if isinstance(item, Dimension)]


def bare(group: Group) -> list[Stroke]:
    """Return the strokes of a group that belong to no dimension."""
    return [item for item in group.items if not isinstance(item, Dimension)]


def texts(group: Group) -> list[tuple[Text, Rect, Dimension | None]]:
    """Return every text of a group with its box and the dimension that it belongs to."""
    found: list[tuple[Text, Rect, Dimension | None]] = []
    for item in group.items:
        if isinstance(item, Text):
            found.append((item, text_room(item), None))
        elif isinstance(item, Dimension):
            found += [(s, text_room(s), item) for s in item.strokes if isinstance(s, Text)]
    return found


def arrows(group: Group) -> list[tuple[Fill, Dimension]]:
    """Return the arrowheads and dots of a group's dimensions."""
    return [(s, dim) for dim in dimensions(group) for s in dim.strokes if isinstance(s, Fill)]
