"""Setups for a part that has none written: from the trade's rules, with the reasons that are printed."""

from __future__ import annotations

from setupsheet.finding import Finding, Place, note
from setupsheet.part.face import Face
from setupsheet.part.feature import CornerRadius, EdgeCut, Feature, Hole, Pocket, RoundedEnd, Slot
from setupsheet.part.part import Part, SetupAsked, ZeroAsked
from setupsheet.part.shop import Shop
from setupsheet.plan.milling.sides import OVER_JAW_MM
from setupsheet.plan.setup.proposed_hold import (
    deepest_grip,
    edges_by_end,
    fits_vise,
    hanging_out,
    hold_for,
    least_grip,
    on_packing,
)
from setupsheet.plan.setup.squaring import Turn, first_face, is_block, machined, squared
from setupsheet.solid.laid import lay

SIDE_REACH_MM = 25.0
"""How deep a side is milled where the shop's end mills do not tell. Common practice, no source."""

SIDE_MILL_MM = 8.0
"""Least diameter of an end mill that whole sides are milled with. Common practice, no source."""

PICK_UP_MM = 5.0
"""Least bore that an indicator goes into. Common practice, no source."""

STANDS = 3.0
"""How many times as high as it is gripped a part may stand (planning rule M36: twice the grip over the jaws)."""

_EDGE_WORK = (CornerRadius, EdgeCut, RoundedEnd)


def proposed(part: Part, shop: Shop) -> tuple[tuple[SetupAsked, ...], list[Finding]]:
    """Return the setups to plan: those of the spec, or proposed ones and a note that says so."""
    if part.setups:
        return part.setups, []
    turns = _turns(part, shop)
    setups = tuple(_setup(part, shop, turns, index) for index in range(len(turns)))
    said = note(
        "setups-proposed",
        f"no setups are written: {len(setups)} are proposed: {', '.join(setup.name for setup in setups)}",
        found="no setups:",
        try_="write setups: to choose for yourself how the part is held and where zero is",
    )
    return setups, [said]


def _turns(part: Part, shop: Shop) -> list[Turn]:
    """Return the clampings in turn: squaring, the two widest faces, then the other faces that have work."""
    first = first_face(part)
    both = [face for face in (first, first.opposite) if machined(part, face) or _features_of(part, face)]
    if is_block(part, _side_reach(shop)):
        turns, both = squared(part), [first.opposite]
    elif len(both) < 2 or not _grips_meet(part, shop, first):
        both = both[-1:] or [first.opposite]
        turns = [_lying(part, shop, turn, both[0]) for turn in squared(part) if turn.up is not both[0]]
    else:
        turns = []
    over = (first, first.opposite) if machined(part, first) and machined(part, first.opposite) else None
    turns += [Turn(face, _back_of(first, face), over=over if face is not first else None) for face in both]
    rest = [face for face in Face if face not in both and _features_of(part, face) and not _done_in(turns, part, face)]
    rest.sort(key=lambda face: _thins(part, face))
    turns += [Turn(face, _back_of(first, face)) for face in rest]
    return [one for turn in turns for one in _end_by_end(part, turns, turn)]


def _done_in(turns: list[Turn], part: Part, face: Face) -> bool:
    """Tell whether the work on a face is done through another face: holes right through, with that one up."""
    ups = {turn.up for turn in turns if not turn.face_only and not turn.end}
    return face.opposite in ups and all(isinstance(f, Hole) and f.through for f in _features_of(part, face))


def _lying(part: Part, shop: Shop, turn: Turn, up: Face) -> Turn:
    """Return the clamping of a side: upright, or an end hanging out where the part is too long to stand on the other.

    A part that is never turned over, or is too thin to be gripped twice, has its sides cut apart: the jaws would hide
    the lower part of every side.
    """
    stands = part.box.size[turn.up.axis] <= STANDS * deepest_grip(shop) or turn.up.axis != 0
    return turn if stands or turn.up.axis == up.axis else Turn(up, _back_of(up, up), end=turn.up)


def _grips_meet(part: Part, shop: Shop, first: Face) -> bool:
    """Tell whether sides cut from both faces meet: what the jaws hide from one, the other reaches."""
    sides = any(machined(part, face) for face in Face if face.axis != first.axis)
    return not sides or 2 * (least_grip(shop) + OVER_JAW_MM) <= part.box.size[first.axis] + 1e-6


def _end_by_end(part: Part, turns: list[Turn], turn: Turn) -> list[Turn]:
    """Return a clamping, and a second one where edge work goes right down at both ends and is reached from one side."""
    again = any(other.up is turn.up.opposite and not other.face_only for other in turns)
    ends = edges_by_end(part, lay(turn.up, turn.back, (0.0, 0.0, 0.0)), _here(part, turn))
    if again or turn.end or len(ends) < 2:
        return [turn]
    _, later = ends.values()
    return [turn, Turn(turn.up, turn.back, edges=later)]


def _side_reach(shop: Shop) -> float:
    """Return how deep the shop's end mills go down beside a side."""
    mills = [
        c.flute_length_mm
        for c in shop.cutters
        if c.kind == "end mill" and c.diameter_mm >= SIDE_MILL_MM and c.flute_length_mm
    ]
    return max(mills, default=SIDE_REACH_MM)


def _features_of(part: Part, face: Face) -> list[Feature]:
    return [feature for feature in part.features if feature.face is face]


def _thins(part: Part, face: Face) -> tuple[bool, int]:
    """Order faces: located bores first, so that others can be found from them; what leaves thin metal last (M24)."""
    here = _features_of(part, face)
    located = any(isinstance(f, Hole) and f.diameter.kind in ("fit", "limits") for f in here)
    return any(isinstance(f, Pocket | Slot) for f in here), 0 if located else 1


def _back_of(first: Face, up: Face) -> Face:
    """Return the face at the fixed jaw: the first face where it stands upright, the back where the first lies flat."""
    if up.axis != first.axis:
        return first
    return Face.BACK if up.axis != Face.BACK.axis else Face.TOP


def _setup(part: Part, shop: Shop, turns: list[Turn], index: int) -> SetupAsked:
    turn = turns[index]
    place = Place(part.source_file)
    across = part.stock.box.size[turn.back.axis]
    in_vise = fits_vise(shop, across) or not shop.vises
    zero = {
        "z": _height_zero(turn, place),
        **_from_other_end(part, turn, place),
        **_picked_up(part, turns, index, place),
    }
    here = tuple(f for f in _here(part, turn) if f.id not in _alone(turns, turn))
    hold = hold_for(part, shop, lay(turn.up, turn.back, (0.0, 0.0, 0.0)), here, _low_grip(part, turn))
    name, do = f"{turn.up.value} up", tuple[str, ...]()
    if turn.face_only:
        name, do = f"{turn.up.value} face", (f"face {turn.up.value}",)
    elif turn.edges:
        name, do = "other end", turn.edges
    elif turn.end:
        others = ", ".join(f.value for f in Face if f.axis != turn.up.axis and f is not turn.end)
        name, do = f"{turn.end.value} end", (f"outline except {others}",)
        hold = hanging_out(part, turn.end, hold)
    hold = hold if in_vise else on_packing(place)
    return SetupAsked(name, turn.up, turn.back, in_vise, "", hold, zero, "", do, place)


def _alone(turns: list[Turn], turn: Turn) -> set[str]:
    """Return the edges that are not cut in a clamping, because another one is there for them."""
    return {id_ for other in turns if other is not turn for id_ in other.edges}


def _here(part: Part, turn: Turn) -> tuple[Feature, ...]:
    """Return what may be cut in a clamping: its own face's features, and edges that run through along its axis."""
    if turn.face_only or turn.end:
        return ()
    if turn.edges:
        return tuple(part.feature(id_) for id_ in turn.edges)
    return tuple(
        f for f in part.features if f.face is turn.up or (isinstance(f, _EDGE_WORK) and f.face.axis == turn.up.axis)
    )


def _low_grip(part: Part, turn: Turn) -> bool:
    """Tell whether the jaws have to stay low because sides or edges are cut above them."""
    sides = turn.up.axis == 2 and any(machined(part, face) for face in Face if face.axis != 2)
    return not turn.face_only and (sides or any(isinstance(f, _EDGE_WORK) for f in _here(part, turn)))


def _height_zero(turn: Turn, place: Place) -> ZeroAsked:
    """Return how Z is found: at the face that is cut, or by the thickness over both where the other is done."""
    if turn.over is None:
        return ZeroAsked(turn.up.value, "faced", None, place)
    under, top = turn.over
    return ZeroAsked(under.value, f"measure over {under.value} and {top.value}", None, place)


def _picked_up(part: Part, turns: list[Turn], index: int, place: Place) -> dict[str, ZeroAsked]:
    """Return X and Y from a bore that an earlier setup made, where the edges are still rough after a turn-over."""
    turn = turns[index]
    before = [t for t in turns[:index] if t.up is turn.up.opposite and not t.face_only]
    rough = any(machined(part, face) for face in Face if face.axis != turn.up.axis)
    squared_up = {t.up for t in turns[:index] if t.face_only}
    if not before or not rough or squared_up:
        return {}
    bore = next((hole for hole in _bores(part) if hole.face.axis == turn.up.axis), None)
    if bore is None:
        return {}
    laid = lay(turn.up, turn.back, (0.0, 0.0, 0.0))
    return {
        name: ZeroAsked(laid.face(axis, -1).value, f"indicate {bore.id}", None, place)
        for axis, name in enumerate(("x", "y"))
    }


def _from_other_end(part: Part, turn: Turn, place: Place) -> dict[str, ZeroAsked]:
    """Return how X and Y are found where the end that they would be found from was rounded in the clamping before."""
    if not turn.edges:
        return {}
    gone = {f.side for f in part.features if isinstance(f, RoundedEnd) and f.id not in turn.edges}
    laid = lay(turn.up, turn.back, (0.0, 0.0, 0.0))
    found = {}
    for axis, name in enumerate(("x", "y")):
        face = laid.face(axis, -1)
        if face in gone and face.opposite not in gone:
            state = "stock" if face.opposite in part.stock.as_bought else "finished"
            found[name] = ZeroAsked(face.value, f"{state} {face.opposite.value}", None, place)
    return found


def _bores(part: Part) -> list[Hole]:
    """Return single through bores with close limits, the largest first."""
    found = [
        f
        for f in part.features
        if isinstance(f, Hole)
        and f.through
        and len(f.spots) == 1
        and f.diameter.kind in ("fit", "limits")
        and f.diameter.nominal_mm >= PICK_UP_MM
    ]
    return sorted(found, key=lambda hole: -hole.diameter.nominal_mm)


def reasons(part: Part, setups: tuple[SetupAsked, ...]) -> tuple[str, ...]:
    """Return why the setups come in this order, one sentence a setup."""
    letters = {d.face: d.letter for d in part.datums if d.face}
    said = []
    for number, setup in enumerate(setups, 1):
        special = _level(setup) or _at_end(setup, number, setups)
        why = special or _reason(letters.get(setup.up), setup, number, setups)
        said.append(f"setup {number}: {setup.up.value} up: {why}")
    return tuple(said)


def _level(setup: SetupAsked) -> str:
    """Return the reason for a setup at an angle, '' for one that lies square."""
    if setup.tilt is None:
        return ""
    return f"{setup.tilt.feature or 'a slanted face'} lies level there and is milled as a face"


def _at_end(setup: SetupAsked, number: int, setups: tuple[SetupAsked, ...]) -> str:
    """Return the reason for a setup that is there for the one end that stands out past the jaws, '' for others."""
    ends = list(setup.hold.overhang_mm) if setup.hold else []
    if len(ends) != 1 or not setup.do or setup.do[0].startswith("face "):
        return ""
    again = [i for i, s in enumerate(setups, 1) if i < number and s.up is setup.up]
    order = f", after setup {again[-1]}" if again else " first"
    return f"the {ends[0].value} end{order}: it is cut where it stands out past the jaws, one end at a time"


def _reason(letter: str | None, setup: SetupAsked, number: int, setups: tuple[SetupAsked, ...]) -> str:
    later = [i for i, s in enumerate(setups, 1) if i > number and s.up is setup.up.opposite]
    against = [i for i, s in enumerate(setups, 1) if i > number and s.back is setup.up]
    earlier = [i for i, s in enumerate(setups, 1) if i < number and s.up is setup.up.opposite]
    faces_only = bool(setup.do) and all(token.startswith("face ") for token in setup.do)
    if number == 1 and against:
        return f"the widest face first: at the fixed jaw from setup {against[0]} on, the others are squared from it"
    if letter and later:
        return f"it makes {letter}, on which the part stands in setup {later[0]}"
    found = next((z.found for z in setup.zero.values() if z.found.startswith("indicate")), "")
    if found:
        return f"zero comes from {found.split()[-1]}, made before, not from an edge"
    if faces_only and earlier:
        return f"the {setup.up.value} face, parallel to the one that setup {earlier[0]} made"
    if faces_only:
        return f"the {setup.up.value} face, square to the one at the fixed jaw"
    return "the work that only this side can reach"
