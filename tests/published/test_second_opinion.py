"""A second opinion on threads, clearance holes, drills and heads: the tables of a general-purpose library.

Where it differs, the difference stands here with the print that decides; nothing else may differ.
"""

from __future__ import annotations

import pytest

from setupsheet.tables import clearance, drills, loader, screws, tapping, threads
from setupsheet.tables.unknown import NotInTables
from tests.published.second_opinion import rows

ROOM = {"Close": "fine", "Normal": "medium", "Loose": "coarse"}

OTHER_CLEARANCE = {
    # ISO 273:1979 prints 13.5 14.5, 15.5 16.5, 17.5 18.5; theirs is half a millimetre more.
    *((screw, column) for screw in ("M12", "M14", "M16") for column in ("Normal", "Loose")),
    # The handbook that prints this size has two kinds; the looser is their normal one.
    ("#12", "Loose"),
}

OTHER_TAP_DRILL = {
    # Outside the minor diameter's limits of class 6H or 2B, as the charts that print them are known to be.
    *("M21x2", "M22"),  # 18 and 18.5 fit a coarser pitch than 2 and 2.5
    *("9/16-18 UNF", "1-12 UNF"),  # above the 2B maximum
    *("9/16-24 UNEF", "5/8-24 UNEF", "11/16-24 UNEF"),  # below the 2B minimum
}


def _mm(text: str, screw: str) -> float | None:
    """Return a size of theirs in mm: a drill's name, or a number in the screw's own system; None for others."""
    try:
        number = float(text)
    except ValueError:
        try:
            return drills.named(text)[0]
        except NotInTables:
            return None
    return number if screw.startswith("M") else number * 25.4


def _screw(size: str) -> str:
    """Return the screw of a row, '' for one that our tables do not hold (a bare 2 or 3 are inches there)."""
    name = clearance.screw_name(size) if size not in ("2", "3", "4") else ""
    return name if name in clearance.screws() else ""


def test_drills() -> None:
    """Number, letter and fractional drills agree to a thousandth of an inch."""
    for row in rows("drill_sizes"):
        name = f"no. {row['Size']}" if row["Size"].isdigit() and row["Size"] != "1" else row["Size"]
        if "/" in name or name.startswith("no.") or name.isalpha():
            assert drills.named(name)[0] == pytest.approx(float(row["Diameter"]) * 25.4, abs=0.02), name


def test_clearance_holes() -> None:
    """Every clearance hole that both have is the same, but for those that are named above."""
    other, seen = set(), 0
    for row in rows("clearance_hole_sizes"):
        screw = _screw(row["Size"])
        for column, room in ROOM.items() if screw else ():
            theirs = _mm(row[column], screw)
            if theirs is not None:
                seen += 1
                if abs(clearance.hole(screw, room)[0] - theirs) > 0.03:
                    other.add((screw, column))
    assert seen > 80
    assert other == OTHER_CLEARANCE


def test_tap_drills_for_soft_material() -> None:
    """Their drill for soft material lies inside the limits of the minor diameter, but for those named above."""
    other, seen = set(), 0
    for row in rows("tap_hole_sizes"):
        head, _, pitch = row["Size"].partition("-")
        try:
            thread = threads.find(f"{head}x{pitch}" if head.startswith("M") else row["Size"])
        except NotInTables:
            continue
        theirs, (low, high) = _mm(row["Soft"], head), threads.minor_limits_mm(thread)
        assert theirs is not None, row
        seen += 1
        if not low - 0.01 <= theirs <= high + 0.01:
            other.add(thread.designation)
        else:
            ours = tapping.tap_drill(thread)
            percent = threads.percent(thread, theirs)
            assert percent is not None
            assert ours[1] == pytest.approx(percent, abs=13), thread.designation
    assert seen > 80
    assert other == OTHER_TAP_DRILL


def test_pipe_threads() -> None:
    """Major and minor diameters of the straight pipe threads, with the tolerance of the minor one (ISO 228-1)."""
    seen = 0
    for row in rows("iso_228_1"):
        try:
            thread = threads.find(f"G{row['size']}")
        except NotInTables:
            continue
        seen += 1
        low = float(row["minor_diameter"])
        assert thread.major_mm == pytest.approx(float(row["major_diameter"]), abs=1e-3)
        assert threads.minor_limits_mm(thread) == pytest.approx(
            (low, low + float(row["internal_minor_tolerance"])), abs=1.1e-3
        )
    assert seen >= 5


def test_socket_heads() -> None:
    """Heads agree: ours is the plain head of ISO 4762, theirs the knurled one, up to 0.4 mm wider; inches are equal."""
    seen = 0
    for row in rows("socket_head_cap_parameters"):
        screw = _screw(row["Size"].split("-")[0])
        for standard, wider in (("iso4762", 0.4), ("asme_b18.3", 0.02)):
            if not screw or not row[f"{standard}:dk"]:
                continue
            width, height = (_mm(row[f"{standard}:{key}"], screw) or 0.0 for key in ("dk", "k"))
            ours, bore = screws.head(screw), screws.counterbore(screw)[0]
            seen += 1
            assert -0.02 <= width - ours.diameter_mm <= wider, screw
            assert height == pytest.approx(ours.height_mm, abs=0.02), screw
            assert width < bore, screw
    assert seen > 25


def test_countersunk_heads() -> None:
    """Their head is the real one with its edge broken, ours the sharp corner (ISO 10642): never smaller."""
    seen = 0
    for row in rows("countersunk_head_parameters"):
        screw, theirs = _screw(row["Size"].split("-")[0]), row["iso10642:dk"]
        if screw in {one["screw"] for one in loader.rows("countersinks")} and theirs:
            seen += 1
            assert 1.0 < screws.flat_head(screw).diameter_mm / float(theirs) < 1.15, screw
            assert screws.countersink(screw)[0] > float(theirs), screw
    assert seen > 8
