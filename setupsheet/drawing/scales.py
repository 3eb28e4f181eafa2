"""Scales: full size when it fits, else the next one of ISO 5455; small parts are drawn larger."""

from __future__ import annotations

from setupsheet.part.part import Part

_SMALL_MM = 40.0
_READS_MM = 60.0
_ENLARGE = (2.0, 5.0, 10.0)
ENLARGED = (*_ENLARGE, 20.0, 50.0)
"""Every enlargement of ISO 5455."""
_REDUCE = (0.5, 0.2, 0.1, 0.05, 0.02, 0.01)


def scales_for(part: Part) -> tuple[float, ...]:
    """Return the scales to try, the best first (ISO 5455:1979)."""
    longest = max(part.box.size)
    if longest >= _SMALL_MM:
        return (1.0, *_REDUCE)
    reads = next((k for k in _ENLARGE if longest * k >= _READS_MM), _ENLARGE[-1])
    return (reads, *(k for k in reversed(_ENLARGE) if k < reads), 1.0)


def scale_words(scale: float) -> str:
    """Return a scale as written: 2:1, 1:1, 1:5."""
    return f"{round(scale)}:1" if scale >= 1 else f"1:{round(1 / scale)}"
