"""Rules on setups: faces, turn-over, order of work, zeros."""

from __future__ import annotations

from setupsheet.part.face import FACE_OF, Face
from setupsheet.part.feature import Hole
from setupsheet.part.part import SetupAsked, ZeroAsked
from setupsheet.spec.build_setup import TURNS
from setupsheet.spec.case import Case, place_in
from setupsheet.spec.shape import nearest
from setupsheet.spec.tree import Sequence, child

FOUND_XY = ("stock", "finished", "indicate", "centre of", "measure over")
FOUND_Z = ("raw", "faced", "height of", "measure over", "stock", "finished")
"""How a zero can be found: first words of ``found:``."""

CORNERS = ("high corner", "left corner", "right corner")
"""Corners of a part set to an angle, which can be zero themselves."""

TILTED = {"x": ("pin in", "left corner", "right corner"), "z": ("pin in", "high corner")}
"""How the two zeros are found that lie across the edges of a part set to an angle."""

WHOLE = ("outline", "all holes", "all")
"""Words of ``do:`` that stand for several features."""


def faces_of_one_axis(case: Case) -> None:
    """Test that the face on top and the face at the fixed jaw are square to each other."""
    for setup, text in case.setups():
        if setup.up.axis == setup.back.axis:
            key = "fixed-jaw" if setup.in_vise else "back"
            sides = ", ".join(face for face in Face if face.axis != setup.up.axis)
            case.wrong(
                setup.name,
                "faces-of-one-axis",
                f"{setup.up} is up, so {setup.back} cannot be at the side",
                place_in(setup, text, key),
                found=f"up: {setup.up}, {key}: {setup.back}",
                allowed=f"{key}: {sides}",
            )


def name_twice(case: Case) -> None:
    """Test that each setup has its own name."""
    seen: dict[str, SetupAsked] = {}
    for setup, text in case.setups():
        first = seen.setdefault(setup.name, setup)
        if first is not setup:
            case.wrong(
                setup.name,
                "setup-name-twice",
                f"two setups are called {setup.name}",
                place_in(setup, text, "name"),
                found=setup.name,
                allowed=f"another name than in line {first.place.line}",
            )


Axes = tuple[Face, Face, Face]
"""The part faces that look along the machine's X, Y and Z."""


def machine_axes(setup: SetupAsked) -> Axes:
    """Return the part faces that look right, away and up; the fixed jaw taken as the back one."""
    y, z = setup.back, setup.up
    third = 3 - y.axis - z.axis
    handed = 1 if (y.axis, z.axis) in ((1, 2), (2, 0), (0, 1)) else -1
    return FACE_OF[(third, handed * y.sign * z.sign)], y, z


def turn_word(before: SetupAsked, after: SetupAsked) -> str:
    """Return the word for how a part is turned between two setups, '' where no word of ``turn:`` fits."""
    old, new = machine_axes(before), machine_axes(after)
    same = tuple(a is b for a, b in zip(old, new, strict=True))
    flipped = tuple(a is b.opposite for a, b in zip(old, new, strict=True))
    if same == (True, True, True):
        return "not turned"
    if same[1] and flipped[0] and flipped[2]:
        return "left-over-right"
    if same[0] and flipped[1] and flipped[2]:
        return "front-over-back"
    if same[2]:
        return "half-turn" if flipped[0] else "quarter-turn"
    return ""


_SAME_TURN = {"right-over-left": "left-over-right", "back-over-front": "front-over-back"}


def turn_contradicts(case: Case) -> None:
    """Test that ``turn:`` is a cross-check of what the two faces say."""
    before: SetupAsked | None = None
    for setup, text in case.every_setup():
        asked = _SAME_TURN.get(setup.turn, setup.turn)
        sound = all(
            one.place in case.built.whole_setups and one.up.axis != one.back.axis for one in (before or setup, setup)
        )
        if setup.turn in TURNS and sound:
            derived = turn_word(before, setup) if before else "the first setup"
            if derived != asked:
                said = derived or "a quarter over an edge, for which there is no word"
                case.wrong(
                    setup.name,
                    "turn-contradicts",
                    f"{setup.turn}, but up: {setup.up} and {setup.back} at the back mean: {said}",
                    place_in(setup, text, "turn"),
                    found=setup.turn,
                    allowed=said,
                    try_=f"turn: {derived}" if derived in TURNS else "leave turn: out",
                )
        before = setup


def unknown_work(case: Case) -> None:
    """Test that ``do:`` names faces, the outline, all holes, or features."""
    ids = case.ids()
    letters = {datum.letter: datum for datum in case.part.datums}
    for setup, text in case.setups():
        items = child(text, "do")
        nodes = items.items if isinstance(items, Sequence) else (items,)
        for word, node in zip(setup.do, nodes, strict=False):
            fault = _work_fault(word, ids, (*Face, *letters))
            if fault is None:
                continue
            near = nearest(fault, (*ids, *WHOLE, *(f"face {face}" for face in Face)))
            case.wrong(
                setup.name,
                "unknown-work",
                f"do: {fault} is no feature and no work",
                node.place if node else setup.place,
                found=word,
                allowed="face A, face top, outline, outline except ..., all holes, " + ", ".join(ids),
                try_=f"did you mean {near}?" if near else "write a feature's id",
            )


def _work_fault(word: str, ids: tuple[str, ...], faces: tuple[str, ...]) -> str | None:
    """Return the part of a ``do:`` entry that means nothing, None if all of it does."""
    if word in ids or word in WHOLE:
        return None
    for whole in (*WHOLE, "face"):
        rest = word.removeprefix(f"{whole} ")
        if rest == word:
            continue
        if whole == "face":
            return None if rest in faces else word
        names = rest.removeprefix("except ").replace(" and ", ",").split(",")
        known = (*ids, *Face) if whole == "outline" else ids
        unknown = [name.strip() for name in names if name.strip() not in known]
        return (unknown[0] if unknown else None) if rest.startswith("except ") else word
    return word


def unknown_zero(case: Case) -> None:
    """Test that a zero lies at a point, a feature, a face or a datum."""
    known = (*case.part.points, *case.ids(), *Face, *(datum.letter for datum in case.part.datums))
    for setup, text in case.setups():
        for axis, zero in setup.zero.items():
            corners = CORNERS if setup.tilt is not None else ()
            if zero.at and zero.at not in (*known, *corners):
                near = nearest(zero.at, known)
                case.wrong(
                    setup.name,
                    "unknown-zero",
                    f"{axis}: {zero.at} is no point, feature, face or datum",
                    place_in(setup, text, "zero", axis, "at"),
                    found=zero.at,
                    allowed=", ".join(known),
                    try_=f"did you mean {near}?" if near else "add it under points:",
                )


def found_not_clear(case: Case) -> None:
    """Test that ``found:`` says what is touched or indicated, and that has to lie along the axis."""
    for setup, text in case.setups():
        if setup.up.axis == setup.back.axis:
            continue
        for axis, zero in setup.zero.items():
            fault = _found_fault(case, setup, axis, zero)
            if zero.found and fault:
                ways = _ways(setup, axis)
                case.wrong(
                    setup.name,
                    "found-not-clear",
                    f"{axis}: {zero.found}: {fault}",
                    place_in(setup, text, "zero", axis, "found"),
                    found=zero.found,
                    allowed=", ".join(f"{way} ..." if way not in ("raw", "faced") else way for way in ways),
                )


def _ways(setup: SetupAsked, axis: str) -> tuple[str, ...]:
    """Return how the zero of an axis can be found in a setup."""
    if setup.tilt is not None and axis in TILTED:
        return TILTED[axis]
    return FOUND_Z if axis == "z" else FOUND_XY


def _found_fault(case: Case, setup: SetupAsked, axis: str, zero: ZeroAsked) -> str:
    """Return what is wrong with how a zero is found, '' if nothing is."""
    ways = _ways(setup, axis)
    way = next((way for way in ways if zero.found == way or zero.found.startswith(way + " ")), None)
    if way is None:
        return "how is it found?"
    rest = zero.found.removeprefix(way).strip()
    if way in ("indicate", "centre of", "pin in"):
        return "" if rest in case.ids() else f"{rest or 'nothing'} is no feature to indicate or to put a pin in"
    if way in ("stock", "finished"):
        if rest not in tuple(Face):
            return f"{rest or 'nothing'} is no face"
        along = machine_axes(setup)["xyz".index(axis)]
        if Face(rest).axis != along.axis:
            return f"the {rest} face does not lie along the machine's {axis.upper()} here"
    if way == "height of" and rest not in [datum.letter for datum in case.part.datums]:
        return f"{rest or 'nothing'} is no datum"
    return ""


def expect_differs(case: Case) -> None:
    """Test that ``expect:`` is the author's own cross-check of how far the touched face lies from zero."""
    for setup, text in case.setups():
        for axis, zero in setup.zero.items():
            way, _, rest = zero.found.partition(" ")
            if zero.expect_mm is None or rest not in tuple(Face) or way not in ("stock", "finished"):
                continue
            if setup.up.axis == setup.back.axis or _found_fault(case, setup, axis, zero):
                continue
            face = Face(rest)
            at = _coordinate(case, zero.at, face)
            if at is None:
                continue
            box = case.part.stock.box if way == "stock" else case.box
            real = abs(box.at(face) - at)
            if abs(real - zero.expect_mm) > 5e-4:
                case.wrong(
                    setup.name,
                    "expect-differs",
                    f"{axis}: {case.shown(real)} from {zero.at} to {zero.found}, not {case.shown(zero.expect_mm)}",
                    place_in(setup, text, "zero", axis, "expect"),
                    found=case.shown(zero.expect_mm),
                    allowed=case.shown(real),
                    try_="one of the two was changed alone",
                )


def _coordinate(case: Case, name: str, face: Face) -> float | None:
    """Return the part coordinate of a named place along a face's axis, None where it has none."""
    if name in case.part.points and face.axis < 2:
        return case.part.points[name][face.axis]
    datum = next((datum for datum in case.part.datums if datum.letter == name), None)
    named = Face(name) if name in tuple(Face) else datum.face if datum else None
    if named is not None and named.axis == face.axis:
        return case.box.at(named)
    hole_id = datum.feature if datum else name
    hole = next((hole for hole in case.each(Hole) if hole.id == hole_id and len(hole.spots) == 1), None)
    if hole and face.axis in hole.face.in_plane:
        return hole.spots[0].at[hole.face.in_plane.index(face.axis)]
    return None


def witness(case: Case) -> None:
    """Test that ``check-first:`` names a hole right through the part along the spindle."""
    for setup, text in case.setups():
        if not setup.check_first:
            continue
        hole = next((hole for hole in case.each(Hole) if hole.id == setup.check_first), None)
        if hole and hole.through and hole.face.axis == setup.up.axis:
            continue
        if hole is None and setup.check_first in case.ids() and setup.check_first not in case.built.whole:
            continue
        known = [hole.id for hole in case.each(Hole) if hole.through and hole.face.axis == setup.up.axis]
        case.wrong(
            setup.name,
            "witness-not-seen",
            f"{setup.check_first} cannot be seen from above",
            place_in(setup, text, "check-first"),
            found=setup.check_first,
            allowed=", ".join(known) or "a hole right through the part",
            try_=f"check-first: {known[0]}" if known else "leave check-first: out",
        )


def overhang_side(case: Case) -> None:
    """Test that only a side that lies along the jaws can stand out past them."""
    for setup, text in case.setups():
        if setup.hold is None or setup.up.axis == setup.back.axis:
            continue
        right = machine_axes(setup)[0]
        for side in setup.hold.overhang_mm:
            if side.axis != right.axis:
                case.wrong(
                    setup.name,
                    "overhang-side",
                    f"the {side} side does not lie at an end of the jaws",
                    place_in(setup, text, "hold", "overhang", side.value),
                    found=side.value,
                    allowed=f"{right}, {right.opposite}",
                )
