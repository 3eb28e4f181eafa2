"""Widths of text against the font file itself."""

from __future__ import annotations

import re

import pytest
from fontTools.ttLib import TTFont

from setupsheet.drawing import lettering


@pytest.mark.parametrize("bold", [False, True])
def test_width_is_the_sum_of_the_advances(bold: bool) -> None:
    """Digits carry no pair corrections, so their width is the sum of the advances in the font's hmtx table."""
    with TTFont(lettering.font_file(bold)) as font:
        names, advances = font.getBestCmap(), font["hmtx"].metrics
        em = font["head"].unitsPerEm
        wanted = sum(advances[names[ord(sign)]][0] for sign in "12.70")
    assert lettering.width("12.70", 3.5, bold) == pytest.approx(wanted / em * lettering.EM_PER_CAP * 3.5)


def test_capital_height_is_the_fonts_own() -> None:
    """The em follows from the capital height that the font records in OS/2."""
    with TTFont(lettering.font_file()) as font:
        assert font["head"].unitsPerEm / font["OS/2"].sCapHeight == lettering.EM_PER_CAP


def test_all_digits_are_equally_wide() -> None:
    """Columns of figures align."""
    assert len({lettering.width(digit, 3.5) for digit in "0123456789"}) == 1


def test_width_grows_with_height_and_text() -> None:
    """Twice the height is twice the width, and two texts are no narrower than one."""
    assert lettering.width("Ø12.5 H7", 7) == pytest.approx(2 * lettering.width("Ø12.5 H7", 3.5))
    assert lettering.width("", 3.5) == 0


def test_pairs_are_drawn_closer() -> None:
    """The font kerns 'To' (seen in its GPOS table), so the pair is narrower than its letters."""
    assert lettering.width("To", 3.5) < lettering.width("T", 3.5) + lettering.width("o", 3.5)


def test_unknown_letters_get_a_near_form_and_width_refuses_them() -> None:
    """A name with carons loses them, a sign without any near form becomes a question mark."""
    assert lettering.drawable("Dvořák ⌀8") == "Dvorák Ø8"
    assert lettering.drawable("漢") == "?"
    assert lettering.missing("ařbř") == "ř"
    with pytest.raises(ValueError, match="ř"):
        lettering.width("ř", 3.5)


def test_fitted_and_wrapped_stay_in_the_room() -> None:
    """No line is wider than its room, and wrapping loses no word."""
    text = "a rather long remark about the finish of every face of this part"
    assert lettering.width(lettering.fitted(text, 3.5, 40), 3.5) <= 40
    lines = lettering.wrapped(text, 3.5, 60)
    assert all(lettering.width(line, 3.5) <= 60 for line in lines)
    assert " ".join(lines).split() == text.split()


def test_the_fonts_licence_stands_beside_it() -> None:
    """The SIL Open Font License asks that its text goes with every copy."""
    text = lettering.font_file().with_name("LICENSE.txt").read_text(encoding="utf-8")
    assert re.search(r"SIL OPEN FONT LICENSE Version 1\.1", text)
