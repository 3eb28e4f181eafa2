"""Geometrical tolerances: read as written, and refused where they contradict themselves or the part."""

from __future__ import annotations

import pytest

from setupsheet.part.face import Face
from setupsheet.part.feature import Hole
from setupsheet.part.geometry import Geometry

from .conftest import Read


def test_an_axis_gets_a_diameter_zone(read: Read) -> None:
    """ISO 1101 and ASME Y14.5: the zone of a line is a cylinder where the frame has the diameter sign."""
    part, _, found = read(more="    geometry: perpendicularity 0.03 to A\n")
    assert part is not None, found
    bore = part.features[0]
    assert isinstance(bore, Hole)
    assert bore.geometry == (Geometry("perpendicularity", 0.03, "A", "perpendicularity 0.03 to A", True),)


def test_faces_get_finish_and_tolerances(read: Read) -> None:
    """A face carries one or several tolerances, and a finish; the part a finish for all the rest."""
    more = "finish: Ra 3.2\nfaces:\n  top: {finish: Ra 0.8, geometry: [flatness 0.02, parallelism 0.05 to A]}\n"
    part, _, found = read(more=more)
    assert part is not None, found
    (top,) = part.faces
    assert (part.finish, top.face, top.finish) == ("Ra 3.2", Face.TOP, "Ra 0.8")
    assert [(g.what, g.zone_mm, g.datums, g.round_zone) for g in top.geometry] == [
        ("flatness", 0.02, "", False),
        ("parallelism", 0.05, "A", False),
    ]


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ("top: {geometry: flatness 0.05 to A}", "geometry"),
        ("top: {geometry: parallelism 0.05}", "geometry"),
        ("top: {geometry: roundness 0.05}", "geometry"),
        ("top: {geometry: flatness 0}", "geometry"),
        ("top: {geometry: concentricity 0.05 to A}", "geometry"),
        ("top: {geometry: parallelism 0.05 to K}", "unknown-datum"),
        ("top: {geometry: parallelism 0.05 to B}", "geometry-contradiction"),
        ("top: {geometry: perpendicularity 0.05 to A}", "geometry-contradiction"),
        ("bottom: {geometry: parallelism 0.05 to A}", "geometry-contradiction"),
    ],
)
def test_a_face_refuses_what_cannot_be(read: Read, words: str, code: str) -> None:
    """Flatness has no datum, the others have one; top is parallel to the bottom and square to the left side."""
    part, _, found = read(more=f"faces:\n  {words}\n")
    assert part is None
    assert code in [finding.code for finding in found]


@pytest.mark.parametrize(
    ("words", "good"),
    [
        ("perpendicularity 0.05 to A", True),
        ("parallelism 0.05 to A", False),
        ("parallelism 0.05 to B", True),
        ("perpendicularity 0.05 to B", False),
        ("concentricity 0.05 to D", False),
        ("concentricity 0.05 to E", True),
        ("concentricity 0.05 to A", False),
        ("parallelism 0.05 to D", True),
        ("flatness 0.05", False),
    ],
)
def test_an_axis_refuses_what_cannot_be(read: Read, words: str, good: bool) -> None:
    """An axis from top to bottom is square to the bottom, parallel to the left side, and to a hole beside it."""
    more = f"""    geometry: {words}
  beside: {{kind: hole, at: [40, 15], drill: 6, through: true}}
  seat: {{kind: pocket, area: {{circle: {{at: [20, 15], diameter: 16}}}}, depth: 3}}
  below: {{kind: hole, at: [20, 15], from: bottom, drill: 9, depth: 2}}
"""
    datums = ("datums: {A: bottom, B: left, C: front}", "datums: {A: bottom, B: left, C: front, D: beside, E: below}")
    found = read(datums, more=more)[2]
    said = [finding.code for finding in found if finding.code.startswith("geometry")]
    assert bool(said) is not good, said
