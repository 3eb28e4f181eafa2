"""The one door of this stage: a part and its body in, the finished sheets and what is wrong with them out."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from setupsheet.drawing import title_block
from setupsheet.drawing.arrange import Block, Pieces, block_of, lay_out
from setupsheet.drawing.assign import ViewWants, assign
from setupsheet.drawing.checks import check_sheets
from setupsheet.drawing.completeness import check_completeness
from setupsheet.drawing.compose import Drawn, Job, compose
from setupsheet.drawing.depths import give_depths
from setupsheet.drawing.dimensions import wants
from setupsheet.drawing.frame import SheetSize, frame, sheet_size, sheet_sizes
from setupsheet.drawing.furniture import has_table, notes_of, table_groups, title_of, without_table_places
from setupsheet.drawing.ink import Group, Sheet
from setupsheet.drawing.profile import Profile, profile_of
from setupsheet.drawing.scales import scale_words, scales_for
from setupsheet.drawing.section_marks import Mark
from setupsheet.drawing.seen import Seen
from setupsheet.drawing.title_block import TitleBlock
from setupsheet.drawing.views import Views, choose_views, named
from setupsheet.drawing.words import Words, words_of
from setupsheet.finding import Finding, Findings, caution, error
from setupsheet.part.face import Face
from setupsheet.part.part import Part
from setupsheet.plan.record import Plan
from setupsheet.solid.body import Body, volume_mm3

_PICTURE_MM = 58.0
"""Widest and highest that the small picture gets."""


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


@dataclass(frozen=True, slots=True)
class Layout:
    """Sheets full of groups on one size of paper, and the scale."""

    paper: SheetSize
    scale: float
    sheets: tuple[tuple[Group, ...], ...]


def draw(part: Part, body: Body, plan: Plan | None = None) -> tuple[tuple[Sheet, ...], Findings]:
    """Return the sheets of a part's drawing and the findings of its own checks; no sheet when none can hold it.

    With a plan the title block prints the plan's mass, so that all papers agree.
    """
    words, profile = words_of(part), profile_of(part)
    asked = without_table_places(wants(part), part)
    views = choose_views(part, body, asked)
    taken, homeless = assign(asked, views.seen)
    give_depths(homeless, taken, part, words)
    mass_kg = plan.solid.mass_kg if plan else volume_mm3(body) * 1e-9 * part.density_kg_m3
    title = title_of(part, profile, words, mass_kg)
    desk = Desk(part, profile, words, views, taken, title, papers_for(part))
    layout = next((found for scale in scales_for(part) if (found := _at_scale(desk, scale))), None)
    if layout is None:
        return (), [_no_room(part)]
    sheets = _sheets(desk, layout)
    findings = [*_unknown_sheet(part), *check_completeness(part, sheets), *check_sheets(part, sheets, profile)]
    return sheets, findings


def papers_for(part: Part) -> tuple[SheetSize, ...]:
    """Return the sheets to try, the smallest first; the one that the spec names alone, if there is such a one."""
    if part.drawing.sheet and not _unknown_sheet(part):
        return (sheet_size(part.drawing.sheet),)
    return sheet_sizes(part.drawing.standard)


def _unknown_sheet(part: Part) -> Findings:
    """Return a caution when the spec names a sheet that nobody sells."""
    names = [paper.name for standard in ("iso", "asme") for paper in sheet_sizes(standard)]
    if not part.drawing.sheet or part.drawing.sheet.lower() in (name.lower() for name in names):
        return []
    return [
        caution(
            "sheet-unknown",
            f"there is no sheet {part.drawing.sheet!r}; the smallest that holds the drawing is taken",
            feature="part",
            found=part.drawing.sheet,
            allowed=", ".join(names),
            try_=f"write sheet: {names[1]}, or leave it out",
        )
    ]


def _no_room(part: Part) -> Finding:
    return error(
        "drawing-too-large",
        "no sheet holds the views of this part",
        feature="part",
        found=" × ".join(f"{value:g}" for value in part.box.size) + " mm",
        allowed="views that fit on the largest sheet at 1:100",
        try_="name a larger sheet: drawing: {sheet: A2}",
    )


def _at_scale(desk: Desk, scale: float) -> Layout | None:
    """Return the layout on the smallest paper that takes all; else on several sheets; None if views do not fit."""
    easel = Easel(desk, scale)
    blocks = [(paper, block_of(paper, _revisions(desk.part, paper))) for paper in desk.sizes]
    for paper, block in blocks:
        for out in _variants(desk)[:-1]:
            placed = lay_out(_pieces(easel, out), block, desk.profile.first_angle)
            if placed is not None and not placed[1]:
                return Layout(paper, scale, (tuple(placed[0]),))
    paper, block = blocks[-1]
    for out in _variants(desk):
        placed = lay_out(_pieces(easel, out), block, desk.profile.first_angle)
        more = _further_sheets(placed[1], block, desk) if placed is not None else None
        if placed is not None and more is not None:
            return Layout(paper, scale, (tuple(placed[0]), *more))
    return None


def _variants(desk: Desk) -> tuple[tuple[Face, ...], ...]:
    """Return which views stand out of line, with a letter: none, the bottom view, at last all but the main view."""
    faces = [view.frame.face for view in desk.views.seen if view.cut is None and not view.is_picture]
    others = tuple(face for face in faces if face is not Face.TOP)
    return ((), (Face.BOTTOM,), others) if Face.BOTTOM in faces else ((), others)


def _further_sheets(rest: list[Group], block: Block, desk: Desk) -> tuple[tuple[Group, ...], ...] | None:
    sheets: list[tuple[Group, ...]] = []
    while rest:
        placed = lay_out(Pieces({}, tuple(rest)), block, desk.profile.first_angle)
        if placed is None or not placed[0]:
            return None
        sheets.append(tuple(placed[0]))
        rest = placed[1]
    return tuple(sheets)


@dataclass(frozen=True, slots=True)
class Easel:
    """Views drawn at one scale; each is drawn once, however often it is tried on paper."""

    desk: Desk
    scale: float
    drawn: dict[tuple[str, str, tuple[Mark, ...]], Drawn] = field(default_factory=dict)

    def draw(self, view: Seen, marks: tuple[Mark, ...] = ()) -> Drawn:
        """Return a view with its marks."""
        key = (view.name, view.letter, marks)
        if key not in self.drawn:
            desk = self.desk
            labels = has_table(desk.part) and view.frame.face is Face.TOP and view.cut is None
            job = Job(view, desk.taken[view.name], desk.part, desk.profile, self.scale, marks, labels)
            self.drawn[key] = compose(job)
        return self.drawn[key]


def _pieces(easel: Easel, out: tuple[Face, ...]) -> Pieces:
    """Return all pieces at a scale: the views in line, then sections, other views, table, picture, notes."""
    desk = easel.desk
    letters = dict(zip(out, desk.views.spare_letters, strict=False))
    in_line: dict[Face, Drawn] = {}
    free: list[Group] = []
    late: list[Group] = []
    for view in desk.views.seen:
        face = view.frame.face
        if view.is_picture:
            late.append(_picture(desk, view))
        elif view.cut is not None:
            free.append(easel.draw(view).group)
        elif face in out:
            free.append(easel.draw(named(view, letters[face]), _marks(desk, view, letters)).group)
        else:
            in_line[face] = easel.draw(view, _marks(desk, view, letters))
    notes = notes_of(desk.part, desk.words, desk.profile)
    tables = table_groups(desk.part, desk.words, desk.profile)
    return Pieces(in_line, (*free, *tables, *late, *((notes,) if notes else ())))


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


def _picture(desk: Desk, view: Seen) -> Group:
    (x0, y0), (x1, y1) = view.box
    k = min(1.0, _PICTURE_MM / (x1 - x0), _PICTURE_MM / (y1 - y0))
    return compose(Job(view, ViewWants(), desk.part, desk.profile, k)).group


def _revisions(part: Part, paper: SheetSize) -> Group | None:
    rows = [(r.letter, r.date, r.change) for r in part.revisions]
    return title_block.revision_table(rows, paper)


def _sheets(desk: Desk, layout: Layout) -> tuple[Sheet, ...]:
    paper, count = layout.paper, len(layout.sheets)
    sheets = []
    for number, groups in enumerate(layout.sheets, 1):
        block = replace(
            desk.title,
            scale=scale_words(layout.scale),
            sheet_size=paper.name,
            sheet=f"{number} / {count}",
        )
        furniture: list[Group] = [frame(paper), title_block.title_block(block, paper)]
        revisions = _revisions(desk.part, paper) if number == 1 else None
        furniture += [revisions] if revisions else []
        fields = {**block.as_fields(), "decimal_sign": desk.part.drawing.decimal_sign}
        name = f"{desk.part.number} sheet {number}"
        unit = desk.part.unit.value
        sheets.append(Sheet(name, paper.width, paper.height, layout.scale, unit, (*furniture, *groups), fields))
    return tuple(sheets)
