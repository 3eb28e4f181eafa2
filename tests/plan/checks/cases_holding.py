"""Trials of the checks on holding: grip, jaws, rest, clamps, room."""

from __future__ import annotations

from dataclasses import replace

from tests.plan.checks.trial import Case, Setup, Spec

PLATE = Spec()
TWO_HOLES = "h: {kind: hole, at: [20, 20], drill: 5, through: true}\nz: {kind: hole, at: [33, 20], drill: 3, depth: 4}"
TWO_SIDES = (Setup("a", up="bottom"), Setup("h"))
FRONT_FIRST = Spec(
    form="sawn block",
    remove=(("front", 2), ("bottom", 2)),
    setups=(
        Setup("face front", up="front", back="bottom", grip=12),
        Setup("face bottom", up="bottom", back="front"),
    ),
)
PARALLELS = "  - {height: 26, thickness: 6, length: 100}"
HIGHER = (
    (
        PARALLELS,
        f"{PARALLELS}\n  - {{height: 27, thickness: 6, length: 100}}\n  - {{height: 28, thickness: 6, length: 100}}",
    ),
)
HOLE = "h: {kind: hole, at: [20, 30], drill: 5, through: true}"
LEVEL_BELOW = f"a: {{kind: level, from: bottom, area: {{box: {{x: [0, 60], y: [%s]}}}}, to: 3}}\n{HOLE}"
SLANT = f"a: {{kind: edge cut, line: [[%s, 0], [60, 20]], remove: front right, tolerance: ±0.3}}\n{HOLE}"
POCKET = "p: {kind: pocket, area: {box: {x: [10, 50], y: [%s, 30]}}, corner-radius: 4, to: 1.5}"
FRONT_THREAD = (
    "t: {kind: hole, from: front, at: {x: 30, z: %s}, tap: M5, depth: 10, drill-depth: 14}\n"
    "h: {kind: hole, at: [10, 20], drill: 5, through: true}"
)


def _slot(centres: str, **more: str) -> Spec:
    rest = "".join(f", {key}: {value}" for key, value in more.items()) or ", through: true"
    return Spec(f"s: {{kind: slot, centres: {centres}, width: 6{rest}}}", (Setup("s"),))


_FOUR_ACROSS = Spec(
    "".join(
        f"s{x}: {{kind: slot, centres: [[{x}, 7], [{x}, 33]], width: 6, through: true}}\n" for x in (6, 17, 43, 54)
    ),
    (Setup("s6, s17, s43, s54"),),
)
"""Through slots from jaw to jaw: neither parallels nor packing at the ends find room between them."""


def _jaws_on(z: str) -> Spec:
    setups = (Setup("t", up="front", back="bottom", grip=12), Setup("h"))
    return Spec(FRONT_THREAD % z, setups, size=(60, 40, 20))


CASES = {
    "travel-too-short": Case(
        Spec(
            "h: {kind: hole, pattern: {line: {from: [5, 20], dx: 50, count: 2}}, drill: 5, through: true}",
            shop=(("[400, 145, 330]", "[59, 145, 330]"),),
        ),
        Spec(
            "h: {kind: hole, pattern: {line: {from: [5, 20], dx: 50, count: 2}}, drill: 5, through: true}",
            shop=(("[400, 145, 330]", "[60, 145, 330]"),),
        ),
    ),
    "height-too-small": Case(
        replace(PLATE, shop=(("[400, 145, 330]", "[400, 145, 245]"),)),
        replace(PLATE, shop=(("[400, 145, 330]", "[400, 145, 255]"),)),
    ),
    "quill-too-short": Case(
        replace(PLATE, shop=(("quill: 70", "quill: 15.5"),)), replace(PLATE, shop=(("quill: 70", "quill: 16.5"),))
    ),
    "zero-lost-with-head": Case(
        replace(PLATE, shop=(("head: keeps place", "head: loses place"), ("quill: 70", "quill: 6"))),
        replace(PLATE, shop=(("head: keeps place", "head: loses place"), ("quill: 70", "quill: 8"))),
    ),
    "grip-too-low": Case(
        replace(PLATE, setups=(Setup("h", grip=2),), shop=HIGHER),
        replace(PLATE, setups=(Setup("h", grip=3),), shop=HIGHER),
    ),
    "stands-too-proud": Case(replace(PLATE, size=(60, 40, 13)), PLATE),
    "little-under-the-jaws": Case(
        Spec(SLANT % 10, (Setup("a", grip=4), Setup("h", up="bottom"))),
        Spec(SLANT % 40, (Setup("a", grip=4), Setup("h", up="bottom"))),
    ),
    "nothing-under-the-part": Case(Spec(LEVEL_BELOW % "0, 10", TWO_SIDES), Spec(LEVEL_BELOW % "14, 26", TWO_SIDES)),
    "rests-on-another-face": Case(
        replace(PLATE, setups=(Setup("h", on="parallels under B"),)),
        replace(PLATE, setups=(Setup("h", on="parallels under A"),)),
    ),
    "first-face-not-widest": Case(
        FRONT_FIRST,
        replace(FRONT_FIRST, setups=(Setup("face bottom", up="bottom", back="front"), FRONT_FIRST.setups[0])),
    ),
    "hangs-out-too-far": Case(
        replace(PLATE, setups=(Setup("h", more=", overhang: {left: 34}"),)),
        replace(PLATE, setups=(Setup("h", more=", overhang: {left: 28}"),)),
    ),
    "thin-part-bows": Case(
        Spec(size=(60, 40, 4.5), setups=(Setup("h", grip=3),), shop=HIGHER),
        Spec(size=(60, 40, 5.5), setups=(Setup("h", grip=3),), shop=HIGHER),
    ),
    "hole-under-jaw": Case(_jaws_on("4"), _jaws_on("12")),
    "jaws-squeeze-a-wall": Case(Spec(POCKET % 1.5, (Setup("p"),)), Spec(POCKET % 2.5, (Setup("p"),))),
    "jaw-in-cutters-way": Case(_slot("[[30, -10], [30, 15]]"), _slot("[[-10, 20], [20, 20]]")),
    "parallel-in-cutters-way": Case(_FOUR_ACROSS, _slot("[[20, 7], [40, 7]]")),
    "drill-into-jaw": Case(
        Spec("h: {kind: hole, at: [20, 2], drill: 5, through: true}"),
        Spec("h: {kind: hole, at: [20, 2.6], drill: 5, through: true}"),
    ),
    "drill-into-parallel": Case(
        Spec(
            "h: {kind: hole, drill: 5, through: true, "
            "pattern: {grid: {from: [5, 5], dx: 10, dy: 9, columns: 6, rows: 4}}}"
        ),
        Spec("h: {kind: hole, pattern: {line: {from: [20, 5], dy: 14, count: 3}}, drill: 5, through: true}"),
    ),
    "clamps-have-no-place": Case(
        Spec(remove=(("top", 1),), setups=(Setup("face top", hold="table"),)),
        Spec(setups=(Setup("h", hold="table"),)),
    ),
    "parallels-do-not-fit": Case(
        Spec("h: {kind: hole, at: [20, 5], drill: 2, depth: 4}", size=(60, 10, 12)),
        Spec("h: {kind: hole, at: [20, 7], drill: 2, depth: 4}", size=(60, 14, 12)),
    ),
    "other-face-at-fixed-jaw": Case(
        Spec(TWO_HOLES, (Setup("h", up="bottom"), Setup("z", back="front"))),
        Spec(TWO_HOLES, (Setup("h", up="bottom"), Setup("z", back="back"))),
    ),
    "raw-face-at-fixed-jaw": Case(
        Spec(
            remove=(("front", 2), ("back", 2)), setups=(Setup("face C", up="front", back="bottom", grip=12), Setup("h"))
        ),
        Spec(
            remove=(("front", 2), ("back", 2)),
            setups=(
                Setup("face C", up="front", back="bottom", grip=12),
                Setup("h", back="front", zero=(("x", "{at: right, found: stock right}"),)),
            ),
        ),
    ),
}
