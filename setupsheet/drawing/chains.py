"""Join open pieces of line at their ends: rings round the outside first, then plain chains.

Seen from outside, a drawing of edges has one rim; it is closed even where inner edges meet it. Inside, a
chain stops where three pieces meet, since nobody can say which way it goes.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from setupsheet.plane import Point2, distance

MEET_MM = 1e-4
"""Ends closer than this are one point; the kernel's own points agree to some 1e-7."""


@dataclass(frozen=True, slots=True)
class Piece:
    """An open piece: points and the bulges between them (one fewer).

    A bulge is the tangent of a quarter of the arc's angle, + counter-clockwise, 0 for a straight line.
    """

    points: tuple[Point2, ...]
    bulges: tuple[float, ...]

    def turned(self) -> Piece:
        """Return the piece the other way round."""
        return Piece(self.points[::-1], tuple(-bulge for bulge in self.bulges[::-1]))

    @property
    def closed(self) -> bool:
        """Tell whether the piece ends where it starts."""
        return len(self.points) > 2 and self.points[0] == self.points[-1]

    def leaves_at(self) -> tuple[float, float]:
        """Return the direction in radians in which the piece starts, and its curvature (+ to the left)."""
        (ax, ay), (bx, by), bulge = self.points[0], self.points[1], self.bulges[0]
        half = 2 * math.atan(bulge)
        angle = (math.atan2(by - ay, bx - ax) - half) % math.tau
        chord = math.hypot(bx - ax, by - ay)
        return round(angle, 6) % round(math.tau, 6), 2 * math.sin(half) / chord if chord else 0.0

    def area(self) -> float:
        """Return the piece's share of the signed area about the origin, its bows included."""
        total = sum(a[0] * b[1] - a[1] * b[0] for a, b in pairwise(self.points)) / 2
        for (a, b), bulge in zip(pairwise(self.points), self.bulges, strict=True):
            if bulge:
                turn = 4 * math.atan(bulge)
                radius = distance(a, b) / 2 / math.sin(abs(turn) / 2)
                total += radius * radius / 2 * (turn - math.sin(turn))
        return total


class Ends:
    """The points where pieces end (nodes), each with the pieces that end there."""

    def __init__(self, pieces: Sequence[Piece]) -> None:
        """Gather the ends of ``pieces``; ends nearer than MEET_MM are one node."""
        self.all = pieces
        self._cells: dict[tuple[int, int], int] = {}
        self.points: list[Point2] = []
        self.at: list[list[int]] = []
        self.of: list[tuple[int, int]] = []
        for index, piece in enumerate(pieces):
            ends = self._node(piece.points[0]), self._node(piece.points[-1])
            self.of.append(ends)
            for node in ends:
                self.at[node].append(index)

    def _node(self, point: Point2) -> int:
        x, y = math.floor(point[0] / MEET_MM), math.floor(point[1] / MEET_MM)
        for cell in ((x + dx, y + dy) for dx in (0, -1, 1) for dy in (0, -1, 1)):
            node = self._cells.get(cell)
            if node is not None and distance(self.points[node], point) <= MEET_MM:
                return node
        self._cells[x, y] = len(self.points)
        self.points.append(point)
        self.at.append([])
        return len(self.points) - 1

    def snapped(self, index: int, node: int) -> Piece:
        """Return a piece as it leaves ``node``, its ends moved onto the nodes."""
        first, last = self.of[index]
        piece = self.all[index] if first == node else self.all[index].turned()
        end = last if first == node else first
        return Piece((self.points[node], *piece.points[1:-1], self.points[end]), piece.bulges)

    def other(self, index: int, node: int) -> int:
        """Return the node at the other end of a piece."""
        first, last = self.of[index]
        return last if node == first else first


def chains(pieces: Sequence[Piece]) -> list[Piece]:
    """Return the pieces joined: rims, then chains from where they must start, then the rings that are left."""
    ends = Ends(pieces)
    used: set[int] = set()
    found = []
    for rim in _rims(ends):
        used.update(index for index, _ in rim)
        found.append(_joined([ends.snapped(*leg) for leg in rim]))
    rest = Ends([piece for index, piece in enumerate(pieces) if index not in used])
    free = [True] * len(rest.all)
    for node, here in enumerate(rest.at):
        if len(here) != 2:
            found += [_walk(rest, free, (index, node)) for index in here if free[index]]
    found += [_walk(rest, free, (index, rest.of[index][0])) for index in range(len(free)) if free[index]]
    return found


def _joined(pieces: Sequence[Piece]) -> Piece:
    points = [pieces[0].points[0]]
    for piece in pieces:
        points += piece.points[1:]
    return Piece(tuple(points), tuple(bulge for piece in pieces for bulge in piece.bulges))


def _walk(ends: Ends, free: list[bool], start: tuple[int, int]) -> Piece:
    """Follow pieces from a node until the way forks, ends or comes back."""
    index, node = start
    home = node
    legs = []
    while True:
        free[index] = False
        legs.append(ends.snapped(index, node))
        node = ends.other(index, node)
        onward = [other for other in ends.at[node] if free[other]]
        if node == home or len(ends.at[node]) != 2 or not onward:
            return _joined(legs)
        index = onward[0]


Leg = tuple[int, int]
"""A piece and the node it is left from."""


def _rims(ends: Ends) -> list[list[Leg]]:
    """Return the outside of every group of pieces in which three or more meet, where it is a plain ring.

    Each way round a face keeps to the sharpest right turn; only the way round the outside runs
    clockwise, so its area is negative.
    """
    after = _next_legs(ends)
    seen: set[Leg] = set()
    rims = []
    for start in after:
        if start in seen:
            continue
        way = [start]
        while after[way[-1]] != start:
            way.append(after[way[-1]])
        seen.update(way)
        forks = any(len(ends.at[node]) > 2 for _, node in way)
        plain = len({node for _, node in way}) == len(way)
        if forks and plain and sum(ends.snapped(*leg).area() for leg in way) < 0:
            rims.append(way)
    return rims


def _next_legs(ends: Ends) -> dict[Leg, Leg]:
    """Return for each leg the one that follows it round a face: the next one clockwise at its end.

    A face lies to the left of its legs: coming in, the leg just clockwise of the way back is taken.
    """
    order: list[list[int]] = []
    for node, here in enumerate(ends.at):
        whole = [index for index in dict.fromkeys(here) if ends.of[index][0] != ends.of[index][1]]
        order.append(sorted(whole, key=lambda index, node=node: ends.snapped(index, node).leaves_at()))  # type: ignore[misc]
    after = {}
    for node, here in enumerate(order):
        for index in here:
            end = ends.other(index, node)
            there = order[end]
            after[index, node] = (there[there.index(index) - 1], end)
    return after
