"""Frames: how a part lies in a setup, as plain arithmetic (mm, degrees).

A setup frame has X to the right, Y away from the reader, Z up, and its origin at the setup's zero.
Two part faces fix it: the one that is up and the one that points away from the reader (``back``).
The sums and the turn-over sentence that a person reads are derived from the same two facts.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import product

from setupsheet.length import Unit, default_places, plain
from setupsheet.part.face import Face
from setupsheet.plane import Point3

Row4 = tuple[float, float, float, float]
Matrix = tuple[Row4, ...]
"""4 x 4, row-major; maps part coordinates to setup coordinates."""
Orientation = tuple[Face, Face]
"""(up, back): the part face on top and the part face away from the reader."""
Turning = tuple[str, int]
"""A quarter or half turn: machine axis ('x', 'y', 'z') and degrees, right-handed about it."""

_DRAWING = ("drawing x", "drawing y", "height above A")
_NAMES = {
    Face.TOP: "top face",
    Face.BOTTOM: "underside",
    Face.LEFT: "left end",
    Face.RIGHT: "right end",
    Face.FRONT: "front edge",
    Face.BACK: "back edge",
}
_ACTIONS: dict[Turning, str] = {
    ("y", 180): "turn the part like a page of a book, left over right",
    ("x", 180): "turn the part over, front over back",
    ("z", 180): "turn the part half round as it lies",
    ("z", 90): "turn the part a quarter turn as it lies, counter-clockwise seen from above",
    ("z", -90): "turn the part a quarter turn as it lies, clockwise seen from above",
    ("x", 90): "tip the part a quarter turn towards you",
    ("x", -90): "tip the part a quarter turn away from you",
    ("y", 90): "tip the part a quarter turn to the right",
    ("y", -90): "tip the part a quarter turn to the left",
}
_AXES = {"x": 0, "y": 1, "z": 2}


@dataclass(frozen=True, slots=True)
class Turn:
    """What is done with the part before a setup.

    ``moves`` are the turns about machine axes in their order (none in the first setup, two where one
    does not do it). ``axis`` and ``angle_deg`` tell the only move; of two moves ``axis`` reads
    'x then z' and ``angle_deg`` belongs to the first.
    """

    axis: str
    angle_deg: float
    sentence: str
    moves: tuple[Turning, ...]


def normal(face: Face) -> Point3:
    """Return the outward unit normal of a part face."""
    vector = [0.0, 0.0, 0.0]
    vector[face.axis] = float(face.sign)
    return (vector[0], vector[1], vector[2])


def part_to_setup(up: Face, back: Face, zero: Point3) -> Matrix:
    """Return the motion that puts ``zero`` (part frame, mm) at the origin with these faces up and away.

    Raises ValueError where the two faces are not square to each other.
    """
    if up.axis == back.axis:
        raise ValueError(f"{back} cannot point away from the reader while {up} is up")
    z, y = normal(up), normal(back)
    rows = (_cross(y, z), y, z)
    return (*tuple((row[0], row[1], row[2], -_dot(row, zero) + 0.0) for row in rows), (0.0, 0.0, 0.0, 1.0))


def apply(matrix: Matrix, point: Point3) -> Point3:
    """Return the point moved by the matrix."""
    x, y, z = (_dot(row, point) + row[3] for row in matrix[:3])
    return (x, y, z)


def direction(matrix: Matrix, vector: Point3) -> Point3:
    """Return the vector turned by the matrix; its place does not matter."""
    x, y, z = (_dot(row, vector) for row in matrix[:3])
    return (x, y, z)


def inverse(matrix: Matrix) -> Matrix:
    """Return the motion back again; the matrix must be rigid."""
    columns = [(matrix[0][i], matrix[1][i], matrix[2][i]) for i in range(3)]
    shift = (matrix[0][3], matrix[1][3], matrix[2][3])
    return (*tuple((c[0], c[1], c[2], -_dot(c, shift) + 0.0) for c in columns), (0.0, 0.0, 0.0, 1.0))


def compose(after: Matrix, before: Matrix) -> Matrix:
    """Return the motion that does ``before`` first and ``after`` then."""
    columns = list(zip(*before, strict=True))
    rows = [[sum(a * b for a, b in zip(row, column, strict=True)) for column in columns] for row in after]
    return tuple((r[0], r[1], r[2], r[3]) for r in rows)


def is_rigid(matrix: Matrix, tol: float = 1e-9) -> bool:
    """Tell whether the matrix is a right-handed rigid motion: nothing mirrored, nothing stretched."""
    if len(matrix) != 4 or any(abs(a - b) > tol for a, b in zip(matrix[3], (0, 0, 0, 1), strict=True)):
        return False
    x, y, z = ((row[0], row[1], row[2]) for row in matrix[:3])
    unit = all(abs(_dot(v, v) - 1) <= tol for v in (x, y, z))
    square = all(abs(_dot(a, b)) <= tol for a, b in ((x, y), (y, z), (x, z)))
    return unit and square and abs(_dot(_cross(x, y), z) - 1) <= tol


def sums(matrix: Matrix, unit: str = "mm", drawing: tuple[str, str, str] = _DRAWING) -> tuple[str, ...]:
    """Return a line for each machine axis: 'machine X = 34 - drawing x'.

    ``drawing`` names the three part coordinates in words. Raises ValueError for a frame that is
    turned by an angle: its coordinates are no sum of a number and one drawing coordinate.
    """
    lines = []
    for name, row in zip("XYZ", matrix, strict=False):
        axis = max(range(3), key=lambda i: abs(row[i]))
        if abs(abs(row[axis]) - 1) > 1e-9:
            raise ValueError("a frame turned by an angle has no sums")
        lines.append(f"machine {name} = {_sum(row[3], row[axis], drawing[axis], Unit(unit))}")
    return tuple(lines)


def _sum(constant_mm: float, sign: float, words: str, unit: Unit) -> str:
    number = plain(abs(constant_mm) / float(unit.mm), default_places(unit))
    if sign > 0:
        return words if number == "0" else f"{words} {'+' if constant_mm > 0 else '-'} {number}"
    if number == "0":
        return f"minus {words}"
    return f"{'' if constant_mm > 0 else '-'}{number} - {words}"


def turn(before: Orientation | None, after: Orientation, fixed: str = "back") -> Turn:
    """Return what brings the part from one orientation to the next, and the sentence for people.

    ``fixed`` says which side of the vise the fixed jaw is at: ``back``, ``front``, or ``none`` on the
    table (the sentence then speaks of the side away from the reader). ``before`` None: first setup.
    """
    if before is None:
        return Turn("", 0.0, _first_sentence(after, fixed), ())
    moves = _moves_between(before, after)
    if not moves:
        return Turn("", 0.0, f"Clamp the part the same way round again; {_jaw_words(before, after, fixed)}.", ())
    acts = [_ACTIONS[move] for move in moves]
    acts[1:] = [act.replace("turn the part", "turn it") for act in acts[1:]]
    words = ", then ".join(acts)
    sentence = f"{words[0].upper()}{words[1:]}; {_jaw_words(before, after, fixed)}."
    return Turn(" then ".join(axis for axis, _ in moves), float(moves[0][1]), sentence, moves)


@cache
def turned(orientation: Orientation, move: Turning) -> Orientation:
    """Return the orientation of the part after one turn about a machine axis."""
    return next(o for o in orientations() if _linear(o) == _times(_rotation(*move), _linear(orientation)))


@cache
def orientations() -> tuple[Orientation, ...]:
    """Return the 24 ways in which a part can lie square to the machine."""
    return tuple((up, back) for up, back in product(Face, Face) if up.axis != back.axis)


@cache
def _moves_between(before: Orientation, after: Orientation) -> tuple[Turning, ...]:
    """Find no, one or two turns; of two, the first brings the face up, the second turns it as it lies."""
    if before == after:
        return ()
    for move in _ACTIONS:
        if turned(before, move) == after:
            return (move,)
    for first, second in product(_ACTIONS, (("z", 90), ("z", -90), ("z", 180))):
        if turned(turned(before, first), second) == after:
            return (first, second)
    raise AssertionError("every orientation is reached by two turns")


def _jaw_words(before: Orientation, after: Orientation, fixed: str) -> str:
    face, was = (after[1].opposite, before[1].opposite) if fixed == "front" else (after[1], before[1])
    verb = "stays" if face == was else "goes"
    if fixed == "none":
        return f"the {_NAMES[face]} {'stays away from you' if face == was else 'goes to the side away from you'}"
    return f"the {_NAMES[face]} {verb} {'at' if verb == 'stays' else 'to'} the fixed jaw"


def _first_sentence(after: Orientation, fixed: str) -> str:
    up, back = after
    face = back.opposite if fixed == "front" else back
    place = "away from you" if fixed == "none" else "at the fixed jaw"
    start = f"Lay the part with its {_NAMES[up]} up and its {_NAMES[face]} {place}"
    right = _cross(normal(back), normal(up))
    on_right = next(f for f in Face if normal(f) == right)
    return f"{start}; its {_NAMES[on_right]} is then on your right."


def _linear(orientation: Orientation) -> tuple[Point3, ...]:
    z, y = normal(orientation[0]), normal(orientation[1])
    return (_cross(y, z), y, z)


def _rotation(axis: str, degrees: int) -> tuple[Point3, ...]:
    cos, sin = {90: (0.0, 1.0), -90: (0.0, -1.0), 180: (-1.0, 0.0)}[degrees]
    a, b, c = _AXES[axis], (_AXES[axis] + 1) % 3, (_AXES[axis] + 2) % 3
    rows = [[0.0] * 3 for _ in range(3)]
    rows[a][a], rows[b][b], rows[c][c], rows[b][c], rows[c][b] = 1.0, cos, cos, -sin, sin
    return tuple((r[0], r[1], r[2]) for r in rows)


def _times(a: tuple[Point3, ...], b: tuple[Point3, ...]) -> tuple[Point3, ...]:
    columns = tuple(zip(*b, strict=True))
    rows = [[sum(x * y for x, y in zip(row, column, strict=True)) + 0.0 for column in columns] for row in a]
    return tuple((r[0], r[1], r[2]) for r in rows)


def _dot(a: Point3 | Row4, b: Point3) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _cross(a: Point3, b: Point3) -> Point3:
    return (
        a[1] * b[2] - a[2] * b[1] + 0.0,
        a[2] * b[0] - a[0] * b[2] + 0.0,
        a[0] * b[1] - a[1] * b[0] + 0.0,
    )
