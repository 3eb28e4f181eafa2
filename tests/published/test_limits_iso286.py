"""Limits printed in standards, handbooks and textbooks, typed in with their source beside each.

Sources are named by the ids of setupsheet/tables/fit_sources.csv where they stand there.
"""

from __future__ import annotations

import pytest

from setupsheet.tables.fits import limits
from setupsheet.tables.unknown import NotInTables

COR = "ISO 286-2:1988 Technical Corrigendum 1 (2006)"
MD215 = "MD215: Machine Drawing p. 215, table 15.2"
EN = "EN286N: EN ISO 286-1, holes N to ZC"
PIN = "DIN 7 dowel pin m6: web table of pins and a pin maker's page of hole sizes"
IT = "MD213 and AZOM1153, grade table; H and h start at 0"

# size in mm, symbol, lower and upper deviation in µm, where printed
BOTH: list[tuple[float, str, float, float, str]] = [
    (20, "H7", 0, 21, "design textbook, example 3.2 from its tables 3.2, 3.3b (Scilab textbook companion 764)"),
    (20, "s6", 35, 48, "design textbook, example 3.2 from its tables 3.2, 3.3b (Scilab textbook companion 764)"),
    (50, "H7", 0, 25, "design textbook, example 3.3 from its tables 3.2, 3.3b (Scilab textbook companion 764)"),
    (50, "s6", 43, 59, "design textbook, example 3.3 from its tables 3.2, 3.3b (Scilab textbook companion 764)"),
    (2, "m6", 2, 8, PIN),
    (4, "m6", 4, 12, PIN),
    (8, "m6", 6, 15, PIN),
    (12, "m6", 7, 18, PIN),
    (16, "m6", 7, 18, PIN),
    (20, "m6", 8, 21, PIN),
    (25, "m6", 8, 21, PIN),
    (2, "h8", -14, 0, IT),
    (6, "h8", -18, 0, IT),
    (10, "h8", -22, 0, IT),
    (16, "h8", -27, 0, IT),
    (25, "h8", -33, 0, IT),
    (3, "H7", 0, 10, IT),
    (5, "H7", 0, 12, IT),
    (8, "H7", 0, 15, IT),
    (12, "H7", 0, 18, IT),
    (6, "js7", -6, 6, "ISO 286-1: half of IT7 = 12 (MD213)"),
    (8, "js7", -7.5, 7.5, "MOULD7: the half micrometre is kept"),
    (10, "f7", -28, -13, "disagreements list: AERO227's -12 is a misprint, -13/-28 elsewhere"),
    (2, "f8", -20, -6, "disagreements list: JIS_A's -8 is a misprint, -6/-20 elsewhere"),
    (25, "d10", -149, -65, "disagreements list: AERO227's -69 is a misprint, -149 fits -65"),
    (35, "H11", 0, 160, "AERO227 in its 40-50 row; IT11 = 160 in MD213"),
    (450, "H16", 0, 4000, "MD213 and MOULD7; AZOM1153's 4 is a misprint"),
    (5, "H8", 0, 18, "MD213: IT8 3-6 = 18; one page's 19 is a misprint"),
    (100, "h9", -87, 0, "MD213: IT9 80-120 = 87; one page's 84 is a misprint"),
    (20, "h7", -21, 0, "MD213: IT7 18-30 = 21; one page's 19.987 is h6"),
    (60, "B8", 190, 236, "COURSE_AE: +236 over +190"),
    (60, "B9", 190, 264, "COURSE_AE with its misprint of the B8 upper limit put right: +264 over +190"),
    (300, "M6", -41, -9, "MD219 footnote: ES = -9, not the -11 of the rule (single print); IT6 = 32"),
    # From memory of ISO 286-2:2010 and ANSI B4.2-1978; no page was open when these were typed.
    (25, "H11", 0, 130, "from memory, ANSI B4.2 table"),
    (25, "c11", -240, -110, "from memory, ANSI B4.2 table"),
    (25, "d9", -117, -65, "from memory, ANSI B4.2 table"),
    (25, "f7", -41, -20, "from memory, ANSI B4.2 table"),
    (25, "g6", -20, -7, "from memory, ANSI B4.2 table"),
    (25, "k6", 2, 15, "from memory, ANSI B4.2 table"),
    (25, "n6", 15, 28, "from memory, ANSI B4.2 table"),
    (25, "p6", 22, 35, "from memory, ANSI B4.2 table"),
    (25, "u6", 48, 61, "from memory, ANSI B4.2 table"),
    (25, "K7", -15, 6, "from memory, ANSI B4.2 table"),
    (25, "N7", -28, -7, "from memory, ANSI B4.2 table"),
    (25, "P7", -35, -14, "from memory, ANSI B4.2 table"),
    (25, "S7", -48, -27, "from memory, ANSI B4.2 table"),
    (25, "U7", -61, -40, "from memory, ANSI B4.2 table"),
    (100, "g6", -34, -12, "from memory, ISO 286-2"),
    (40, "M7", -25, 0, "from memory, ISO 286-2"),
    (60, "K6", -15, 4, "from memory, ISO 286-2"),
    (8, "P9", -51, -15, "from memory, ISO 286-2 (keyways)"),
    (8, "N9", -36, 0, "from memory, ISO 286-2 (keyways)"),
    (8, "JS9", -18, 18, "from memory, ISO 286-2 (keyways)"),
    (2, "N9", -29, -4, "from memory, ISO 286-2 (keyways to 3 mm)"),
    (2, "K7", -10, 0, "from memory, ISO 286-2 (no delta to 3 mm)"),
    (35, "J7", -11, 14, "from memory, ISO 286-2"),
]


@pytest.mark.parametrize(("size", "symbol", "lower", "upper", "source"), BOTH)
def test_both_limits(size: float, symbol: str, lower: float, upper: float, source: str) -> None:
    """Both deviations agree with the print."""
    found = limits(size, symbol)
    assert (found.lower_um, found.upper_um) == (lower, upper), source


# size in mm, symbol, which deviation, its value in µm, where printed
ONE: list[tuple[float, str, str, float, str]] = [
    (330, "A13", "upper_um", 2090, COR),
    (100, "E8", "upper_um", 126, COR),
    (25, "R10", "upper_um", -28, COR),
    (300, "f9", "lower_um", -186, COR),
    (190, "a11", "upper_um", -660, MD215),
    (240, "b11", "upper_um", -420, MD215),
    (260, "c9", "upper_um", -300, MD215),
    (200, "d9", "upper_um", -170, MD215),
    (300, "e8", "upper_um", -110, MD215),
    (400, "f7", "upper_um", -62, MD215),
    (500, "g6", "upper_um", -20, MD215),
    (350, "j6", "lower_um", -18, MD215),
    (350, "j7", "lower_um", -28, MD215),
    (450, "k6", "lower_um", 5, MD215),
    (450, "k8", "lower_um", 0, MD215 + " (above grade 7)"),
    (450, "k3", "lower_um", 0, MD215 + " (to grade 3)"),
    (2, "P8", "upper_um", -6, EN),
    (5, "R8", "upper_um", -15, EN),
    (9, "S8", "upper_um", -23, EN),
    (18, "V8", "upper_um", -39, EN),
    (24, "Y9", "upper_um", -63, EN),
    (30, "T8", "upper_um", -41, EN),
    (50, "X10", "upper_um", -97, EN),
    (80, "Z8", "upper_um", -210, EN),
    (215, "U8", "upper_um", -258, EN + "; MD221's 256 is a misprint"),
    (10, "N9", "upper_um", 0, EN),
    (3, "N9", "upper_um", -4, EN),
    (9, "g6", "upper_um", -5, "seven prints; PAGE_MG's -8 is a misprint"),
    (25, "j5", "lower_um", -4, "BRG_J and DME33B; PAGE_MG slipped a row"),
    (40, "j6", "lower_um", -5, "BRG_J and DME33B; PAGE_MG slipped a row"),
    (60, "j6", "lower_um", -7, "BRG_J and DME33B; PAGE_MG slipped a row"),
    (5, "N7", "upper_um", -4, EN + ": -8 + delta, delta 4 for IT7 (MD221)"),
    (20, "P7", "upper_um", -14, EN + ": -22 + delta, delta 8 for IT7 (MD221)"),
]


@pytest.mark.parametrize(("size", "symbol", "which", "value", "source"), ONE)
def test_one_limit(size: float, symbol: str, which: str, value: float, source: str) -> None:
    """The printed deviation agrees."""
    assert getattr(limits(size, symbol), which) == value, source


@pytest.mark.parametrize(
    ("edge", "symbol", "at", "above"),
    [
        (3, "H7", (0, 10), (0, 12)),  # MD213: IT7 10 to 3 mm, 12 over 3
        (6, "g6", (-12, -4), (-14, -5)),  # MD213 IT6 8 and 9; g -4 and -5 (disagreements list: 7 sources)
        (18, "N9", (-43, 0), (-52, 0)),  # MD213 IT9 43 and 52; EN286N: N above grade 8 is 0
        (30, "h8", (-33, 0), (-39, 0)),  # MD213 IT8 33 and 39
        (120, "H7", (0, 35), (0, 40)),  # MD213 IT7 35 and 40
        (250, "M6", (-37, -8), (-41, -9)),  # below: from memory of ISO 286-2; above: MD219 footnote
        (315, "M6", (-41, -9), (-46, -10)),  # at: MD219 footnote; above: from memory of ISO 286-2
    ],
)
def test_a_size_on_an_edge_belongs_below(
    edge: float, symbol: str, at: tuple[float, float], above: tuple[float, float]
) -> None:
    """Ranges are 'over ... up to and including' (ISO 286-1)."""
    on, past = limits(edge, symbol), limits(edge + 0.001, symbol)
    assert (on.lower_um, on.upper_um) == at
    assert (past.lower_um, past.upper_um) == above


@pytest.mark.parametrize(
    ("size", "symbol", "near", "source"),
    [
        (20, "t6", "20 u6", "ISO 286-1: t is undefined to 24 mm (MD216, EN286N)"),
        (24, "T7", "24 U7", "ISO 286-1: T is undefined to 24 mm (EN286N)"),
        (14, "v6", "14 x6", "ISO 286-1: v is undefined to 14 mm (EN286N)"),
        (18, "Y7", "18 Z7", "ISO 286-1: Y is undefined to 18 mm (EN286N)"),
        (1, "a11", "1 c11", "ISO 286-1: a and b are not used to 1 mm (CUT256, MD215)"),
        (1, "B9", "1 C9", "ISO 286-1: A and B are not used to 1 mm (CUT256, MD215)"),
        (1, "N9", "1 N8", "ISO 286-1: N above grade 8 is not used to 1 mm (MHB6A)"),
        (1, "h14", "1 h13", "ISO 286-1: grades 14 to 16 are not used to 1 mm (MD213)"),
        (20, "K9", "20 K8", "ISO 286-1: no K above grade 8 over 3 mm (from memory)"),
    ],
)
def test_what_the_standard_does_not_define(size: float, symbol: str, near: str, source: str) -> None:
    """It is refused, with the nearest that is defined."""
    with pytest.raises(NotInTables) as caught:
        limits(size, symbol)
    assert caught.value.nearest == near, source


def test_just_above_the_gap_they_exist() -> None:
    """Above 24 mm there is t, above 14 v, above 18 y; a, N9 and grade 14 from 1 mm on (ISO 286-1)."""
    pairs = [(24.001, "t6"), (14.001, "v6"), (18.001, "Y7"), (1.001, "a11"), (1.001, "N9"), (1.001, "h14")]
    assert all(limits(size, symbol).upper_um > limits(size, symbol).lower_um for size, symbol in pairs)


def test_a_value_that_no_print_gives_says_so() -> None:
    """Shaft x from 355 to 400 mm is 660 by formula and memory; the only print (MD221) has 650."""
    found = limits(380, "x7")
    assert found.lower_um == 660
    assert "not seen in print" in found.status
    assert "MD221" in found.source
    assert "one print" in limits(300, "M6").status
    assert limits(25, "H7").status == "verified"
