"""Setups as the author asks for them: how the part lies, is held, zeroed, and what is done."""

from __future__ import annotations

import re

from setupsheet.finding import Place
from setupsheet.part.face import Face
from setupsheet.part.part import HoldAsked, Rest, SetupAsked, ZeroAsked
from setupsheet.spec.build_angle import tilt_asked
from setupsheet.spec.desk import Desk
from setupsheet.spec.tree import Mapping, Node, Sequence

TURNS = ("left-over-right", "right-over-left", "front-over-back", "back-over-front", "quarter-turn", "half-turn")
"""Words of the cross-check ``turn:``."""


def read_setups(desk: Desk, node: Node | None) -> tuple[tuple[SetupAsked, ...], frozenset[Place]]:
    """Return the setups in the order written, and the places of those that were read without a fault."""
    items = node.items if isinstance(node, Sequence) else ()
    setups: list[SetupAsked] = []
    whole: set[Place] = set()
    for index, item in enumerate(items, 1):
        if isinstance(item, Mapping):
            desk.broken = False
            setups.append(_setup(desk, item, index))
            if not desk.broken:
                whole.add(item.place)
    desk.broken = False
    return tuple(setups), frozenset(whole)


def _setup(desk: Desk, node: Mapping, index: int) -> SetupAsked:
    name = desk.text(node.get("name"), f"setup {index}")
    desk.feature = name
    up = _face(desk, node.get("up"), Face.TOP)
    sides = [key for key in ("fixed-jaw", "back") if key in node.entries]
    if len(sides) != 1:
        desk.wrong(
            "setup-not-fixed",
            "which part face is at the fixed jaw, or away from you on the table?",
            node.key_place(sides[-1]) if sides else node.place,
            found=" and ".join(sides) or "neither fixed-jaw: nor back:",
            allowed="fixed-jaw: back, or on the table back: back",
        )
    back = _face(desk, node.get(sides[0]) if sides else None, next(f for f in Face if f.axis != up.axis))
    zero = {
        axis: _zero(desk, entry.value)
        for axis, entry in desk.mapping(node.get("zero")).entries.items()
        if axis in ("x", "y", "z")
    }
    setup = SetupAsked(
        name,
        up,
        back,
        "back" not in node.entries,
        desk.text(node.get("turn")),
        _hold(desk, node.get("hold")) if "hold" in node.entries else None,
        zero,
        desk.text(node.get("check-first")),
        tuple(desk.text(item) for item in desk.items(node.get("do"))),
        node.place,
        desk.text(node.get("machine")),
        tilt_asked(desk, node.get("tilt")),
    )
    desk.feature = ""
    return setup


def _face(desk: Desk, node: Node | None, stand_in: Face) -> Face:
    word = desk.text(node)
    if word in tuple(Face):
        return Face(word)
    desk.broken = True
    return stand_in


def _zero(desk: Desk, node: Node) -> ZeroAsked:
    own = desk.mapping(node)
    expect = desk.mm(own.get("expect")) if "expect" in own.entries else None
    return ZeroAsked(desk.text(own.get("at")), desk.text(own.get("found")), expect, own.place)


_REST = re.compile(
    r"^(?P<on>parallels|table|packing|jaws)(?:\s+(?P<height>[\d.\-/]+(?:\s*(?:mm|in))?))?(?:\s+under\s+(?P<under>.+))?$"
)


def _hold(desk: Desk, node: Node | None) -> HoldAsked:
    own = desk.mapping(node)
    overhang = (
        {
            Face(side): desk.mm(entry.value)
            for side, entry in desk.mapping(own.get("overhang")).entries.items()
            if side in tuple(Face)
        }
        if "overhang" in own.entries
        else {}
    )
    grip = desk.mm(own.get("grip")) if "grip" in own.entries else None
    rest = _rest(desk, own.get("on")) if "on" in own.entries else None
    return HoldAsked(desk.text(own.get("in"), "vise"), grip, rest, overhang, own.place, desk.text(own.get("centred")))


def _rest(desk: Desk, node: Node | None) -> Rest | None:
    scalar = desk.scalar(node)
    match = _REST.match(scalar.text.strip()) if scalar else None
    if scalar and not match:
        desk.wrong(
            "rest-not-clear",
            f"{scalar.text}: what does the part rest on?",
            scalar.place,
            found=scalar.text,
            allowed="parallels under A, parallels 25 under raw top, table, packing under B",
        )
    if not scalar or not match:
        return None
    height = desk.length_of(match["height"], scalar).mm if match["height"] else None
    return Rest(match["on"], match["under"] or "", height)
