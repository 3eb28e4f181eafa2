"""The text of a callout: lines, surface symbol, tolerance frames and datum flag under each other in one block."""

from __future__ import annotations

from typing import Protocol

from setupsheet.drawing import signs, texture
from setupsheet.drawing.boxes import Rect
from setupsheet.drawing.ink import Fill, Line, Pen, Polyline, Stroke, Text
from setupsheet.drawing.profile import Profile
from setupsheet.drawing.strokes import DESCENT
from setupsheet.drawing.wanted import Callout
from setupsheet.plane import Point2, polar

_FRAME_SIDE = 0.6
"""Clear space beside the text of a tolerance frame's compartment, in text heights."""


class Block(Protocol):
    """Where the block stands, and at which end its leader comes."""

    @property
    def box(self) -> Rect:
        """Return the box of the block."""

    @property
    def from_left(self) -> bool:
        """Tell whether the leader comes from the left end."""


def block_size(callout: Callout, profile: Profile) -> Point2:
    """Return width and height of a callout's text block, frame and datum flag included."""
    h = profile.text_mm
    wide = max((signs.width(line, h) for line in callout.lines), default=0.0)
    tall = _head(callout, profile)
    if callout.texture:
        tall += _texture_room(callout, profile)
        wide = max(wide, texture.width(callout.texture, h, profile.iso))
    for number, frame in enumerate(callout.frames):
        tall += 2 * h + (1.0 if number == 0 and callout.lines and not callout.texture else 0.0)
        wide = max(wide, sum(_compartments(frame, profile)))
    if callout.datum:
        tall += 2 * h + 3.5 + (0.0 if callout.frames else 1.0)
        wide = max(wide, 2 * h + 2.0)
    return wide, tall


def _head(callout: Callout, profile: Profile) -> float:
    """Return the height of a block's lines of text."""
    if not callout.lines:
        return 0.0
    return profile.text_mm * (1 + DESCENT) + (len(callout.lines) - 1) * profile.pitch_mm


def _texture_room(callout: Callout, profile: Profile) -> float:
    """Return the height that a surface symbol takes under the lines, or at the leader's own level."""
    return texture.height(profile.text_mm) + (1.2 if callout.lines else 0.0)


def level(callout: Callout, profile: Profile) -> float:
    """Return how far under the top of its block a leader ends: beside the first line, symbol or frame."""
    if callout.lines:
        return profile.text_mm / 2
    return texture.height(profile.text_mm) if callout.texture else profile.text_mm


def block(callout: Callout, spot: Block, profile: Profile) -> list[Stroke]:
    """Return the lines of text, then the surface symbol, the tolerance frames, the datum flag."""
    h = profile.text_mm
    x = spot.box[0][0] if spot.from_left else spot.box[1][0]
    anchor = "left" if spot.from_left else "right"
    strokes: list[Stroke] = []
    for number, line in enumerate(callout.lines):
        strokes += signs.line(Text((x, spot.box[1][1] - h - number * profile.pitch_mm), h, line, anchor))
    y = spot.box[1][1] - _head(callout, profile)
    if callout.texture:
        y -= _texture_room(callout, profile)
        strokes += _texture(callout, (_left(spot, texture.width(callout.texture, h, profile.iso)), y), profile)
    elif callout.frames and callout.lines:
        y -= 1.0
    for frame in callout.frames:
        y -= 2 * h
        strokes += tolerance_frame(frame, (_left(spot, sum(_compartments(frame, profile))), y), profile)
    return strokes + _datum(callout, spot, y, profile)


def _left(spot: Block, wide: float) -> float:
    """Return the left end of something ``wide`` at the side of a block from which its leader comes."""
    return spot.box[0][0] if spot.from_left else spot.box[1][0] - wide


def _texture(callout: Callout, left: Point2, profile: Profile) -> list[Stroke]:
    """Return a surface symbol under a callout; it stands on a line of its own, or on the frame below it."""
    h = profile.text_mm
    strokes = texture.symbol(callout.texture, left, h, profile.iso)
    if callout.frames or not callout.lines:
        return strokes
    end = left[0] + texture.width(callout.texture, h, profile.iso)
    return [Line(Pen.DIM, left, (end, left[1])), *strokes]


def _datum(callout: Callout, spot: Block, y: float, profile: Profile) -> list[Stroke]:
    """Return the datum flag under a callout: on its last frame, else on a line of its own."""
    if not callout.datum:
        return []
    side, strokes = 2 * profile.text_mm, list[Stroke]()
    left = _left(spot, sum(_compartments(callout.frames[-1], profile)) if callout.frames else side + 2.0)
    top = y - (0.0 if callout.frames else 1.0)
    if not callout.frames:
        strokes.append(Line(Pen.DIM, (left, top), (left + side + 2.0, top)))
    return strokes + datum_flag(callout.datum, (left + side / 2 + 1.0, top), 270.0, profile)


def _compartments(cells: tuple[str, ...], profile: Profile) -> list[float]:
    h = profile.text_mm
    return [max(2 * h, signs.width(cell, h) + 2 * _FRAME_SIDE * h) for cell in cells]


def tolerance_frame(cells: tuple[str, ...], corner: Point2, profile: Profile) -> list[Stroke]:
    """Return a tolerance frame (ISO 1101, ASME Y14.5) with its lower left corner at ``corner``."""
    h = profile.text_mm
    wide = _compartments(cells, profile)
    x, y = corner
    top = y + 2 * h
    end = x + sum(wide)
    strokes: list[Stroke] = [Polyline(Pen.DIM, ((x, y), (end, y), (end, top), (x, top)), closed=True)]
    for index, (cell, width) in enumerate(zip(cells, wide, strict=True)):
        if index:
            strokes.append(Line(Pen.DIM, (x, y), (x, top)))
        strokes += signs.line(Text((x + width / 2, y + h / 2), h, cell, "middle"))
        x += width
    return strokes


def flag_height(profile: Profile) -> float:
    """Return how far a datum flag reaches from the line that it stands on."""
    return 0.9 * profile.text_mm + 1.0 + 2 * profile.text_mm


def datum_flag(letter: str, foot: Point2, away_deg: float, profile: Profile) -> list[Stroke]:
    """Return a datum triangle on ``foot`` and its letter in a square ``away_deg`` from it (ISO 5459)."""
    h = profile.text_mm
    base, high, stem = 0.55 * h, 0.9 * h, 1.0
    apex = polar(foot, high, away_deg)
    left, right = polar(foot, base, away_deg + 90), polar(foot, base, away_deg - 90)
    near = polar(apex, stem, away_deg)
    middle = polar(near, h, away_deg)
    (x, y) = middle
    return [
        Fill((apex, left, right)),
        Line(Pen.DIM, apex, near),
        Polyline(Pen.DIM, ((x - h, y - h), (x + h, y - h), (x + h, y + h), (x - h, y + h)), closed=True),
        *signs.line(Text((x, y - h / 2), h, letter, "middle")),
    ]
