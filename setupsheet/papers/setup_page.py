"""One setup as it is printed: what to clamp, where zero is, what to do first, what can be spoiled."""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.drawing.ink import Group, Line, Pen
from setupsheet.papers.angle_picture import angle_picture
from setupsheet.papers.chart import Chart, level_chart
from setupsheet.papers.labels import MANY
from setupsheet.papers.plan_view import plan_view, scale_words, view_size
from setupsheet.papers.said import NOTHING, Said, each, shown
from setupsheet.papers.small_pictures import picture, turn_picture
from setupsheet.papers.tables import PlaceTable, StopTable, labels_of, place_table, scribe_tables, stop_tables
from setupsheet.papers.views import SetupViews
from setupsheet.papers.work import CutterBlock, TouchPlace, common_direction, touch_places, work
from setupsheet.plan.record import AxisZero, Plan, Setup
from setupsheet.plane import Point2

PLAN_ROOM = (122.0, 122.0)
LOW_ROOM = (122.0, 92.0)
WIDE_ROOM = (190.0, 100.0)
"""Room of the plan view of a long part: the whole width of the page."""
CROWDED_ROOM = (190.0, 140.0)
"""Room of a plan view with very many holes; its work stands on the next page."""
_NARROW_MM = 92.0
"""A plan view no wider than this leaves room for two columns beside it."""
_FEW_STEPS = 3
"""A setup with no more steps than this has them on its first page: its plan view is kept low."""
PICTURE_ROOM = (32.0, 17.0)
_LOW_MM = 75.0
"""A plan view lower than this leaves room under it for what to mind."""
_SHORT_NAME = 20
"""Letters of a name that stands in a heading."""
_UP = {
    "bottom": "underside up",
    "top": "top up",
    "left": "left end up",
    "right": "right end up",
    "front": "front edge up",
    "back": "back edge up",
}
_BACK = {
    "bottom": "underside",
    "top": "top",
    "left": "left end",
    "right": "right end",
    "front": "front edge",
    "back": "back edge",
}


@dataclass(frozen=True, slots=True)
class ZeroRow:
    """How one axis gets its zero: the value to set first, then what is touched, from where, and why."""

    axis: str
    set_to: Said
    touch: Said
    side: Said
    method: Said
    words: Said


@dataclass(frozen=True, slots=True)
class Fact:
    """A number with its word: grip, proud before, proud after."""

    value: Said
    word: str


@dataclass(frozen=True, slots=True)
class Close:
    """A size with close limits that this setup makes: what can be spoiled."""

    limits: Said
    what: Said
    step: Said


@dataclass(frozen=True, slots=True)
class Seen:
    """The plan view: its scale in words, whether something in it is hatched, whether there is room under it.

    ``stand`` says how it stands to hold and zero: '' beside both, 'narrow' in three columns, 'wide' over them.
    """

    plan: Group
    scale: str
    hatched: bool
    low: bool
    stand: str


@dataclass(frozen=True, slots=True)
class Angle:
    """How the part is set to its angle: seen from the front, and in words."""

    picture: Group | None
    words: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class SetupPage:
    """Everything on the pages of one setup, in the order in which it is printed.

    ``scribed`` work has its positions marked out from two edges: no machine reads X and Y.
    """

    anchor: str
    number: Said
    count: int
    up: str
    back: str
    name: Said
    machine: Said
    turn: Said
    turn_picture: Group | None
    two_moves: bool
    before: Group | None
    after: Group | None
    fewer_holes: bool
    sums: tuple[Said, ...]
    seen: Seen
    angle: Angle | None
    facts: tuple[Fact, ...]
    hold: tuple[Said, ...]
    mark: Said
    scribed: bool
    zero: tuple[ZeroRow, ...]
    first: tuple[Said, ...]
    close: tuple[Close, ...]
    mind: tuple[Said, ...]
    touch: tuple[TouchPlace, ...]
    direction: Said
    work: tuple[CutterBlock, ...]
    places: PlaceTable | None
    scribes: tuple[PlaceTable, ...]
    rings: tuple[Said, ...]
    stops: tuple[StopTable, ...]
    stair: Chart | None


def setup_page(plan: Plan, index: int, views: SetupViews) -> SetupPage:
    """Return the page of setup ``index`` (from 0)."""
    setup, path = plan.setups[index], f"/setups/{index}"
    (stops, letters), (scribes, more) = stop_tables(setup, path), scribe_tables(setup, path)
    places = place_table(setup, path)
    return SetupPage(
        anchor=f"setup-{setup.number}",
        number=Said(str(setup.number), f"{path}/number"),
        count=len(plan.setups),
        up=face_up(setup),
        back=face_back(setup),
        name=own_name(plan, index),
        machine=Said(setup.machine, f"{path}/machine"),
        turn=Said(setup.turn.sentence, f"{path}/turn/sentence"),
        turn_picture=turn_picture(setup.turn) if index else None,
        two_moves=len(setup.turn.moves) > 1,
        before=picture("the part before this setup", views.before_oblique, PICTURE_ROOM),
        after=picture("the part after this setup", views.after_oblique, PICTURE_ROOM),
        fewer_holes=views.fewer_holes,
        sums=each(setup.sums, f"{path}/sums"),
        seen=_seen(plan, index, views),
        angle=_angle(setup, path),
        facts=_facts(setup, path),
        hold=each(setup.hold.words, f"{path}/hold/words"),
        mark=Said(setup.mark, f"{path}/mark"),
        scribed=any(row.method == "scribe" for row in setup.zero),
        zero=tuple(_zero(row, f"{path}/zero/{i}") for i, row in enumerate(setup.zero)),
        first=_first(setup, path),
        close=_close(plan, setup.number),
        mind=each(setup.cautions, f"{path}/cautions"),
        touch=touch_places(setup, path),
        direction=_direction(setup, path),
        work=work(setup, path, letters | more, labels_of(places)),
        places=places,
        scribes=scribes,
        rings=_circles(setup, path),
        stops=stops,
        stair=level_chart(setup, path),
    )


def _circles(setup: Setup, path: str) -> tuple[Said, ...]:
    """Return the circles of holes as a readout's function and as a rotary table's angles."""
    rings = [Said(ring.words, f"{path}/rings/{i}/words") for i, ring in enumerate(setup.rings)]
    return (*rings, *(Said(one.words, f"{path}/by_angle/{i}/words") for i, one in enumerate(setup.by_angle)))


def _seen(plan: Plan, index: int, views: SetupViews) -> Seen:
    stand, room = standing(plan, index, views)
    view = plan_view(plan, index, views, room)
    hatched = any(isinstance(stroke, Line) and stroke.pen is Pen.HATCH for stroke in view.items)
    low = not stand and view.box[1][1] - view.box[0][1] < _LOW_MM
    return Seen(view, scale_words(view.scale), hatched, low, stand)


def standing(plan: Plan, index: int, views: SetupViews) -> tuple[str, Point2]:
    """Return how the plan view stands to what is beside it, and its room: a long part is shown across the page."""
    room = _room(plan.setups[index])
    scale, size = view_size(plan, index, views, room)
    many = any(len(step.positions) > MANY for step in plan.setups[index].steps)
    across = CROWDED_ROOM if many else WIDE_ROOM
    free = room != LOW_ROOM
    if plan.setups[index].angle_setting is not None:
        return "", room  # the picture of its setting stands under the view
    if scale < 1.0 and free and view_size(plan, index, views, across)[0] > scale:
        return "wide", across
    return "narrow" if size[0] <= _NARROW_MM else "", room


def _room(setup: Setup) -> Point2:
    """Return the room of the plan view: low where few steps leave the page free, but never for a round table."""
    low = len(setup.steps) <= _FEW_STEPS and setup.hold.in_ != "rotary table"
    return LOW_ROOM if low else PLAN_ROOM


def _angle(setup: Setup, path: str) -> Angle | None:
    if setup.angle_setting is None:
        return None
    return Angle(angle_picture(setup, path), each(setup.angle_setting.words, f"{path}/angle_setting/words"))


def face_up(setup: Setup) -> str:
    """Return 'underside up', with its tilt where it is set to an angle."""
    words = _UP.get(setup.up, f"{setup.up} up")
    return f"{words}, tilted {setup.angle_setting.shown['tilt']}" if setup.angle_setting else words


def own_name(plan: Plan, index: int) -> Said:
    """Return the name of a setup that the same face up does not tell from another one, else nothing."""
    setup = plan.setups[index]
    alike = [other for other in plan.setups if face_up(other) == face_up(setup)]
    told = len(alike) > 1 and setup.name != f"{setup.up} up" and len(setup.name) <= _SHORT_NAME
    return Said(setup.name, f"/setups/{index}/name") if told else NOTHING


def face_back(setup: Setup) -> str:
    """Return 'back edge at the fixed jaw', or 'away from you' where there is no jaw."""
    where = "at the fixed jaw" if "vise" in setup.hold.in_ else "away from you"
    where = "at the angle plate" if setup.hold.in_ == "angle plate" else where
    return f"{_BACK.get(setup.fixed_jaw, setup.fixed_jaw)} {where}"


def _facts(setup: Setup, path: str) -> tuple[Fact, ...]:
    plate = setup.hold.in_ == "angle plate"
    over = "" if setup.angle_setting is None else "above the plate" if plate else "above the jaws"
    words: tuple[tuple[str, str], ...] = (
        ("grip", "beside the plate" if plate else "in the jaws"),
        ("proud_before", f"{over} before cutting" if over else "proud before facing"),
        ("proud_after", f"{over} after cutting" if over else "proud after facing"),
        ("jaw_top", "jaw tops"),
    )
    same = setup.hold.shown.get("proud_before") == setup.hold.shown.get("proud_after")
    if same:
        words = (words[0], ("proud_after", "proud of the jaws"), words[3])
    facts = [Fact(shown(setup.hold.shown, key, f"{path}/hold/shown"), word) for key, word in words]
    return tuple(fact for fact in facts if fact.value)


def _zero(row: AxisZero, path: str) -> ZeroRow:
    return ZeroRow(
        "" if row.key_in.startswith(row.axis.upper()) else row.axis.upper(),
        Said(row.key_in, f"{path}/key_in"),
        Said(row.touch, f"{path}/touch"),
        Said(row.side, f"{path}/side") if row.side else NOTHING,
        Said(row.method, f"{path}/method"),
        Said(row.words, f"{path}/words") if row.words else NOTHING,
    )


def _direction(setup: Setup, path: str) -> Said:
    """Return the direction of milling that all steps share unless they say another."""
    common = common_direction(setup)
    at = next((i for i, step in enumerate(setup.steps) if (step.moves or step.arcs) and step.direction == common), 0)
    return Said(common, f"{path}/steps/{at}/direction") if common else NOTHING


def _close(plan: Plan, number: int) -> tuple[Close, ...]:
    """Return the close sizes that a setup makes, in the order of its steps."""
    rows = [(row.after.step, i, row) for i, row in enumerate(plan.measure) if row.close and row.after]
    here = sorted(((step, i) for step, i, row in rows if row.after and row.after.setup == number))
    return tuple(
        Close(
            Said(plan.measure[i].shown, f"/measure/{i}/shown"),
            Said(plan.measure[i].what, f"/measure/{i}/what"),
            Said(str(step), f"/measure/{i}/after/step"),
        )
        for step, i in here
    )


def _first(setup: Setup, path: str) -> tuple[Said, ...]:
    """Return what is looked at before the first cut, the witness first."""
    witness = (Said(setup.witness.sentence, f"{path}/witness/sentence"),) if setup.witness else ()
    return (*witness, *each(setup.before_cutting, f"{path}/before_cutting"))
