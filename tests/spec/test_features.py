"""Features: what each kind of text becomes."""

from __future__ import annotations

from typing import TypeVar

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.part.face import Face
from setupsheet.part.feature import (
    BoltCircle,
    CornerRadius,
    EdgeChamfer,
    EdgeCut,
    Feature,
    Hole,
    Pocket,
    RingGroove,
    Slot,
)
from setupsheet.part.part import Part
from setupsheet.plane import distance
from setupsheet.spec.build_pattern import on_circle

from .conftest import Read

Kind = TypeVar("Kind", bound=Feature)


def built(read: Read, text: str, kind: type[Kind], *, before: str = "") -> Kind:
    """Return the one feature ``new`` that is added to the plate, cut without an error."""
    return added(read, text, before).feature_of(kind)


class Added:
    """The plate with one more feature, called ``new``."""

    def __init__(self, part: Part) -> None:
        self.part = part

    def feature_of(self, kind: type[Kind]) -> Kind:
        """Return the feature as the record that it should be."""
        feature = self.part.feature("new")
        assert isinstance(feature, kind)
        return feature


def added(read: Read, text: str, before: str = "") -> Added:
    """Return the plate with features added: ``before`` as they are, ``text`` as ``new``."""
    lines = [f"  {line}" for line in before.splitlines()] + ["  new:"] + [f"    {line}" for line in text.splitlines()]
    part, _, found = read(more="\n".join(lines) + "\n")
    assert part is not None, found
    return Added(part)


STEP = "step:\n  kind: level\n  area: {box: {x: [30, 60], y: [0, 40]}}\n  to: 9"


def test_blind_tapped_hole(read: Read) -> None:
    """Depth counts from the finished surface: in the step it starts at 9."""
    hole = built(read, "kind: hole\nat: [50, 20]\ntap: M5\ndepth: 5\ndrill-depth: 7", Hole, before=STEP)
    assert (hole.spots[0].mouth_mm, hole.spots[0].exit_mm) == (9, 4)
    assert hole.drill_depth_mm == 7
    assert hole.making == "tap"


def test_hole_from_below(read: Read) -> None:
    """A hole from below keeps the coordinates of the main view; its depth counts upwards."""
    hole = built(read, "kind: hole\nfrom: bottom\nat: [50, 30]\ndrill: 4\ndepth: 5", Hole)
    assert hole.spots[0].at == (50, 30)
    assert (hole.spots[0].mouth_mm, hole.spots[0].exit_mm) == (0, 5)


def test_hole_from_a_side(read: Read) -> None:
    """On a side face the axes are named; depth counts inward from that face."""
    hole = built(read, "kind: hole\nfrom: right\nat: {y: 30, z: 6}\ndrill: 4\ndepth: 5", Hole)
    assert hole.face is Face.RIGHT
    assert hole.spots[0].at == (30, 6)
    assert (hole.spots[0].mouth_mm, hole.spots[0].exit_mm) == (60, 55)


def test_height_decides_where_two_surfaces_meet(read: Read) -> None:
    """On the edge of a step the author says from which height the depth counts."""
    text = "kind: hole\nat: [30, 30]\ndrill: 4\ndepth: 5"
    hole = built(read, f"{text}\nheight: 9", Hole, before=STEP)
    assert (hole.spots[0].mouth_mm, hole.spots[0].exit_mm) == (9, 4)


def test_mouth_on_two_heights(read: Read) -> None:
    """Without a height that is a finding."""
    lines = [*STEP.splitlines(), "new:", "  kind: hole", "  at: [30, 30]", "  drill: 4", "  depth: 5"]
    found = read(more="".join(f"  {line}\n" for line in lines))[2]
    assert [finding.code for finding in found] == ["mouth-on-two-heights"]
    assert found[0].feature == "new"


def test_mouth_on_a_bevel(read: Read) -> None:
    """A mouth that meets a bevel lies on a slope."""
    lines = ["rim:", "  kind: edge chamfer", "  sides: all", "  size: 3"]
    lines += ["new:", "  kind: hole", "  at: [57, 30]", "  drill: 4", "  depth: 5"]
    found = read(more="".join(f"  {line}\n" for line in lines))[2]
    assert [finding.code for finding in found] == ["mouth-on-slope"]


def test_clearance_default_room_is_recorded(read: Read) -> None:
    """The room of a clearance hole is medium where nothing is written, and that is recorded."""
    part = added(read, "kind: hole\nat: [50, 30]\nclearance: M4\nthrough: true").part
    assert ("features/new/clearance", "medium") in [(default.path, default.value) for default in part.defaults]


def test_fit_by_what_it_is_for(read: Read) -> None:
    """A word for a fit becomes the hole of a preferred fit, and what it came to is recorded."""
    part = added(read, "kind: hole\nat: [50, 30]\nfit: 8 slide\nthrough: true").part
    hole = part.feature("new")
    assert isinstance(hole, Hole)
    assert hole.callout == "8 H7"
    assert (hole.diameter.lower_mm, hole.diameter.upper_mm) == (8.0, 8.015)  # ISO 286-2, H7 over 6 to 10: 0 to +15 µm
    assert next(default.value for default in part.defaults if default.path == "features/new/fit").startswith("8 H7/")


def test_inch_fit(read: Read) -> None:
    """1/2 RC4: hole 0 to +0.0010 in over 0.40 to 0.71 in (ANSI B4.1, H8)."""
    hole = built(read, "kind: hole\nat: [50, 30]\nfit: 0.5000 RC4\nthrough: true", Hole)
    assert hole.diameter.lower_mm == 12.7
    assert hole.diameter.upper_mm == pytest.approx(0.501 * 25.4, abs=1e-4)
    assert hole.diameter.fit == "RC4"


def test_counterbore_for_a_screw(read: Read) -> None:
    """M5: counterbore 10 (DIN 974-1 series 1), clearance 5.5 (ISO 273 medium)."""
    hole = built(read, "kind: hole\nat: [50, 30]\nclearance: M5 medium\nthrough: true\ncounterbore: {for: M5}", Hole)
    assert hole.diameter.nominal_mm == 5.5
    assert hole.counterbore is not None
    assert hole.counterbore.diameter.nominal_mm == 10
    assert hole.counterbore.screw == "M5"


def test_chamfer_ends(read: Read) -> None:
    """0.5 is 0.5 x 45 degrees; ``to`` gives the diameter; ends by name."""
    text = "kind: hole\nat: [50, 30]\ndrill: 6\nthrough: true\nchamfer: {}"
    one = built(read, text.format("0.5"), Hole).chamfers
    assert [(chamfer.diameter_mm, chamfer.end) for chamfer in one] == [(7, "mouth")]
    both = built(read, text.format("to 6.8 both ends"), Hole).chamfers
    assert [(chamfer.diameter_mm, chamfer.end) for chamfer in both] == [(6.8, "mouth"), (6.8, "exit")]
    below = built(read, text.format("0.3 bottom"), Hole).chamfers
    assert [chamfer.end for chamfer in below] == ["exit"]


@pytest.mark.parametrize(
    ("pattern", "places"),
    [
        ("{bolt-circle: 20, centre: [40, 20], count: 4, start: 0}", [(50, 20), (40, 30), (30, 20), (40, 10)]),
        ("{bolt-circle: 20, centre: [40, 20], count: 3, start: 0, arc: 180}", [(50, 20), (40, 30), (30, 20)]),
        ("{bolt-circle: 20, centre: [40, 20], count: 4, start: 0, skip: [2, 4]}", [(50, 20), (30, 20)]),
        ("{line: {from: [35, 10], dx: 8, count: 3}}", [(35, 10), (43, 10), (51, 10)]),
        ("{grid: {from: [35, 10], dx: 8, dy: 9, columns: 2, rows: 2}}", [(35, 10), (43, 10), (35, 19), (43, 19)]),
        ("{list: [[35, 10], [50, 30]]}", [(35, 10), (50, 30)]),
        ("{mirror: [[50, 8], [50, 20]], about: {y: 20}}", [(50, 8), (50, 20), (50, 32)]),
    ],
)
def test_patterns(read: Read, pattern: str, places: list[tuple[float, float]]) -> None:
    """Each kind of pattern puts its holes where its words say."""
    hole = built(read, f"kind: hole\npattern: {pattern}\ndrill: 3\nthrough: true\nlabel: Q", Hole)
    assert [spot.at for spot in hole.spots] == places
    assert [spot.label for spot in hole.spots] == [f"Q{number}" for number in range(1, len(places) + 1)]


def test_angle_on_a_side_face(read: Read) -> None:
    """Angles run counter-clockwise for somebody who faces the side: at the back 0 degrees points to -X."""
    pattern = "pattern: {{bolt-circle: 6, centre: {{x: 40, z: 6}}, count: 1, start: 0}}"
    text = "kind: hole\nfrom: {}\n" + pattern + "\ndrill: 2\ndepth: 3"
    assert built(read, text.format("front"), Hole).spots[0].at == (43, 6)
    assert built(read, text.format("back"), Hole).spots[0].at == (37, 6)


def test_pocket_by_depth(read: Read) -> None:
    """A depth becomes a floor with the depth's own limits."""
    pocket = built(
        read, "kind: pocket\narea: {box: {x: [34, 50], y: [10, 30]}}\ndepth: 4 ±0.05\ncorner-radius: 4", Pocket
    )
    assert pocket.floor is not None
    assert (pocket.mouth_mm, pocket.floor.nominal_mm) == (12, 8)
    assert (pocket.floor.lower_mm, pocket.floor.upper_mm) == (7.95, 8.05)
    assert pocket.depth is not None
    assert pocket.depth.written == "4 ±0.05"


def test_window(read: Read) -> None:
    """A window goes right through; a polygon carries its corner radius."""
    text = "kind: pocket\narea: {polygon: [[34, 10], [54, 10], [44, 30]]}\nthrough: true\ncorner-radius: 2"
    pocket = built(read, text, Pocket)
    assert pocket.floor is None
    assert (pocket.mouth_mm, pocket.exit_mm) == (12, 0)


def test_slot_runs_out(read: Read) -> None:
    """A slot whose centre lies beyond the edge is open there."""
    slot = built(read, "kind: slot\ncentres: [[50, 20], [70, 20]]\nwidth: 8 H9\nto: 6", Slot)
    assert slot.shape.end == (70, 20)
    assert (slot.mouth_mm, slot.width.fit) == (12, "H9")
    assert slot.floor is not None
    assert slot.floor.nominal_mm == 6


def test_ring_groove(read: Read) -> None:
    """A groove by its two diameters and its depth."""
    groove = built(read, "kind: ring groove\nat: [42, 20]\ninner: 16\nouter: 20 ±0.1\ndepth: 1.5 ±0.05", RingGroove)
    assert (groove.inner.nominal_mm, groove.outer.upper_mm, groove.floor.nominal_mm) == (16, 20.1, 10.5)


def test_slanted_cut_looks_to_the_side_that_goes(read: Read) -> None:
    """The direction is a unit vector square to the line."""
    cut = built(read, "kind: edge cut\nline: [[50, 40], [60, 30]]\nremove: back right\ntolerance: ±0.2", EdgeCut)
    assert cut.towards == pytest.approx((0.5**0.5, 0.5**0.5))
    assert cut.side is None
    assert cut.tolerance is not None
    assert (cut.tolerance.lower_mm, cut.tolerance.upper_mm) == (-0.2, 0.2)


def test_corner_radius_finds_its_centre(read: Read) -> None:
    """Without a centre the radius touches both sides, and that is recorded."""
    corner = built(read, "kind: corner radius\nradius: 5\ncorner: back left", CornerRadius)
    assert corner.centre == (5, 35)
    assert corner.quadrant == (-1, 1)


def test_all_sides(read: Read) -> None:
    """``all`` means the four edges of the face."""
    assert set(built(read, "kind: edge chamfer\nsides: all\nsize: 1", EdgeChamfer).sides) == {
        Face.LEFT,
        Face.RIGHT,
        Face.FRONT,
        Face.BACK,
    }


def test_default_label_is_a_free_letter(read: Read) -> None:
    """The first free letter of the id labels a hole; a letter that somebody wrote is not free."""
    part = added(read, "kind: hole\nat: [50, 30]\ndrill: 4\nthrough: true\nlabel: B").part
    labels = [spot.label for feature in part.features if isinstance(feature, Hole) for spot in feature.spots]
    assert labels == ["O1", "B1"]
    assert ("features/bore/label", "O1") in [(default.path, default.value) for default in part.defaults]


def test_long_label_stands_alone(read: Read) -> None:
    """A longer label of a single hole is printed as it is."""
    hole = built(read, "kind: hole\nat: [50, 30]\ndrill: 4\nthrough: true\nlabel: pin", Hole)
    assert hole.spots[0].label == "pin"


def test_label_twice(read: Read) -> None:
    """No two holes share a label."""
    text = "  new:\n    kind: hole\n    at: [50, 30]\n    drill: 4\n    through: true\n    label: X\n"
    found = read(("    through: true\n", "    through: true\n    label: X1\n"), more=text)[2]
    assert [finding.code for finding in found] == ["label-twice"]


def test_points_from_points(read: Read) -> None:
    """A point by offset and one by radius and angle; a feature's place counts as a point."""
    points = "points: {a: [30, 10], b: {from: a, dx: 5, dy: =2*3}, c: {from: bore, radius: 10, angle: 90}}\n"
    part = read(("features:\n", points + "features:\n"))[0]
    assert part is not None
    assert part.points == {"a": (30, 10), "b": (35, 16), "c": (20, 25)}


def test_shared_pattern_from_an_included_file(read: Read) -> None:
    """Two parts that include one ring agree by construction."""
    ring = "format: 1\nunits: mm\nparameters: {pcd: 16}\npatterns:\n  cover: {bolt-circle: =pcd, count: 3, start: 20}\n"
    text = "  new:\n    kind: hole\n    pattern: {use: cover, centre: [45, 20]}\n    tap: M3\n    through: true\n"
    part, _, found = read(("shop: shop.yaml", "shop: shop.yaml\ninclude: ring.yaml"), more=text, ring=ring)
    assert part is not None, found
    hole = part.feature("new")
    assert isinstance(hole, Hole)
    assert len(hole.spots) == 3
    assert part.files_read == ("plate.yaml", "ring.yaml")


@pytest.mark.parametrize(
    ("ring", "code"),
    [
        ("format: 1\nunits: inch\nparameters: {pcd: 16}\n", "units-differ"),
        ("format: 1\nunits: mm\nfeatures:\n  bore: {kind: mark, at: [1, 1], note: x}\n", "included-twice"),
        ("format: 1\nunits: mm\nsetups: []\n", "unknown-key"),
        ("- 1\n", "not-a-spec"),
        ("format: 1\nunits: mm\ninclude: ring.yaml\n", "include-circle"),
        ("format: 1\nunits: mm\ninclude: ../other.yaml\n", "path-outside-project"),
        ("format: 1\nunits: mm\ninclude: gone.yaml\n", "file-not-read"),
    ],
)
def test_included_file_faults(read: Read, ring: str, code: str) -> None:
    """What is wrong in an included file is told at its own place."""
    found = read(("shop: shop.yaml", "shop: shop.yaml\ninclude: ring.yaml"), ring=ring)[2]
    errors = [finding for finding in found if finding.severity == "error"]
    assert [finding.code for finding in errors] == [code]
    assert errors[0].place is not None
    assert errors[0].place.file.endswith("ring.yaml")


@given(st.integers(1, 60), st.floats(2, 400), st.floats(-360, 360), st.sampled_from(Face))
def test_bolt_circle_properties(count: int, pcd: float, start: float, face: Face) -> None:
    """Every hole lies on the circle and neighbours are one chord apart: PCD x sin(180/count)."""
    circle = BoltCircle((10.0, 20.0), pcd, count, start)
    places = on_circle(circle, face)
    assert len(places) == count
    assert all(abs(distance(circle.centre, place) - pcd / 2) < 1e-8 for place in places)
    chords = [distance(a, b) for a, b in zip(places, places[1:] + places[:1], strict=True)]
    assert max(chords) - min(chords) < 1e-7
