"""Lettering: how wide a text stands on paper, from the real glyphs of the one bundled font.

The font (fonts/, SIL Open Font License) is chosen for its digits: a 1 with a foot, an open 7, a narrow 0
beside a round O, all digits of one width so that columns align. Heights are capital heights in paper mm,
as in DXF; an em is ``EM_PER_CAP`` capital heights. What the font lacks is drawn (signs.py).
"""

from __future__ import annotations

import unicodedata
from functools import cache, lru_cache
from itertools import pairwise
from pathlib import Path
from typing import Any, NamedTuple

FAMILY = "B612"
"""The family name inside the font files, for CSS and SVG."""

EM_PER_CAP = 2000 / 1500
"""Size of the em over the capital height (the font's own record: 1500 of 2000 units)."""

_FOLDER = Path(__file__).parent / "fonts"
_STAND_INS = {"Ł": "L", "ł": "l", "Đ": "D", "đ": "d", "ı": "i", "⌀": "Ø", "∅": "Ø"}
"""Near forms of signs that have no decomposition."""


class _Face(NamedTuple):
    """What is needed of one font file: advances and pair corrections in units of the em."""

    units_per_em: int
    glyph_of: dict[int, str]
    advance_of: dict[str, int]
    pairs: tuple[Any, ...]


def font_file(bold: bool = False) -> Path:
    """Return the path of the bundled font file."""
    return _FOLDER / ("B612-Bold.otf" if bold else "B612-Regular.otf")


def width(text: str, height: float, bold: bool = False) -> float:
    """Return the width of one line of text in paper mm at capital height ``height``.

    Raises ValueError for a character that the font lacks (``drawable`` replaces those).
    """
    return _width_in_em(text, bold) * EM_PER_CAP * height


def drawable(text: str) -> str:
    """Return the text with every character that the font lacks replaced by its nearest form, else '?'."""
    return "".join(_nearest(sign) for sign in text)


def missing(text: str) -> str:
    """Return the characters of ``text`` that the font lacks, each once, in their order."""
    return "".join(dict.fromkeys(sign for sign in text if ord(sign) not in _face(False).glyph_of))


def fitted(text: str, height: float, room: float, bold: bool = False) -> str:
    """Return the text, shortened with '…' where it is wider than ``room`` mm."""
    if width(text, height, bold) <= room:
        return text
    low, high = 0, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if width(text[:middle].rstrip() + "…", height, bold) <= room else (low, middle - 1)
    return text[:low].rstrip() + "…"


def wrapped(text: str, height: float, room: float, bold: bool = False) -> tuple[str, ...]:
    """Break a text between words into lines no wider than ``room`` mm; a longer word is cut with '…'."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width(longer, height, bold) <= room:
            lines[-1] = longer
        else:
            lines.append(fitted(word, height, room, bold))
    return tuple(lines)


@lru_cache(maxsize=4096)
def _width_in_em(text: str, bold: bool) -> float:
    face = _face(bold)
    try:
        glyphs = [face.glyph_of[ord(sign)] for sign in text]
    except KeyError:
        raise ValueError(f"the bundled font has no glyph for {missing(text)!r}") from None
    units = sum(face.advance_of[glyph] for glyph in glyphs)
    units += sum(_kern(bold, left, right) for left, right in pairwise(glyphs))
    return units / face.units_per_em


@lru_cache(maxsize=4096)
def _nearest(sign: str) -> str:
    known = _face(False).glyph_of
    if not sign.isprintable():
        return " " if sign.isspace() else "?"
    if ord(sign) in known:
        return sign
    if sign in _STAND_INS:
        return _STAND_INS[sign]
    plain = "".join(part for part in unicodedata.normalize("NFKD", sign) if ord(part) in known)
    return plain or "?"


@cache
def _face(bold: bool) -> _Face:
    """Read the few tables that widths need; the outlines stay on disk."""
    from fontTools.ttLib import TTFont  # noqa: PLC0415 - 70 ms, only where text is measured

    with TTFont(font_file(bold), lazy=True) as font:
        advances = {glyph: advance for glyph, (advance, _) in font["hmtx"].metrics.items()}
        pairs = tuple(table for lookup in font["GPOS"].table.LookupList.Lookup for table in lookup.SubTable)
        for table in pairs:
            table.ensureDecompiled(recurse=True)
        return _Face(font["head"].unitsPerEm, dict(font.getBestCmap()), advances, pairs)


@lru_cache(maxsize=8192)
def _kern(bold: bool, left: str, right: str) -> int:
    """Return the pair correction of two glyphs (OpenType GPOS pair positioning, formats 1 and 2)."""
    for table in _face(bold).pairs:
        if left not in table.Coverage.glyphs:
            continue
        if table.Format == 1:
            records = table.PairSet[table.Coverage.glyphs.index(left)].PairValueRecord
            value = next((record.Value1 for record in records if record.SecondGlyph == right), None)
            if value is None:
                continue
        else:
            row = table.Class1Record[table.ClassDef1.classDefs.get(left, 0)]
            value = row.Class2Record[table.ClassDef2.classDefs.get(right, 0)].Value1
        return getattr(value, "XAdvance", 0) if value else 0
    return 0
