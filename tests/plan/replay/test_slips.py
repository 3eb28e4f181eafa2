"""Each rule on numbers that contradict each other: a sound plate has none, one slip is named."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from setupsheet.plan.replay.slips import slips
from tests.plan.replay_blocks import Json, feature
from tests.plan.replay_parts import boss, plate


def _steps(plan: Json) -> list[Json]:
    rows: list[Json] = plan["setups"][0]["steps"]
    return rows


def _plate() -> Json:
    """Return the drilled plate, its holes listed with their places in the part."""
    told = plate().copy()
    places = [[10.0, 8.0, 10.0], [50.0, 8.0, 10.0], [12.0, 32.0, 10.0]]
    told["features"] = [{**feature("H", places, 6.0), "labels": ["H1", "H2", "H3"]}]
    return told


def _aside(plan: Json) -> None:
    for step in _steps(plan)[1:3]:
        step["positions"][0]["x"] += 0.01


def _two_heights(plan: Json) -> None:
    _steps(plan)[0]["moves"][1]["z"] = 0.01


def _ring(plan: Json, **more: object) -> None:
    rings = _steps(plan)[2]["rings"]
    rings.append({**rings[0], **more})


PLATE: list[tuple[str, Callable[[Json], object], str]] = [
    ("a drill of another size", lambda p: _steps(p)[2]["tool"].update(diameter_mm=6.01), "drill 6 is said to be 6.01"),
    (
        "a point of another length",
        lambda p: _steps(p)[2]["positions"][1].update(z_full=-11.18),
        "the point is 1.803 long",
    ),
    ("one hole deeper", lambda p: _steps(p)[2]["positions"][1].update(z_to=-13.01, z_full=-11.207), "ends at Z -13.01"),
    ("one pass lower", _two_heights, "it cuts at Z 0 and at Z 0.01"),
    ("a hole aside", _aside, "H1 stands 0.010 mm beside its place"),
]
BOSS: list[tuple[str, Callable[[Json], object], str]] = [
    ("two centres", lambda p: _ring(p, centre=[0.01, 0.0]), "about two centres"),
    ("two heights", lambda p: _ring(p, z_to=-8.01), "set to Z -8.01 and to Z -8"),
    ("two radii", lambda p: _ring(p, radius_inner=11.96), "radius 11.95 and to radius 11.96"),
]


@pytest.mark.parametrize(("spoil", "words"), [row[1:] for row in PLATE], ids=[row[0] for row in PLATE])
def test_a_slip_on_a_plate(spoil: Callable[[Json], object], words: str) -> None:
    """The plate agrees with itself; one slip is said once."""
    told = _plate()
    assert slips(told) == []
    spoil(told)
    assert any(words in said for said in slips(told)), slips(told)


@pytest.mark.parametrize(("spoil", "words"), [row[1:] for row in BOSS], ids=[row[0] for row in BOSS])
def test_a_slip_of_a_boring_head(spoil: Callable[[Json], object], words: str) -> None:
    """A ring that is nearly another one is a slip; the same ring again is a spring pass."""
    told = boss().copy()
    _ring(told)
    assert slips(told) == []
    spoil(told)
    assert any(words in said for said in slips(told)), slips(told)


def test_passes_over_each_other() -> None:
    """A pass aside at one height is a slip; two ways side by side at every height are a wider slot."""
    told = boss().copy()
    work = _steps(told)[0]
    assert slips(told) == []
    way = work["moves"][0]["path"]
    wider = [{**move, "path": [[x + 0.01, y] for x, y in move["path"]]} for move in work["moves"]]
    work["moves"] = [*work["moves"], *wider]
    assert slips(told) == []
    work["moves"] = [
        {**move, "path": [[x + 0.01, y] for x, y in way]} if k == 0 else move
        for k, move in enumerate(boss().copy()["setups"][0]["steps"][0]["moves"])
    ]
    assert any("do not lie over each other" in said for said in slips(told))


@pytest.mark.parametrize(
    ("label", "kind", "diameter"),
    [
        ("drill F", "drill", 6.5278),
        ("drill no. 7", "drill", 5.1054),
        ("drill 1-1/4", "drill", 31.75),
        ("end mill 3/8, 2 flutes", "end mill", 9.525),
        ("counterbore 0.438 for 1/4", "counterbore", 11.1252),
        ("reamer 12 H7", "reamer", 12.0),
        ("drill from the drawer", "drill", 3.0),
    ],
)
def test_names_of_cutters(label: str, kind: str, diameter: float) -> None:
    """Letters, numbers, fractions, inches and millimetres are read as they are sold (sizes of drills.csv)."""
    told = plate().copy()
    _steps(told)[3]["tool"].update(label=label, kind=kind, diameter_mm=diameter)
    assert not any("is said to be" in said for said in slips(told))
    _steps(told)[3]["tool"].update(diameter_mm=diameter + 0.05)
    assert any("is said to be" in said for said in slips(told)) == (label != "drill from the drawer")
