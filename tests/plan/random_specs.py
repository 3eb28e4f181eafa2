"""Random sound specs as text, for the planner: a plate or block of cells, one feature a cell, features of its outline.

A seed gives always the same text. Sizes are such as a home shop makes: every feature has room, and every cutter that
it needs is in the shop file named, so that a plan is owed or a finding that says why not.
"""

from __future__ import annotations

from collections.abc import Callable

from tests.drawing.random_parts import Dice
from tests.plan.random_inch import inch_lines

SHOPS = (
    ("shop.yaml", "mm"),
    ("shop.yaml", "mm"),
    ("dial-shop.yaml", "mm"),
    ("inch-shop.yaml", "mm"),
    ("inch-shop.yaml", "inch"),
)
"""Of the corpus: a readout, metric dials that count backwards, inch dials and fewer cutters; and the part's unit."""
CELL = 26.0
"""mm: side of the square that each feature of the top has to itself."""
_BORDER = 4.0
Lines = list[str]


def random_spec(seed: int) -> str:
    """Return the text of a sound spec; shop, unit, size, features and setups depend on the seed."""
    dice = Dice(seed)
    dice.roll(7)
    shop, unit = SHOPS[dice.roll(len(SHOPS))]
    size, lines = inch_lines(dice) if unit == "inch" else _mm_lines(dice, shop)
    return "\n".join([*_head(size, shop, unit), *lines, *_setups(lines, unit, dice), ""])


def _mm_lines(dice: Dice, shop: str) -> tuple[tuple[float, float, float], Lines]:
    """Return the finished size of a part in mm, and the lines of its features.

    The highest parallel of the inch shop holds 6.35 mm of a part: it needs one of 16 or more to reach all sides.
    """
    nx, ny = 1 + dice.roll(2), 1 + dice.roll(2)
    height = (16.0 if shop == "inch-shop.yaml" else 12.0) + 2 * dice.roll(4)
    size = (nx * CELL + 2 * _BORDER, ny * CELL + 2 * _BORDER, height)
    top = height - 3.0 if dice.roll(3) == 0 else height
    lines: Lines = []
    for k in range(nx * ny):
        at = (_BORDER + CELL * (k % nx + 0.5), _BORDER + CELL * (k // nx + 0.5))
        if k == 0 and top < height:
            lines += _standing(at, height, top, dice)
        else:
            lines += CELLS[dice.roll(len(CELLS))](f"f{k}", _odd(dice, at), top, dice)
    return size, lines + _outline(size, top, dice)


def _head(size: tuple[float, float, float], shop: str, unit: str) -> Lines:
    """Return all but features and setups; the blank is 2 mm larger at each side and 1 at top and bottom, or so."""
    more = 4.0 if unit == "mm" else 0.16
    raw = (size[0] + more, size[1] + more, size[2] + more / 2)
    loose = "ISO 2768-1 m" if unit == "mm" else "{fractions: ±1/64, 2 places: ±0.010, 3 places: ±0.005, angles: ±1}"
    return [
        "format: 1",
        "part: Random plate",
        "number: RP-1",
        "revision: A",
        f"units: {unit}",
        "material: aluminium 6082",
        f"tolerances: {loose}",
        f"shop: {shop}",
        "title_block: {owner: Star tracker project, drawn_by: M, approved_by: M, date: 2026-11-02}",
        f"stock: {{form: plate, size: [{_row(raw, unit)}]}}",
        f"size: [{_row(size, unit)}]",
        "origin: left front bottom",
        "datums: {A: bottom, B: left, C: front}",
        "features:",
    ]


def _row(values: tuple[float, float, float], unit: str) -> str:
    return ", ".join(f"{v:g}" if unit == "mm" else f"{v:.3f}" for v in values)


def _odd(dice: Dice, at: tuple[float, float]) -> tuple[float, float]:
    """Move a place a little, in tenths, so that coordinates are rarely equal."""
    return round(at[0] + (dice.roll(21) - 10) / 10, 1), round(at[1] + (dice.roll(21) - 10) / 10, 1)


def _at(at: tuple[float, float]) -> str:
    return f"[{at[0]:g}, {at[1]:g}]"


def _standing(at: tuple[float, float], height: float, top: float, dice: Dice) -> Lines:
    """Return a level all over the top that leaves something: a round boss, a box, a circle."""
    way = (0, 0, 1, 2)[dice.roll(4)]
    leave = ["boss", f"{{box: {{x: [{at[0] - 8:g}, {at[0] + 8:g}], y: [{at[1] - 7:g}, {at[1] + 7:g}]}}}}"]
    leave.append(f"{{circle: {{at: {_at(at)}, diameter: 15}}}}")
    boss = [f"  boss: {{kind: round boss, at: {_at(at)}, diameter: 16 -0.05/-0.15, top: {height:g}}}"]
    level = f"  floor: {{kind: level, area: all, to: {top:g}, leave: [{leave[way]}]}}"
    return [level, *(boss if way == 0 else [])]


def _hole(id_: str, at: tuple[float, float], how: str) -> Lines:
    return [f"  {id_}: {{kind: hole, at: {_at(at)}, {how}}}"]


def _drilled(id_: str, at: tuple[float, float], top: float, dice: Dice) -> Lines:
    blind = dice.roll(2)
    depth = f"depth: {top - 5:g}" if blind else "through: true"
    return _hole(id_, at, f"drill: {3 + dice.roll(60) / 10:g}, {depth}")


def _tapped(id_: str, at: tuple[float, float], _top: float, dice: Dice) -> Lines:
    thread = ("M3", "M4", "M5", "M6")[dice.roll(4)]
    return _hole(id_, at, f"tap: {thread}, through: true" + (", chamfer: 0.5" if dice.roll(2) else ""))


def _fitted(id_: str, at: tuple[float, float], _top: float, dice: Dice) -> Lines:
    return _hole(id_, at, f"fit: {(6, 12)[dice.roll(2)]} H7, through: true")


def _countersunk(id_: str, at: tuple[float, float], _top: float, _dice: Dice) -> Lines:
    return _hole(id_, at, "clearance: M4 medium, through: true, countersink: {for: M4}")


def _counterbored(id_: str, at: tuple[float, float], _top: float, _dice: Dice) -> Lines:
    return _hole(id_, at, "clearance: M6 medium, through: true, counterbore: {diameter: 11, depth: 4}")


def _bored(id_: str, at: tuple[float, float], _top: float, _dice: Dice) -> Lines:
    return _hole(id_, at, "diameter: 20 +0.021/-0, through: true")


def _circle(id_: str, at: tuple[float, float], _top: float, dice: Dice) -> Lines:
    count, start = 3 + dice.roll(3), 5 * dice.roll(12)
    return [
        f"  {id_}: {{kind: hole, pattern: {{bolt-circle: 18, centre: {_at(at)}, count: {count}, start: {start}}}, "
        f"drill: 3.2, through: true, label: {chr(65 + int(id_[1:]))}}}"
    ]


def _grid(id_: str, at: tuple[float, float], _top: float, _dice: Dice) -> Lines:
    corner = (at[0] - 5.5, at[1] - 5)
    return [
        f"  {id_}: {{kind: hole, pattern: {{grid: {{from: {_at(corner)}, dx: 11, dy: 10, columns: 2, rows: 2}}}}, "
        f"drill: 4.2, through: true, label: {chr(65 + int(id_[1:]))}}}"
    ]


def _pocket(id_: str, at: tuple[float, float], _top: float, dice: Dice) -> Lines:
    x, y = at
    area = f"{{box: {{x: [{x - 9:g}, {x + 9:g}], y: [{y - 8:g}, {y + 8:g}]}}}}, corner-radius: 4"
    if dice.roll(2):
        area = f"{{circle: {{at: {_at(at)}, diameter: 18}}}}"
    return [f"  {id_}: {{kind: pocket, area: {area}, depth: {2 + dice.roll(3)}}}"]


def _slot(id_: str, at: tuple[float, float], _top: float, dice: Dice) -> Lines:
    x, y = at
    centres = ((x - 5, y), (x + 5, y)) if dice.roll(2) else ((x, y - 5), (x, y + 5))
    return [
        f"  {id_}: {{kind: slot, centres: [{_at(centres[0])}, {_at(centres[1])}], width: {(6, 8, 7)[dice.roll(3)]}, "
        f"depth: {2 + dice.roll(3)}}}"
    ]


def _groove(id_: str, at: tuple[float, float], _top: float, _dice: Dice) -> Lines:
    return [f"  {id_}: {{kind: ring groove, at: {_at(at)}, inner: 14, outer: 20, depth: 2}}"]


CELLS: tuple[Callable[[str, tuple[float, float], float, Dice], Lines], ...] = (
    _drilled,
    _tapped,
    _fitted,
    _countersunk,
    _counterbored,
    _bored,
    _circle,
    _grid,
    _pocket,
    _slot,
    _groove,
)


def _outline(size: tuple[float, float, float], top: float, dice: Dice) -> Lines:
    """Return features of edges and other faces, each in about a quarter of the parts."""
    x, y, z = size
    found = []
    if dice.roll(4) == 0:
        found.append(
            f"  slant: {{kind: edge cut, line: [[{x - 6:g}, {y:g}], [{x:g}, {y - 5:g}]], remove: back right, "
            "tolerance: ±0.3}"
        )
    elif dice.roll(4) == 0:
        found.append("  round: {kind: corner radius, radius: 5, corner: back right, tolerance: ±0.3}")
    if dice.roll(4) == 0:
        found.append(
            f"  relief: {{kind: level, from: bottom, area: {{box: {{x: [{x / 2 - 3:g}, {x / 2 + 3:g}], "
            f"y: [0, {y:g}]}}}}, to: 1}}"
        )
    if dice.roll(4) == 0:
        found.append(f"  side: {{kind: hole, from: front, at: {{x: {x / 2:g}, z: {top / 2:g}}}, drill: 3, depth: 2.5}}")
    if top == z and dice.roll(3) == 0:
        found.append("  bevel: {kind: edge chamfer, sides: [front, left], size: 1}")
    return found


def _setups(features: Lines, unit: str, dice: Dice) -> Lines:
    """Return written setups for half of the parts that are made from the top alone; else the program proposes them.

    Outline, slant and round are asked for in both: the jaws hide a part of them each time.
    """
    ids = [line.split(":")[0].strip() for line in features]
    if dice.roll(2) or {"relief", "side"} & set(ids):
        return []
    both = ["outline", *(id_ for id_ in ids if id_ in ("slant", "round"))]
    once = [id_ for id_ in ids if id_ not in both]
    grip = "4" if unit == "mm" else "1/4"
    below = [f"hold: {{in: vise, grip: {grip}, on: parallels under raw top}}"]
    below.append("zero: {x: {at: B, found: stock left}, y: {at: C, found: stock front}, z: {at: A, found: faced}}")
    above = ["turn: left-over-right", f"hold: {{in: vise, grip: {grip}, on: parallels under A}}"]
    above.append(
        "zero: {x: {at: B, found: finished left}, y: {at: C, found: finished front}, "
        "z: {at: A, found: measure over bottom and top}}"
    )
    return [
        "setups:",
        *_setup("underside", "bottom", [*below, f"do: [{', '.join(['face A', *both])}]"]),
        *_setup("topside", "top", [*above, f"do: [{', '.join(['face top', *both, *once])}]"]),
    ]


def _setup(name: str, up: str, rest: Lines) -> Lines:
    return [f"  - name: {name}", *(f"    {line}" for line in (f"up: {up}", "fixed-jaw: back", *rest))]


def shop_of(seed: int) -> str:
    """Return the shop file that a spec names, and the unit of the part."""
    words = dict(
        line.split(": ", 1) for line in random_spec(seed).splitlines() if line.startswith(("shop: ", "units: "))
    )
    return f"{words['shop']} {words['units']}"
