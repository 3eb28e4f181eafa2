"""Features of random parts that count in inches, written as such a drawing writes them: cells an inch wide."""

from __future__ import annotations

from collections.abc import Callable

from tests.drawing.random_parts import Dice

Lines = list[str]
CELL = 1.0
_BORDER = 0.15


def inch_lines(dice: Dice) -> tuple[tuple[float, float, float], Lines]:
    """Return the finished size of a part in inches, and the lines of its features."""
    nx, ny = 1 + dice.roll(2), 1 + dice.roll(2)
    height = (0.625, 0.75, 0.875, 1.0)[dice.roll(4)]
    top = height - 0.125 if dice.roll(3) == 0 else height
    lines: Lines = []
    for k in range(nx * ny):
        x, y = (_BORDER + CELL * (i + 0.5) + (dice.roll(9) - 4) / 100 for i in (k % nx, k // nx))
        if k == 0 and top < height:
            lines += _standing((x, y), top, dice)
        else:
            lines += CELLS[dice.roll(len(CELLS))](f"f{k}", (x, y), top, dice)
    size = (nx * CELL + 2 * _BORDER, ny * CELL + 2 * _BORDER, height)
    return size, lines + _outline(size, top, dice)


def _at(x: float, y: float) -> str:
    return f"[{x:.3f}, {y:.3f}]"


def _box(at: tuple[float, float], x: float, y: float) -> str:
    return f"{{box: {{x: [{at[0] - x:.3f}, {at[0] + x:.3f}], y: [{at[1] - y:.3f}, {at[1] + y:.3f}]}}}}"


def _standing(at: tuple[float, float], top: float, dice: Dice) -> Lines:
    """Return a level all over the top that leaves a box or a circle."""
    leave = _box(at, 0.3, 0.25) if dice.roll(2) else f"{{circle: {{at: {_at(*at)}, diameter: 0.625}}}}"
    return [f"  floor: {{kind: level, area: all, to: {top:.3f}, leave: [{leave}]}}"]


def _hole(id_: str, at: tuple[float, float], how: str) -> Lines:
    return [f"  {id_}: {{kind: hole, at: {_at(*at)}, {how}}}"]


def _drilled(id_: str, at: tuple[float, float], top: float, dice: Dice) -> Lines:
    size = ("1/8", "3/16", "1/4", "F", "no. 10", "3/8")[dice.roll(6)]
    return _hole(id_, at, f"drill: {size}, " + (f"depth: {top - 0.25:.3f}" if dice.roll(2) else "through: true"))


def _tapped(id_: str, at: tuple[float, float], _top: float, dice: Dice) -> Lines:
    thread, to = (("10-32 UNF", "0.210"), ("1/4-20 UNC", "0.270"))[dice.roll(2)]
    return _hole(id_, at, f"tap: {thread}, through: true" + (f", chamfer: to {to}" if dice.roll(2) else ""))


def _fitted(id_: str, at: tuple[float, float], _top: float, _dice: Dice) -> Lines:
    return _hole(id_, at, "fit: .3750 RC4, through: true")


def _counterbored(id_: str, at: tuple[float, float], _top: float, _dice: Dice) -> Lines:
    return _hole(id_, at, "clearance: 1/4 close, through: true, counterbore: {for: 1/4}")


def _circle(id_: str, at: tuple[float, float], _top: float, dice: Dice) -> Lines:
    return [
        f"  {id_}: {{kind: hole, pattern: {{bolt-circle: 0.700, centre: {_at(*at)}, count: {3 + dice.roll(3)}, "
        f"start: {15 * dice.roll(6)}}}, drill: no. 30, through: true, label: {chr(65 + int(id_[1:]))}}}"
    ]


def _pocket(id_: str, at: tuple[float, float], _top: float, dice: Dice) -> Lines:
    area = f"{{circle: {{at: {_at(*at)}, diameter: 0.750}}}}" if dice.roll(2) else _box(at, 0.35, 0.3)
    corner = "" if "circle" in area else ", corner-radius: 0.188"
    return [f"  {id_}: {{kind: pocket, area: {area}{corner}, depth: {(0.125, 0.187)[dice.roll(2)]:g}}}"]


def _slot(id_: str, at: tuple[float, float], _top: float, dice: Dice) -> Lines:
    ends = ((at[0] - 0.2, at[1]), (at[0] + 0.2, at[1]))
    width = ("1/4", "5/16", "3/8", "0.300")[dice.roll(4)]
    return [f"  {id_}: {{kind: slot, centres: [{_at(*ends[0])}, {_at(*ends[1])}], width: {width}, depth: 0.125}}"]


CELLS: tuple[Callable[[str, tuple[float, float], float, Dice], Lines], ...] = (
    _drilled,
    _tapped,
    _fitted,
    _counterbored,
    _circle,
    _pocket,
    _slot,
)


def _outline(size: tuple[float, float, float], top: float, dice: Dice) -> Lines:
    """Return features of the edges and of the underside, each in about a quarter of the parts."""
    x, y, z = size
    found = []
    if dice.roll(4) == 0:
        line = f"[{_at(x - 0.25, y)}, {_at(x, y - 0.2)}]"
        found.append(f"  slant: {{kind: edge cut, line: {line}, remove: back right, tolerance: ±0.015}}")
    elif dice.roll(4) == 0:
        found.append("  round: {kind: corner radius, radius: 0.188, corner: back right, tolerance: ±0.015}")
    if dice.roll(4) == 0:
        area = f"{{box: {{x: [{x / 2 - 0.125:.3f}, {x / 2 + 0.125:.3f}], y: [0, {y:.3f}]}}}}"
        found.append(f"  relief: {{kind: level, from: bottom, area: {area}, to: 0.040}}")
    if top == z and dice.roll(3) == 0:
        found.append("  bevel: {kind: edge chamfer, sides: [front, left], size: 1/32}")
    return found
