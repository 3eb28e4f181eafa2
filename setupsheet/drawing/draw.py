"""The one door of this stage: a part and its body in, the finished sheets and what is wrong with them out."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.drawing import title_block
from setupsheet.drawing.assign import assign
from setupsheet.drawing.checks import check_sheets
from setupsheet.drawing.completeness import check_completeness
from setupsheet.drawing.depths import give_depths
from setupsheet.drawing.dimensions import wants
from setupsheet.drawing.frame import SheetSize, frame, sheet_size, sheet_sizes
from setupsheet.drawing.furniture import title_of, without_table_places
from setupsheet.drawing.ink import Group, Sheet
from setupsheet.drawing.layout import Desk, Layout, choose_layout, revisions_of
from setupsheet.drawing.profile import profile_of
from setupsheet.drawing.scales import scale_words
from setupsheet.drawing.views import choose_views, is_thinned
from setupsheet.drawing.words import words_of
from setupsheet.finding import Finding, Findings, caution, error
from setupsheet.part.part import Part
from setupsheet.plan.record import Plan
from setupsheet.solid.body import Body, volume_mm3


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
    desk = Desk(part, profile, words, views, taken, title, papers_for(part), remarks_of(part))
    layout = choose_layout(desk)
    if layout is None:
        return (), [_no_room(part)]
    sheets = _sheets(desk, layout)
    findings = [*_unknown_sheet(part), *check_completeness(part, sheets), *check_sheets(part, sheets, profile)]
    return sheets, findings


def remarks_of(part: Part) -> tuple[str, ...]:
    """Return what is left out on purpose, to be said among the notes."""
    if not is_thinned(part):
        return ()
    return (
        "The picture shows the first hole of every pattern.",
        "A hole without a label beside it has its place in the table.",
    )


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
        revisions = revisions_of(desk.part, paper) if number == 1 else None
        furniture += [revisions] if revisions else []
        fields = {**block.as_fields(), "decimal_sign": desk.part.drawing.decimal_sign}
        name = f"{desk.part.number} sheet {number}"
        unit = desk.part.unit.value
        sheets.append(Sheet(name, paper.width, paper.height, layout.scale, unit, (*furniture, *groups), fields))
    return tuple(sheets)
