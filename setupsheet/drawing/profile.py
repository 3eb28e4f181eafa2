"""The two ways of drawing that never mix: ISO and ASME. Each is one record of choices.

Sizes are paper mm; the sources stand in the project's digest of drawing practice: line spacing, gaps
and overruns after ISO 129-1 and ASME Y14.5 as textbooks give them, heights after ISO 3098 and Y14.2.
"""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.length import Unit
from setupsheet.part.part import Part


@dataclass(frozen=True, slots=True)
class Profile:
    """All that differs between the profiles, and what both have in common on paper.

    ``level_text``: every text lies level (ASME); otherwise it runs along its dimension line (ISO).
    ``gap_mm`` is the gap between outline and extension line, ``past_mm`` how far that line runs on.
    ``overrun_mm`` is how far a centre line runs past the circle.
    """

    name: str
    text_mm: float
    letter_mm: float
    arrow_mm: float
    gap_mm: float
    past_mm: float
    overrun_mm: float
    level_text: bool
    unit: Unit
    decimal_sign: str
    first_angle: bool
    first_line_mm: float = 10.0
    next_line_mm: float = 8.0
    above_mm: float = 1.0

    @property
    def iso(self) -> bool:
        """Whether this is the ISO profile."""
        return self.name == "iso"

    @property
    def pitch_mm(self) -> float:
        """Distance between base lines of neighbouring lines of text."""
        return self.text_mm * 1.6

    def shown(self, length_mm: float) -> float:
        """Return a length in the unit of the drawing."""
        return length_mm / float(self.unit.mm)


def profile_of(part: Part) -> Profile:
    """Return the profile that the part asks for."""
    asked = part.drawing
    first = asked.projection != "third"
    if asked.standard == "asme":
        return Profile("asme", 3.0, 6.0, 3.0, 1.5, 3.0, 3.0, True, part.unit, asked.decimal_sign, first)
    return Profile("iso", 3.5, 5.0, 3.5, 1.0, 2.0, 2.5, False, part.unit, asked.decimal_sign, first)
