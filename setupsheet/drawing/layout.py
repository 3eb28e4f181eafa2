"""Which sheet, which scale, which views in line: layouts are tried, the smallest sheet at the best scale first.

A layout counts when all stands on the sheet and every text found its place. Where a view with its callouts is
too wide for a sheet, it is drawn again with the callouts kept within the sheet; then on several sheets.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from itertools import product

from setupsheet.drawing import title_block
from setupsheet.drawing.arrange import Block, Pieces, block_of, fill, lay_out
from setupsheet.drawing.assign import ViewWants
from setupsheet.drawing.boxes import size
from setupsheet.drawing.compose import Drawn, Job, compose
from setupsheet.drawing.details import Detail, details_of
from setupsheet.drawing.frame import SheetSize
from setupsheet.drawing.furniture import has_table, notes_of, table_groups
from setupsheet.drawing.ink import Group
from setupsheet.drawing.profile import Profile
from setupsheet.drawing.scales import scales_for
from setupsheet.drawing.section_marks import Mark
from setupsheet.drawing.seen import Seen
from setupsheet.drawing.title_block import TitleBlock
from setupsheet.drawing.told import said, told_sizes
from setupsheet.drawing.views import Views, named
from setupsheet.drawing.wanted import Want
from setupsheet.drawing.words import Words
from setupsheet.part.face import Face
from setupsheet.part.part import Part
from setupsheet.plane import Point2

_PICTURE_MM = (58.0, 42.0)
"""Widest and highest that the small picture gets, and what it may shrink to rather than take a larger sheet."""
_CROWDED = 0.85
"""A sheet fuller than this is not taken when views had to be squeezed on to it (digest of practice, S5)."""


@dataclass(frozen=True, slots=True)
class Desk:
    """All that is known before a scale is chosen."""

    part: Part
    profile: Profile
    words: Words
    views: Views
    taken: dict[str, ViewWants]
    title: TitleBlock
    sizes: tuple[SheetSize, ...]
    remarks: tuple[str, ...] = ()
    """What the drawing has to say of itself among the notes."""
    told: tuple[Want, ...] = ()
    """What no view shows or has room for: it is said among the notes."""


@dataclass(frozen=True, slots=True)
class Layout:
    """Sheets full of groups on one size of paper, and the scale; ``whole`` when every text found a place."""

    paper: SheetSize
    scale: float
    sheets: tuple[tuple[Group, ...], ...]
    whole: bool


def layouts(desk: Desk) -> Iterator[Layout]:
    """Yield the layouts on which all has its place, the best first; one with a text too few where none has all."""
    second: Layout | None = None
    some = False
    for scale in scales_for(desk.part):
        for found in _at_scale(desk, scale):
            if found.whole:
                some = True
                yield found
            second = second or found
    if second is not None and not some:
        yield second


def _at_scale(desk: Desk, scale: float) -> Iterator[Layout]:
    """Yield layouts at a scale: on one sheet, the smallest first, then on several of the largest."""
    easel = easel_at(desk, scale)
    blocks = [(paper, block_of(paper, revisions_of(desk.part, paper))) for paper in desk.sizes]
    variants = _variants(desk)
    blocks = [(paper, block) for paper, block in blocks if _has_room(desk, scale, block)]
    for paper, block in blocks:
        for room, out, picture_mm in product(_rooms(easel, block), variants[:-1], _PICTURE_MM):
            pieces, whole = _pieces(easel, out, room, picture_mm)
            placed = lay_out(pieces, block, desk.profile.first_angle)
            if placed is None or placed[1] or (room is not None and fill(placed[0], block) > _CROWDED):
                continue
            yield Layout(paper, scale, (tuple(placed[0]),), whole)
    for paper, block in blocks[-1:]:
        for room, out in product((None, *_free_rooms(block)), variants):
            pieces, whole = _pieces(easel, out, room)
            sheets = _several(pieces, block, desk)
            if sheets is not None:
                yield Layout(paper, scale, sheets, whole)


def _has_room(desk: Desk, scale: float, block: Block) -> bool:
    """Tell whether each view without anything round it would fit on an empty sheet; if not, nothing need be drawn."""
    wide, tall = size(block.space)
    bare = (size(view.box) for view in desk.views.seen if not view.is_picture)
    return all(w * scale <= wide and h * scale <= tall for w, h in bare)


def _rooms(easel: Easel, block: Block) -> Iterator[Point2 | None]:
    """Yield the room for a view with its callouts: any, then the free parts of a sheet unless that is hopeless."""
    yield None
    pieces, _ = _pieces(easel, (), None)
    wide, tall = size(block.space)
    boxes = [*(d.group.box for d in pieces.in_line.values()), *(g.box for g in pieces.free)]
    least = sum(min(w, wide) * h for w, h in map(size, boxes)) + sum(w * h for w, h in map(size, block.taken))
    if least < _CROWDED * wide * tall:
        yield from _free_rooms(block)


def _free_rooms(block: Block) -> tuple[Point2, ...]:
    """Return width and height of the sheet above the title block, and beside it."""
    (x0, y0), (x1, y1) = block.space
    left, top = block.taken[0][0][0], block.taken[0][1][1]
    above, beside = (x1 - x0, y1 - top), (left - x0, y1 - y0)
    return (above, beside) if beside[0] > 0.3 * above[0] else (above,)


def _several(pieces: Pieces, block: Block, desk: Desk) -> tuple[tuple[Group, ...], ...] | None:
    """Return the pieces on as many sheets as they take, None if one of them fits on none."""
    placed = lay_out(pieces, block, desk.profile.first_angle)
    sheets: list[tuple[Group, ...]] = []
    while placed is not None and placed[0]:
        sheets.append(tuple(placed[0]))
        if not placed[1]:
            return tuple(sheets)
        placed = lay_out(Pieces({}, tuple(placed[1])), block, desk.profile.first_angle)
    return None


def _variants(desk: Desk) -> tuple[tuple[Face, ...], ...]:
    """Return which views stand out of line, with a letter: none, the bottom view, at last all but the main view."""
    faces = [view.frame.face for view in desk.views.seen if view.cut is None and not view.is_picture]
    others = tuple(face for face in faces if face is not Face.TOP)
    return ((), (Face.BOTTOM,), others) if Face.BOTTOM in faces else ((), others)


@dataclass(frozen=True, slots=True)
class Easel:
    """Views drawn at one scale; each is drawn once, however often it is tried on paper."""

    desk: Desk
    scale: float
    details: tuple[Detail, ...]
    taken: dict[str, ViewWants]
    tables: tuple[Group, ...]
    notes: tuple[Group, ...]
    drawn: dict[tuple[str, str, tuple[Mark, ...], Point2 | None], Drawn] = field(default_factory=dict)

    def draw(self, view: Seen, marks: tuple[Mark, ...] = (), room: Point2 | None = None) -> Drawn:
        """Return a view with its marks, its callouts within ``room``."""
        room = room if self.taken[view.name].callouts else None
        key = (view.name, view.letter, marks, room)
        if key not in self.drawn:
            desk = self.desk
            labels = has_table(desk.part) and view.cut is None and view.frame.face.axis == 2
            spots = tuple((d.letter, d.window) for d in self.details if d.parent == view.name)
            wants = self.taken[view.name]
            self.drawn[key] = compose(Job(view, wants, desk.part, desk.profile, self.scale, marks, labels, room, spots))
        return self.drawn[key]

    def draw_detail(self, detail: Detail) -> Drawn:
        """Return a detail at its own scale."""
        if (key := (detail.parent, detail.letter, (), None)) not in self.drawn:
            view = next(view for view in self.desk.views.seen if view.name == detail.parent)
            self.drawn[key] = compose(
                Job(detail.seen(view), detail.wants, self.desk.part, self.desk.profile, detail.scale)
            )
        return self.drawn[key]


def easel_at(desk: Desk, scale: float) -> Easel:
    """Return what draws the views at a scale, with the details that this scale needs."""
    details, taken = details_of(desk.part, desk.words, desk.views.seen, desk.taken, scale)
    notes = notes_of(desk.part, desk.words, desk.profile, (*desk.remarks, *map(said, desk.told)))
    if notes and desk.told:
        notes = replace(notes, items=(*notes.items, *told_sizes(desk.told, desk.profile)))
    tables = table_groups(desk.part, desk.words, desk.profile)
    return Easel(desk, scale, details, taken, tables, (notes,) if notes else ())


def _pieces(
    easel: Easel, out: tuple[Face, ...], room: Point2 | None, picture_mm: float = _PICTURE_MM[0]
) -> tuple[Pieces, bool]:
    """Return all pieces at a scale: the views in line, then sections, other views, table, picture, notes.

    And whether every text of them found a place.
    """
    desk = easel.desk
    letters = dict(zip(out, desk.views.spare_letters, strict=False))
    in_line: dict[Face, Drawn] = {}
    free: list[Drawn] = []
    late: list[Group] = []
    for view in desk.views.seen:
        face = view.frame.face
        if view.is_picture:
            late.append(_picture(desk, view, picture_mm))
        elif view.cut is not None:
            free.append(easel.draw(view))
        elif face in out:
            free.append(easel.draw(named(view, letters[face]), _marks(desk, view, letters), room))
        else:
            in_line[face] = easel.draw(view, _marks(desk, view, letters), room)
    free += [easel.draw_detail(detail) for detail in easel.details]
    whole = not any(drawn.left_over for drawn in (*in_line.values(), *free))
    groups = (*(drawn.group for drawn in free), *easel.tables, *late, *easel.notes)
    return Pieces(in_line, groups), whole


_SIGHT_DEG = {Face.FRONT: 90.0, Face.BACK: 270.0, Face.LEFT: 0.0, Face.RIGHT: 180.0}
"""Direction of sight of the elevations, as the main view shows it."""


def _marks(desk: Desk, view: Seen, letters: dict[Face, str]) -> tuple[Mark, ...]:
    """Return the cutting planes of the main view, and arrows of sight for the views that stand out of line."""
    (x0, y0), (x1, y1) = view.box
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    if view.frame.face is Face.FRONT and Face.BOTTOM in letters:
        return (Mark((middle,), 90.0, letters[Face.BOTTOM]),)
    if view.frame.face is not Face.TOP:
        return ()
    arrows = (Mark((middle,), _SIGHT_DEG[face], letters[face]) for face in letters if face in _SIGHT_DEG)
    return (*desk.views.marks, *arrows)


def _picture(desk: Desk, view: Seen, most_mm: float) -> Group:
    (x0, y0), (x1, y1) = view.box
    k = min(1.0, most_mm / (x1 - x0), most_mm / (y1 - y0))
    return compose(Job(view, ViewWants(), desk.part, desk.profile, k)).group


def revisions_of(part: Part, paper: SheetSize) -> Group | None:
    """Return the revision table on a sheet, None for a part without revisions."""
    rows = [(r.letter, r.date, r.change) for r in part.revisions]
    return title_block.revision_table(rows, paper)
