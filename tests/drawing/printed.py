"""Sheets as paper: our PDF and the DXF as a free CAD program prints it, both as dots of ink on one raster."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

Dots = NDArray[np.bool_]
DPI = 150
MM = DPI / 25.4
"""Dots in a millimetre."""
_DARK = 190
"""Grey below which a dot counts as ink; a narrow line is 1.5 dots wide."""
_A3_MM = (420.0, 297.0)
_MOST_PRINTS = 4


def print_dxf(data: bytes, size_mm: tuple[float, float], folder: Path) -> Dots:
    """Return the dots of a DXF sheet printed by LibreCAD.

    It prints on A3 lying with the origin at the lower left; a larger sheet is printed at half size, which
    the header's view scale asks for, and read at twice the dots.
    """
    half = size_mm[0] > _A3_MM[0] or size_mm[1] > _A3_MM[1]
    text = data.decode()
    if half:
        text = text.replace("$PSVPSCALE\n 40\n1.0\n", "$PSVPSCALE\n 40\n0.5\n", 1)
        assert "$PSVPSCALE\n 40\n0.5\n" in text
    (folder / "sheet.dxf").write_text(text, encoding="utf-8")
    return _cut(_agreed(folder, DPI * (2 if half else 1)), size_mm)


def _agreed(folder: Path, dpi: int) -> Dots:
    """Return the dots of the first print that LibreCAD makes twice.

    In one run of some hundred a sheet differed from our print by thousands of dots, and with the same bytes never
    again: a print that it does not make twice proves nothing.
    """
    command = ["librecad", "dxf2pdf", "sheet.dxf"]
    home = {"QT_QPA_PLATFORM": "offscreen", "HOME": str(folder), "XDG_RUNTIME_DIR": str(folder)}
    seen: list[Dots] = []
    for _ in range(_MOST_PRINTS):
        subprocess.run(command, cwd=folder, env={**os.environ, **home}, capture_output=True, check=True, timeout=60)
        dots = _dots(folder / "sheet.pdf", dpi)
        if any(np.array_equal(dots, other) for other in seen):
            return dots
        seen.append(dots)
    raise AssertionError(f"{_MOST_PRINTS} prints of one file, and no two alike")


def print_pdf(data: bytes, size_mm: tuple[float, float], folder: Path) -> Dots:
    """Return the dots of the first page of our PDF."""
    (folder / "ours.pdf").write_bytes(data)
    return _cut(_dots(folder / "ours.pdf", DPI), size_mm)


def _dots(pdf: Path, dpi: int) -> Dots:
    """Return a page as rows of dots, the lowest row first."""
    command = ["pdftoppm", "-gray", "-r", str(dpi), "-f", "1", "-l", "1", str(pdf)]
    raw = subprocess.run(command, capture_output=True, check=True, timeout=60).stdout
    kind, wide, high, _most, rest = raw.split(maxsplit=4)
    assert kind == b"P5"
    count = int(wide) * int(high)
    grey = np.frombuffer(rest[-count:] if len(rest) >= count else raw[-count:], dtype=np.uint8)
    return (grey.reshape(int(high), int(wide)) < _DARK)[::-1]


def _cut(dots: Dots, size_mm: tuple[float, float]) -> Dots:
    """Return the sheet's own part of a page, white where the page ends before it."""
    wide, high = round(size_mm[0] * MM), round(size_mm[1] * MM)
    sheet = np.zeros((high, wide), dtype=bool)
    part = dots[:high, :wide]
    sheet[: part.shape[0], : part.shape[1]] = part
    return sheet


def spread(dots: Dots, by_mm: float) -> Dots:
    """Return the dots with all that lie within a distance of one."""
    reach = int(by_mm * MM + 0.5)
    wide = dots.copy()
    for dy in range(-reach, reach + 1):
        for dx in range(-reach, reach + 1):
            if (dx or dy) and dx * dx + dy * dy <= reach * reach + 1:
                wide |= _moved(dots, dy, dx)
    return wide


def _moved(dots: Dots, dy: int, dx: int) -> Dots:
    out = np.zeros_like(dots)
    rows, columns = dots.shape
    out[max(dy, 0) : rows + min(dy, 0), max(dx, 0) : columns + min(dx, 0)] = dots[
        max(-dy, 0) : rows - max(dy, 0), max(-dx, 0) : columns - max(dx, 0)
    ]
    return out


def dot(point: tuple[float, float]) -> tuple[int, int]:
    """Return row and column of a point on paper."""
    return int(point[1] * MM), int(point[0] * MM)
