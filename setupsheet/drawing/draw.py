"""The one door of this stage: a part and its body in, the finished sheets and what is wrong with them out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import islice

from setupsheet.drawing import title_block
from setupsheet.drawing.assign import assign
from setupsheet.drawing.check_record import Fault
from setupsheet.drawing.checks import faults_of, finding_of
from setupsheet.drawing.completeness import check_completeness, dimensions_of, missing, place_of
from setupsheet.drawing.depths import give_depths
from setupsheet.drawing.dimensions import wants
from setupsheet.drawing.frame import SheetSize, frame, sheet_size, sheet_sizes
from setupsheet.drawing.furniture import title_of, without_table_places
from setupsheet.drawing.ink import Group, Sheet
from setupsheet.drawing.layout import Desk, Layout, layouts, revisions_of
from setupsheet.drawing.needs import given
from setupsheet.drawing.profile import profile_of
from setupsheet.drawing.scales import scale_words
from setupsheet.drawing.told import Key, gives_one, said, take_out
from setupsheet.drawing.views import choose_views
from setupsheet.drawing.wanted import Flag, Want
from setupsheet.drawing.words import words_of
from setupsheet.finding import Finding, Findings, caution, error
from setupsheet.part.part import Part
from setupsheet.plan.record import Plan
from setupsheet.solid.body import Body, volume_mm3
from setupsheet.solid.thinned import is_thinned

_ROUNDS = 4
"""Taking sizes out of a view moves others: after these rounds the sheets are as they are, with their errors."""
_LAYOUTS_TRIED = 6


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
    sheets, findings = _settled(desk, homeless)
    return sheets, [*_unknown_sheet(part), *findings]


def _settled(desk: Desk, homeless: Sequence[Want]) -> tuple[tuple[Sheet, ...], Findings]:
    """Return sheets on which nothing stands in the way of anything, or that tell in words what had no room."""
    part = desk.part
    for _ in range(_ROUNDS):
        found = _best(desk)
        if found is None:
            return (), [_no_room(part)]
        sheets, faults, lacking = found
        keys = {key for fault in faults for key in fault.gives} | lacking
        taken, gone = take_out(desk.taken, keys)
        gone += [want for want in homeless if gives_one(want, keys) and want not in desk.told]
        if not gone:
            break
        desk = replace(desk, taken=taken, told=(*desk.told, *gone))
    findings = [*check_completeness(part, sheets), *(finding_of(part, fault) for fault in faults)]
    return sheets, [*findings, *(_told(part, want) for want in desk.told)]


def _best(desk: Desk) -> tuple[tuple[Sheet, ...], list[Fault], set[Key]] | None:
    """Return the first of some layouts whose dimensions all stand where they should, else the first of all.

    With its faults and the sizes that it does not give.
    """
    first: tuple[tuple[Sheet, ...], list[Fault], set[Key]] | None = None
    for layout in islice(layouts(desk), _LAYOUTS_TRIED):
        sheets = _sheets(desk, layout)
        faults = faults_of(sheets, desk.profile)
        lacking = set(given(tuple(missing(desk.part, dimensions_of(sheets)))))
        found = sheets, faults, lacking
        if not lacking and not any(fault.gives for fault in faults):
            return found
        first = first or found
    return first


def _told(part: Part, want: Want) -> Finding:
    feature = "" if isinstance(want, Flag) else want.needs[0].feature
    return caution(
        "size-in-notes",
        f"no view has room for a size, so the notes say it: {said(want)}",
        place_of(part, feature),
        feature=feature,
        try_="name a larger sheet, drawing: {sheet: A2}, or leave it so: the note is enough to make the part",
        because="a size in words is complete, but found less easily than one in a view",
    )


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
