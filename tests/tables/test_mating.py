"""Two mates: clearance, kind of fit, what it is for, and the words for it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.tables.fits import Limits, limits
from setupsheet.tables.mating import fit, intent, intent_words, mate, preferred
from setupsheet.tables.unknown import NotInTables


@pytest.mark.parametrize(
    ("text", "least", "most", "kind"),
    [
        ("25 H7/g6", 7, 41, "clearance"),  # ANSI B4.2-1978 table, from memory: 0.007 to 0.041
        ("25 H7/h6", 0, 34, "clearance"),  # ANSI B4.2-1978 table, from memory: 0.000 to 0.034
        ("25 H7/k6", -15, 19, "transition"),  # ANSI B4.2-1978 table, from memory: -0.015 to 0.019
        ("25 H7/p6", -35, -1, "interference"),  # ANSI B4.2-1978 table, from memory: -0.035 to -0.001
        ("3 H7/p6", -12, 4, "transition"),  # ANSI B4.2 note: H7/p6 is a transition fit to 3 mm
        (
            "50 H7/s6",
            -59,
            -18,
            "interference",
        ),  # design textbook (Scilab textbook companion 764), example 3.3: 0.059 and 0.018
        (
            "20 H7/s6",
            -48,
            -14,
            "interference",
        ),  # design textbook (Scilab textbook companion 764), example 3.2: 0.048 and 0.014
        ("8 H7/m6", -15, 9, "transition"),  # dowel tables: m6 in H7, +9 / -15
    ],
)
def test_clearance_and_kind(text: str, least: float, most: float, kind: str) -> None:
    """Least and greatest clearance agree with the print; squeeze is negative."""
    found = fit(text)
    assert (found.clearance_min_um, found.clearance_max_um, found.kind) == (least, most, kind)


@given(st.floats(0, 500), st.sampled_from(["c", "f", "g", "h", "k", "n", "p", "s", "u"]))
def test_clearances_keep_their_order(size: float, letter: str) -> None:
    """The greatest clearance is the least one and both tolerances (ISO 286-1)."""
    size = max(size, 1.5)
    hole, shaft = limits(size, "H7"), limits(size, f"{letter}6")
    widths = hole.upper_um - hole.lower_um + shaft.upper_um - shaft.lower_um
    found = mate(hole, shaft)
    assert found.clearance_max_um - found.clearance_min_um == pytest.approx(widths, abs=1e-6)


def test_a_bought_part_brings_its_own_limits() -> None:
    """A bush ground to 12.05 to 12.06 in a 12 H7 hole is squeezed by 32 to 60 µm: plain subtraction."""
    bush = Limits(12.05, "bought", 0, 10, "maker", "measured")
    found = mate(limits(12, "H7"), bush)
    assert (found.clearance_min_um, found.clearance_max_um, found.kind) == (-60, -32, "interference")
    assert found.use == ""


def test_both_bases_of_a_preferred_fit_have_its_use() -> None:
    """H7/g6 and G7/h6 are one line of the ANSI B4.2 list, 'sliding'."""
    assert fit("25 H7/g6").name == fit("25 G7/h6").name == "sliding"
    assert "by hand" in fit("25 H7/g6").use
    assert preferred("H6", "g5") is None


@pytest.mark.parametrize("word", intent_words())
def test_every_word_names_a_preferred_fit(word: str) -> None:
    """A word resolves to a line of the preferred list."""
    found = intent(word)
    assert preferred(found.hole, found.shaft)
    assert found.meaning
    assert found.source


def test_the_words_go_from_tight_to_loose() -> None:
    """To press squeezes, locate may touch, slide and run have play, run more."""
    least = []
    for word in ("press", "locate", "slide", "run"):
        found = intent(word)
        least.append(fit(f"25 {found.hole}/{found.shaft}").clearance_min_um)
    assert least == sorted(least)
    assert least[0] < 0 == least[1] < least[2]


def test_unknown_words_and_half_fits_are_refused() -> None:
    """One thing that exists is offered."""
    with pytest.raises(NotInTables) as caught:
        intent("slid")
    assert caught.value.nearest == "slide"
    with pytest.raises(NotInTables) as caught:
        fit("25H7")
    assert caught.value.nearest == "25 H7/h6"
    with pytest.raises(NotInTables) as caught:
        fit("25 g6")
    assert caught.value.nearest == "25 H7/g6"
