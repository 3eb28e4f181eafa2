"""What goes into a feature, or over it: a bought bush, a shaft's fit, or a feature of another part."""

from __future__ import annotations

from dataclasses import dataclass

SHAFT, HOLE = "shaft", "hole"
"""Which side of the fit the mate is."""


@dataclass(frozen=True, slots=True)
class Mate:
    """The mate of one feature; ``written`` are the author's words.

    ``side`` is what the mate is: a ``shaft`` in this part's hole, or a ``hole`` over its boss. Its limits
    are in mm, None where the words name none; ``symbol`` is 'r6', '' where they are its own. ``intent`` is
    the word that stood for the fit ('slide'), ``bore`` the mate's own bore ('8 H7'), ``other`` the drawing and
    feature of another part ('ST-04 boss'). ``said`` are sentences on patterns and screws of both parts.
    """

    feature: str
    written: str
    side: str
    nominal_mm: float | None = None
    lower_mm: float | None = None
    upper_mm: float | None = None
    symbol: str = ""
    pressed: bool = False
    intent: str = ""
    bore: str = ""
    other: str = ""
    said: tuple[str, ...] = ()
    source: str = ""
