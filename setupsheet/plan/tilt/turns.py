"""How the part comes from one setup to the next where one of them, or both, is at an angle."""

from __future__ import annotations

from setupsheet.length import fixed
from setupsheet.part.part import Part, SetupAsked
from setupsheet.plan.record import Turn
from setupsheet.plan.tilt.level import turn_deg
from setupsheet.solid import frame


def turn_between(part: Part, before: SetupAsked | None, after: SetupAsked, fixed_at: str) -> Turn:
    """Return what is done with the part; ``fixed_at``: see ``frame.turn``."""
    faces = (before.up, before.back) if before else None
    found = frame.turn(faces, (after.up, after.back), fixed_at)
    was = turn_deg(part, before)[0] if before else 0.0
    now = turn_deg(part, after)[0]
    moves: list[tuple[str, float]] = [(axis, degrees) for axis, degrees in found.moves]
    at_plate = after.hold is not None and after.hold.in_ == "angle plate"
    sentence = found.sentence.replace("fixed jaw", "angle plate") if at_plate else found.sentence
    if before and faces == (after.up, after.back):
        sentence += _slid(before, after)
    if was:
        moves.insert(0, ("y", -was))
        sentence = f"Set the part upright again, {fixed(abs(was), 3)} degrees back. {sentence}"
    if now:
        moves = [*moves, ("y", now)] if before else moves
        raised = "right" if now < 0 else "left"
        sentence = f"{sentence} Then tilt it {fixed(abs(now), 3)} degrees, its {raised} end up."
    if not was and not now:
        return Turn(found.axis, found.angle_deg, sentence, tuple(moves))
    axes = " then ".join(axis for axis, _ in moves)
    return Turn(axes, moves[0][1] if moves else 0.0, sentence, tuple(moves))


def _slid(before: SetupAsked, after: SetupAsked) -> str:
    """Return how a part that is not turned is moved along the jaws: to another end, or to its middle."""
    was, now = (set(asked.hold.overhang_mm) if asked.hold else set() for asked in (before, after))
    if was == now:
        return ""
    ends = " and ".join(face.value for face in sorted(now, key=lambda face: face.value))
    if not now:
        return " Slide it along between the jaws until they hold it by its middle."
    return f" Slide it along between the jaws: now its {ends} end stands out past them."
