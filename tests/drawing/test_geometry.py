"""Geometrical tolerances and finishes of faces on the finished sheet, in both profiles."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from setupsheet.drawing.completeness import dimensions_of, missing
from setupsheet.drawing.draw import draw
from setupsheet.drawing.ink import Dimension, Sheet, Text
from setupsheet.drawing.signs import COAXIALITY, DIAMETER, FLATNESS, PARALLELISM, POSITION, SQUARENESS
from setupsheet.drawing.words import frame_of, words_of
from setupsheet.finding import Severity
from setupsheet.part.geometry import Geometry
from setupsheet.part.part import Part
from setupsheet.solid.solids import make_solids
from setupsheet.spec.reader import read_part

SPEC = """\
format: 1
part: Test plate
number: T-01
revision: A
units: mm
material: aluminium 6082
tolerances: ISO 2768-1 m
drawing: {standard: %s}
title_block: {owner: us, drawn_by: me, approved_by: you, date: 2026-01-02}
stock: {form: plate, size: [64, 44, 13]}
size: [60, 40, 12]
datums: {A: bottom, B: left, C: front}
finish: Ra 3.2
faces:
  bottom: {finish: Ra 1.6, geometry: flatness 0.05}
  top: {geometry: parallelism 0.1 to A}
  right: {finish: as sawn}
features:
  bore: {kind: hole, at: [20, 15], fit: 10 H7, through: true, finish: Ra 0.8, geometry: perpendicularity 0.03 to A}
  step: {kind: level, area: {box: {x: [40, 60], y: [0, 40]}}, to: 8, finish: Ra 1.6}
deburr: 0.3
"""


@cache
def _drawn(folder: Path, standard: str) -> tuple[Part, tuple[Sheet, ...]]:
    path = folder / f"{standard}.yaml"
    path.write_text(SPEC % standard, encoding="utf-8")
    part, _, found = read_part(path)
    assert part is not None, found
    sheets, faults = draw(part, make_solids(part)[0].nominal)
    assert not [fault for fault in faults if fault.severity is Severity.ERROR], faults
    return part, sheets


@pytest.fixture(scope="module", params=["iso", "asme"])
def plate(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Part, tuple[Sheet, ...]]:
    """Return the plate and its sheets in a profile; drawn once, free of errors."""
    return _drawn(tmp_path_factory.mktemp("geometry"), request.param)


def _callout(sheets: tuple[Sheet, ...], feature: str) -> Dimension:
    return next(d for d in dimensions_of(sheets) if d.kind == "callout" and d.feature == feature)


def _texts(dim: Dimension) -> list[str]:
    return [s.text for s in dim.strokes if isinstance(s, Text)]


def test_zone_and_datum_stand_in_the_frames(plate: tuple[Part, tuple[Sheet, ...]]) -> None:
    """Each tolerance stands at a leader to its own face or hole: zone, then datum letter."""
    assert "0.05" in _texts(_callout(plate[1], "bottom face"))
    assert _texts(_callout(plate[1], "top face")) == ["0.1", "A"]
    bore = _texts(_callout(plate[1], "bore"))
    assert bore[-2:] == ["0.03", "A"]


def test_a_leader_ends_on_the_face_that_it_is_of(plate: tuple[Part, tuple[Sheet, ...]]) -> None:
    """The tip lies on the outermost edge of the front view: the lowest for the bottom, the highest for the top."""
    group = next(g for sheet in plate[1] for g in sheet.groups if g.name == "front")
    heights = [d for d in dimensions_of(plate[1]) if d.kind == "running" and d.angle_deg == 90.0 and d in group.items]
    ends = sorted(p[1] for d in heights for p in d.points)
    assert _callout(plate[1], "bottom face").points[0][1] == pytest.approx(ends[0], abs=1e-6)
    assert _callout(plate[1], "top face").points[0][1] == pytest.approx(ends[-1], abs=1e-6)


def test_finishes_stand_at_symbols_and_words_stay_words(plate: tuple[Part, tuple[Sheet, ...]]) -> None:
    """The general finish stands in the title block, others at their leaders, that of a level in the notes."""
    part, sheets = plate
    ra = "Ra " if part.drawing.standard == "iso" else ""
    assert f"{ra}1.6" in _texts(_callout(sheets, "bottom face"))
    assert f"{ra}0.8" in _texts(_callout(sheets, "bore"))
    assert _texts(_callout(sheets, "right face")) == ["as sawn"]
    groups = {g.name: [i.text for i in g.items if isinstance(i, Text)] for g in sheets[0].groups}
    assert f"{ra}3.2" in groups["title block"]
    assert f"{ra}1.6" in groups["notes"]


def test_a_frame_that_is_taken_away_is_missed(plate: tuple[Part, tuple[Sheet, ...]]) -> None:
    """Completeness objects to each of the three tolerances."""
    part, sheets = plate
    dims = dimensions_of(sheets)
    for feature, what in (("bottom face", "flatness"), ("top face", "parallelism"), ("bore", "perpendicularity")):
        left = [replace(d, gives=tuple(g for g in d.gives if g[:2] != (feature, what))) for d in dims]
        assert [(need.feature, need.what) for need in missing(part, left)] == [(feature, what)]


@pytest.mark.parametrize(
    ("what", "round_zone", "iso", "asme"),
    [
        ("flatness", False, FLATNESS, FLATNESS),
        ("parallelism", False, PARALLELISM, PARALLELISM),
        ("perpendicularity", True, SQUARENESS, SQUARENESS),
        ("concentricity", True, COAXIALITY, POSITION),
    ],
)
def test_signs_of_both_profiles(
    tmp_path_factory: pytest.TempPathFactory, what: str, round_zone: bool, iso: str, asme: str
) -> None:
    """ISO 1101 keeps coaxiality; ASME Y14.5-2018 dropped concentricity, a position to the axis stands for it."""
    geometry = Geometry(what, 0.05, "A", "", round_zone)
    for standard, sign in (("iso", iso), ("asme", asme)):
        part = _drawn(tmp_path_factory.getbasetemp(), standard)[0]
        assert frame_of(geometry, words_of(part)) == (sign, f"{DIAMETER if round_zone else ''}0.05", "A")
