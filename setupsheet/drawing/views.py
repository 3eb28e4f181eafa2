"""Which views a drawing has: the main one, the elevations that show something new, sections, a picture.

The kernel's outlines become view records here; nothing later asks the kernel.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from setupsheet.drawing import ink
from setupsheet.drawing.assign import in_turn, is_sighted
from setupsheet.drawing.boxes import join
from setupsheet.drawing.frames import FRAME, bounds
from setupsheet.drawing.section_marks import Mark
from setupsheet.drawing.sections import FACE_ALONG, choose_cuts
from setupsheet.drawing.seen import Area, CutPath, Seen
from setupsheet.drawing.strokes import stroke_box
from setupsheet.drawing.virtual_corners import corner_lines
from setupsheet.drawing.wanted import Place, Want
from setupsheet.part.face import Face
from setupsheet.part.feature import Hole
from setupsheet.part.part import Part
from setupsheet.plane import Point2
from setupsheet.solid import flat
from setupsheet.solid.body import Body, finished
from setupsheet.solid.outline import outlines
from setupsheet.solid.section import stepped_section
from setupsheet.solid.thinned import is_thinned, thinned
from setupsheet.solid.view import face_view, oblique_view

_HOLES_SEEN_THROUGH = 60
"""With more holes hidden edges in the front view are a grey field."""
_SECTION_LETTERS = "ABCDEFGHJKLMNPRTUVWY"


@dataclass(frozen=True, slots=True)
class Views:
    """The views of a drawing, main view first, the cutting planes in it, and letters that are still free."""

    seen: tuple[Seen, ...]
    marks: tuple[Mark, ...]
    spare_letters: str


def choose_views(part: Part, body: Body, wants: Sequence[Want]) -> Views:
    """Return the views that show all that is wanted, with as few of them as that needs."""
    letters = _letters(part)
    faces = [Face.TOP, Face.FRONT]
    faces += [face for face in Face if face not in faces and face in _asked_faces(wants)]
    plain = [plain_view(part, body, Face.TOP)]
    steps = [s.a[0] for s in plain[0].visible if isinstance(s, ink.Line) and abs(s.a[0] - s.b[0]) < 1e-6]
    cuts = choose_cuts(part, steps)
    sections = [section_view(part, body, cut, letters[k]) for k, cut in enumerate(cuts)]
    helps = not cuts and 0 < _spots(part) <= _HOLES_SEEN_THROUGH
    plain += [plain_view(part, body, face, hidden=helps and face is Face.FRONT) for face in faces[1:]]
    plain += _further(part, body, wants, [*plain, *sections])
    seen = [*plain, *sections]
    seen.append(picture(finished(thinned(part)) if is_thinned(part) else body))
    marks = tuple(_mark(cut, letters[k]) for k, cut in enumerate(cuts))
    return Views(tuple(seen), marks, letters[len(cuts) :])


def _letters(part: Part) -> str:
    """Return the letters that no datum uses."""
    datums = {datum.letter for datum in part.datums}
    return "".join(letter for letter in _SECTION_LETTERS if letter not in datums)


def _spots(part: Part) -> int:
    return sum(len(f.spots) for f in part.features if isinstance(f, Hole))


def _asked_faces(wants: Sequence[Want]) -> set[Face]:
    """Return the faces whose own view a callout, a size or a place without choice asks for."""
    faces = {want.face for want in wants if not isinstance(want, Place)}
    return faces | {want.faces[0] for want in wants if isinstance(want, Place) and len(want.faces) == 1}


def _further(part: Part, body: Body, wants: Sequence[Want], seen: Sequence[Seen]) -> list[Seen]:
    """Return the elevations that show a height which no view shows so far."""
    more: list[Seen] = []
    for want in wants:
        if not isinstance(want, Place) or _is_seen(want, [*seen, *more]):
            continue
        for face in want.faces:
            if all(view.frame.face is not face or view.cut for view in (*seen, *more)):
                view = plain_view(part, body, face)
                if is_sighted(want, view):
                    more.append(view)
                    break
    return more


def _is_seen(place: Place, views: Sequence[Seen]) -> bool:
    return any(is_sighted(thing, view) for thing in (place, *place.others) for view in in_turn(thing, views))


def plain_view(part: Part, body: Body, face: Face, *, hidden: bool = False) -> Seen:
    """Return the view of a face."""
    shown = outlines(body, face_view(face), hidden=hidden)
    visible = tuple(stroke_of(f, ink.Pen.VISIBLE) for f in shown.visible)
    behind = tuple(stroke_of(f, ink.Pen.HIDDEN) for f in shown.hidden)
    frame = FRAME[face]
    return Seen(face.value, frame, bounds(part.box, frame), (*visible, *corner_lines(part, face, frame)), behind)


def section_view(part: Part, body: Body, cut: CutPath, letter: str) -> Seen:
    """Return the section by a plane of the main view."""
    face = FACE_ALONG[cut.along]
    frame = FRAME[face]
    sign = frame.towards_reader[cut.across]
    levels = [(low, high, level * sign) for low, high, level in cut.levels]
    levels[0] = (levels[0][0] - 1.0, *levels[0][1:])
    levels[-1] = (levels[-1][0], levels[-1][1] + 1.0, levels[-1][2])
    found = stepped_section(body, face_view(face), levels)
    visible = tuple(stroke_of(f, ink.Pen.VISIBLE) for f in found.seen.visible)
    areas = tuple(Area(a.rim.points, tuple(o.points for o in a.openings)) for a in found.areas)
    name = f"{letter}-{letter}"
    return Seen(name, frame, bounds(part.box, frame), visible, areas=areas, cut=cut, letter=name)


def picture(body: Body) -> Seen:
    """Return the oblique picture with hidden lines removed."""
    shown = outlines(body, oblique_view(), hidden=False)
    visible = tuple(stroke_of(f, ink.Pen.VISIBLE) for f in shown.visible)
    box = join(stroke_box(stroke) for stroke in visible)
    return Seen("picture", FRAME[Face.TOP], box, visible, is_picture=True)


def _mark(cut: CutPath, letter: str) -> Mark:
    """Return a cutting plane as the main view shows it."""
    points: list[Point2] = []
    for low, high, level in cut.levels:
        points += [(low, level), (high, level)] if cut.along == 0 else [(level, low), (level, high)]
    sight_deg = 90.0 if cut.along == 0 else 180.0
    return Mark(tuple(points), sight_deg, letter)


def stroke_of(record: flat.Flat, pen: ink.Pen) -> ink.Stroke:
    """Return a kernel outline as ink, in view millimetres."""
    match record:
        case flat.Line():
            return ink.Line(pen, record.a, record.b)
        case flat.Circle():
            return ink.Circle(pen, record.centre, record.radius)
        case flat.Arc():
            return ink.Arc(pen, record.centre, record.radius, record.from_deg, record.to_deg)
        case flat.Ellipse():
            return ink.Ellipse(pen, record.centre, record.major, record.ratio, record.from_deg, record.to_deg)
        case flat.Polyline():
            return ink.Polyline(pen, record.points, record.closed)


def named(view: Seen, letter: str) -> Seen:
    """Return a view with the letter that it carries when it stands out of line."""
    return replace(view, letter=letter)
