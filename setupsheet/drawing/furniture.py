"""What stands beside the views: title block texts, hole table rows, notes."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.drawing import lettering
from setupsheet.drawing.dimensions import textures_without_leader, without_leader
from setupsheet.drawing.dimensions_round import hole_sizes
from setupsheet.drawing.hole_labels import has_short_labels
from setupsheet.drawing.hole_table import HoleRow, hole_table
from setupsheet.drawing.ink import Dimension, Group, Stroke, Text
from setupsheet.drawing.mate_notes import mate_notes
from setupsheet.drawing.needs import Need, given
from setupsheet.drawing.number_format import auxiliary
from setupsheet.drawing.profile import Profile
from setupsheet.drawing.signs import DIAMETER, line, width
from setupsheet.drawing.strokes import items_box
from setupsheet.drawing.table import Table, flow, size
from setupsheet.drawing.texture import is_texture, symbol
from setupsheet.drawing.title_block import TitleBlock
from setupsheet.drawing.wanted import Callout, Place, Want
from setupsheet.drawing.words import Words, hole_lines, surface, texture_of
from setupsheet.length import Unit, fixed, plain
from setupsheet.part.feature import BoltCircle, Hole
from setupsheet.part.part import Part

MANY_HOLES = 12
"""With more single holes than this the table carries their places, and the view only labels them."""
_TABLE_FROM = 6
_NOTE_ROOM_MM = 95.0
_BLOCK_WIDTH_MM, _BLOCK_HEIGHT_MM = 120.0, 150.0
"""Room of one block of the hole table."""


def labelled(part: Part) -> list[tuple[Hole, int]]:
    """Return every hole that carries a short label of its own: the feature and the index of its spot."""
    holes = [f for f in part.features if isinstance(f, Hole) and f.face.axis == 2]
    return [(h, k) for h in holes if has_short_labels(h) for k in range(len(h.spots))]


def single_spots(part: Part) -> int:
    """Return how many holes are placed one by one, not by a pitch circle."""
    return sum(len(f.spots) for f in part.features if isinstance(f, Hole) and not isinstance(f.pattern, BoltCircle))


def has_table(part: Part) -> bool:
    """Tell whether a drawing gets a hole table: for pitch circles, and where holes are many."""
    ring = any(isinstance(f, Hole) and isinstance(f.pattern, BoltCircle) for f in part.features)
    return (ring and len(labelled(part)) >= _TABLE_FROM) or single_spots(part) > MANY_HOLES


def table_of(part: Part, words: Words) -> Table | None:
    """Return the hole table; places that the views already give stand in parentheses."""
    if not has_table(part):
        return None
    rows = []
    for hole, k in labelled(part):
        bare = _said_in_table(part, hole)
        spot, words = hole.spots[k], words.of(hole.id)
        x, y = (words.signed(value) for value in spot.at)
        if bare:
            said = (*hole_lines(replace(hole, spots=(spot,)), words), *filter(None, (texture_of(hole, words),)))
            rows.append(HoleRow(spot.label, x, y, ", ".join(said)))
        else:
            rows.append(HoleRow(spot.label, auxiliary(x), auxiliary(y), _short(hole, words)))
    return hole_table(rows, decimal_sign=words.style.decimal_sign, capitals=not words.iso)


def _said_in_table(part: Part, hole: Hole) -> bool:
    """Tell whether the table says all of a hole: where single holes are many, and it needs no frame or circle."""
    bare = not isinstance(hole.pattern, BoltCircle) and hole.position is None and not hole.geometry
    return bare and single_spots(part) > MANY_HOLES


def _short(hole: Hole, words: Words) -> str:
    if hole.thread:
        return hole.thread.designation
    return (
        f"{DIAMETER}{words.length(hole.diameter.nominal_mm)}{' ' + hole.diameter.fit if hole.making == 'fit' else ''}"
    )


def notes_of(part: Part, words: Words, profile: Profile, remarks: tuple[str, ...] = ()) -> Group | None:
    """Return the notes as a group at the origin, None when there are none."""
    lines = [*part.notes, *without_leader(part), *remarks]
    if has_table(part) and not all(_said_in_table(part, hole) for hole, _ in labelled(part)):
        lines.append("Values in parentheses are worked out from the sizes in the views.")
    lines = [*(lines if words.iso else map(str.upper, lines)), *mate_notes(part, words)]
    textures = textures_without_leader(part)
    if not lines and not textures:
        return None
    h = profile.text_mm
    strokes: list[Stroke] = []
    y = 0.0
    heading = "Notes" if words.iso else "NOTES"
    strokes += line(Text((0.0, y), h, heading, bold=True))
    for number, note in enumerate(lines, 1):
        for k, part_line in enumerate(lettering.wrapped(lettering.drawable(note), h, _NOTE_ROOM_MM)):
            y -= profile.pitch_mm
            if k == 0:
                strokes += line(Text((0.0, y), h, f"{number}"))
            strokes += line(Text((2.2 * h, y), h, part_line))
    for number, (feature, value) in enumerate(textures, len(lines) + 1):
        y -= profile.pitch_mm + 2 * h
        name = f"{feature}:" if words.iso else f"{feature}:".upper()
        strokes += [*line(Text((0.0, y), h, f"{number}")), *line(Text((2.2 * h, y), h, name))]
        strokes += symbol(value, (3.0 * h + width(name, h), y), h, profile.iso)
    return Group("notes", tuple(strokes), items_box(tuple(strokes)))


def title_of(part: Part, profile: Profile, words: Words, mass_kg: float) -> TitleBlock:
    """Return the texts of the title block but for scale, sheet size and sheet number."""
    edges = ""
    if part.deburr_mm:
        size = words.length(part.deburr_mm)
        edges = f"outside -{size}" if profile.iso else f"BREAK {size} MAX"
    return TitleBlock(
        part.drawing.standard,
        "first" if profile.first_angle else "third",
        owner=part.title.owner,
        number=part.number,
        title=part.name,
        creator=part.title.creator,
        approver=part.title.approver,
        date=part.title.date,
        document_type=part.title.document_type,
        language=part.title.language,
        revision=part.revision,
        material=part.material,
        mass=_mass(mass_kg, part.unit),
        unit="mm" if part.unit is Unit.MM else "INCH",
        edges=edges,
        surface=surface(part.finish, words) if is_texture(part.finish) else part.finish,
        tolerancing="ISO 8015" if profile.iso else "ASME Y14.5-2018",
        tolerances=tolerance_lines(part, words),
    )


def _mass(kg: float, unit: Unit) -> str:
    if unit is Unit.INCH:
        return f"{plain(kg / 0.45359237, 3)} lb"
    return f"{plain(kg, 3)} kg"


def tolerance_lines(part: Part, words: Words) -> tuple[str, ...]:
    """Return the general tolerances: the standard's name, or the table by decimal places."""
    tolerance = part.tolerance
    if tolerance.standard != "by places":
        return (tolerance.written or f"{tolerance.standard} {tolerance.grade}",)
    texts = []
    for places in sorted(p for p in tolerance.by_places_mm if p >= 0):
        size = words.fixed(tolerance.by_places_mm[places], max(places, 2))
        texts.append(f".{'X' * places} ±{size}")
    lines = ["  ".join(texts[:2]), "  ".join(texts[2:])]
    rest = []
    if -1 in tolerance.by_places_mm:
        rest.append(f"FRACTIONS ±{fraction(tolerance.by_places_mm[-1])}")
    rest.append(f"ANGLES ±{words.angle(tolerance.angle_deg)}")
    lines.append("  ".join(rest))
    return tuple(text for text in lines if text)


def fraction(mm: float) -> str:
    """Return a length as a fraction of an inch in 64ths, or as decimals if it is none."""
    parts = mm / 25.4 * 64
    if abs(parts - round(parts)) > 1e-6 or not 0 < parts < 64:
        return fixed(mm / 25.4, 3).lstrip("0")
    over, under = round(parts), 64
    while over % 2 == 0:
        over, under = over // 2, under // 2
    return f"{over}/{under}"


def table_groups(part: Part, words: Words, profile: Profile) -> tuple[Group, ...]:
    """Return the hole table as one group, or as blocks of a sheet's height where it is long."""
    table = table_of(part, words)
    if table is None:
        return ()
    room = ((0.0, 0.0), max(_BLOCK_WIDTH_MM, size(table)[0]), _BLOCK_HEIGHT_MM)
    groups = [group for sheet in flow(table, [room]) for group in sheet]
    if single_spots(part) <= MANY_HOLES:
        return tuple(groups)
    first, *rest = groups
    return (replace(first, items=(*first.items, *_table_sizes(part, profile))), *rest)


def _table_sizes(part: Part, profile: Profile) -> list[Dimension]:
    """Return what the table gives, as dimensions without strokes: the table's own lines are drawn already."""
    return [_row_dimension(hole, k, profile) for hole, k in labelled(part) if _said_in_table(part, hole)]


def _row_dimension(hole: Hole, k: int, profile: Profile) -> Dimension:
    value, sizes = profile.shown(hole.spots[k].at[0]), given(_row_sizes(hole, k))
    return Dimension("table", hole.id, "x", value, "", (), (0.0, 0.0), 0.0, (), gives=sizes)


def _row_sizes(hole: Hole, k: int) -> tuple[Need, ...]:
    """Return what a row gives: its places, and with the feature's first row all that its callout would."""
    places = tuple(Need(hole.id, axis, value) for axis, value in zip("xy", hole.spots[k].at, strict=True))
    return (*places, *hole_sizes(hole)) if k == 0 else places


def without_table_places(wants: tuple[Want, ...], part: Part) -> tuple[Want, ...]:
    """Leave places and callouts of single holes to the table where it carries them."""
    if single_spots(part) <= MANY_HOLES:
        return wants
    tabled = {hole.id for hole, _ in labelled(part) if _said_in_table(part, hole)}

    def stays(want: Want) -> bool:
        if isinstance(want, Callout):
            return want.needs[0].feature not in tabled or bool(want.datum)
        return not (isinstance(want, Place) and all(need.feature in tabled for need in want.needs))

    return tuple(want for want in wants if stays(want))
