"""Where everything stands on the sheet: views in projection, the rest where there is room.

Boxes are computed, nothing overlaps: the views that stand in line come first, then each further piece at
the first free corner. What finds no room goes on to a further sheet of the same size.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from setupsheet.drawing import title_block
from setupsheet.drawing.boxes import Rect, inside, join, overlap, shift, size
from setupsheet.drawing.compose import Drawn
from setupsheet.drawing.frame import SheetSize
from setupsheet.drawing.frames import place_beside_front
from setupsheet.drawing.ink import Group
from setupsheet.drawing.strokes import moved_group
from setupsheet.part.face import Face

GAP_MM = 9.0
_RIM_MM = 6.0
"""Clear space inside the frame."""


@dataclass(frozen=True, slots=True)
class Pieces:
    """What has to go on paper: views in line by face, then free groups in the order of their worth."""

    in_line: dict[Face, Drawn]
    free: tuple[Group, ...]


@dataclass(frozen=True, slots=True)
class Block:
    """Room that is taken at the foot of every sheet."""

    space: Rect
    taken: tuple[Rect, ...]


def block_of(paper: SheetSize, revisions: Group | None) -> Block:
    """Return the drawing space of a sheet and what title block and revision table take of it."""
    (x0, y0), (x1, y1) = paper.space
    left, top = title_block.room_above(paper)
    taken = [((left, y0), (x1, top))]
    if revisions is not None:
        taken.append(revisions.box)
    return Block(((x0 + _RIM_MM, y0 + _RIM_MM), (x1 - _RIM_MM, y1 - _RIM_MM)), tuple(taken))


def in_projection(views: dict[Face, Drawn], first_angle: bool) -> list[Group]:
    """Return the views that stand in line, the front view's origin at (0, 0), gaps between all boxes."""
    cells = {face: place_beside_front(face, first_angle) for face in views}
    moves: dict[Face, tuple[float, float]] = {}
    for face in sorted(views, key=lambda f: sum(abs(c) for c in cells[f])):
        column, row = cells[face]
        dx = _step(views, moves, face, column, 0)
        dy = _step(views, moves, face, row, 1)
        moves[face] = dx, dy
    return [moved_group(views[face].group, moves[face]) for face in views]


def _step(views: dict[Face, Drawn], moves: dict[Face, tuple[float, float]], face: Face, cell: int, axis: int) -> float:
    """Return the way of a view along one axis: 0 in line with the front view, else clear of all before it."""
    if cell == 0:
        return 0.0
    box = views[face].group.box
    placed = [shift(views[other].group.box, move) for other, move in moves.items()]
    if cell > 0:
        return max((b[1][axis] for b in placed), default=0.0) + GAP_MM - box[0][axis]
    return min((b[0][axis] for b in placed), default=0.0) - GAP_MM - box[1][axis]


def lay_out(pieces: Pieces, block: Block, first_angle: bool) -> tuple[list[Group], list[Group]] | None:
    """Return the placed groups of one sheet and the free ones that found no room; None if the views do not fit."""
    groups: list[Group] = []
    if pieces.in_line:
        core = in_projection(pieces.in_line, first_angle)
        corner = _fit_core([g.box for g in core], block)
        if corner is None:
            return None
        groups = [moved_group(g, corner) for g in core]
    left_over: list[Group] = []
    for piece in pieces.free:
        placed = _place_free(piece, groups, block)
        if placed is None:
            left_over.append(piece)
        else:
            groups.append(placed)
    return _centred(groups, block), left_over


def _fit_core(boxes: list[Rect], block: Block) -> tuple[float, float] | None:
    """Return the move that brings the views into the upper left of the space, each clear of the title block."""
    box = join(boxes)
    (x0, _), (_, y1) = block.space
    move = (x0 - box[0][0], y1 - box[1][1])
    there = [shift(view, move) for view in boxes]
    clear = not any(overlap(view, taken, GAP_MM) for view in there for taken in block.taken)
    return move if clear and inside(shift(box, move), block.space) else None


def _place_free(piece: Group, groups: Sequence[Group], block: Block) -> Group | None:
    """Return a group at the free corner that is highest, then leftmost."""
    wide, tall = size(piece.box)
    others = [g.box for g in groups] + list(block.taken)
    xs = {block.space[0][0], block.space[1][0] - wide}
    tops = {block.space[1][1], block.space[0][1] + tall}
    for box in others:
        xs |= {box[1][0] + GAP_MM, box[0][0], box[0][0] - GAP_MM - wide}
        tops |= {box[0][1] - GAP_MM, box[1][1], box[1][1] + GAP_MM + tall}
    best: tuple[float, float, Rect] | None = None
    for x in xs:
        for top in tops:
            box = ((x, top - tall), (x + wide, top))
            if not inside(box, block.space) or any(overlap(box, o, GAP_MM - 1e-6) for o in others):
                continue
            key = (-top, x)
            if best is None or key < best[:2]:
                best = (*key, box)
    if best is None:
        return None
    low = best[2][0]
    return moved_group(piece, (low[0] - piece.box[0][0], low[1] - piece.box[0][1]))


def _centred(groups: list[Group], block: Block) -> list[Group]:
    """Move everything by half of the room that is left at the right and below."""
    if not groups:
        return groups
    right = min(block.space[1][0] - g.box[1][0] for g in groups)
    for g in groups:
        for t in block.taken:
            if overlap(((g.box[0][0], g.box[0][1] - GAP_MM), (1e6, g.box[1][1])), t):
                right = min(right, t[0][0] - GAP_MM - g.box[1][0])
    groups = [moved_group(g, (max(0.0, right) / 2, 0.0)) for g in groups]
    down = min(g.box[0][1] - block.space[0][1] for g in groups)
    for g in groups:
        for t in block.taken:
            if overlap(((g.box[0][0] - GAP_MM, -1e6), (g.box[1][0] + GAP_MM, g.box[1][1])), t):
                down = min(down, g.box[0][1] - GAP_MM - t[1][1])
    return [moved_group(g, (0.0, -max(0.0, down) / 2)) for g in groups]


def fill(groups: Sequence[Group], block: Block) -> float:
    """Return the share of the drawing space that groups and title block take."""
    wide, tall = size(block.space)
    area = sum(w * h for w, h in (size(g.box) for g in groups)) + sum(w * h for w, h in map(size, block.taken))
    return area / (wide * tall)
