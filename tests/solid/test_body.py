"""The kernel's body: its guards, its mesh and files, and its agreement with the column function."""

from __future__ import annotations

import hashlib
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from manifold3d import Error, Manifold, Mesh64
from OCP.BRepCheck import BRepCheck_Analyzer

from setupsheet.part.face import Box, Face
from setupsheet.part.feature import EdgeCut, HoleChamfer, Level, Pocket, Slot, Spot
from setupsheet.part.part import Part
from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape, Shape, SlotShape
from setupsheet.plane import Point2
from setupsheet.solid.body import bounding_box, build, finished, stock_less, volume_mm3
from setupsheet.solid.column import metal
from setupsheet.solid.export import mesh, stl_bytes, write_step
from setupsheet.solid.volume import CircleLoop, Cone, Prism
from setupsheet.solid.volumes import envelope_volumes, finished_volumes
from tests.parts import HERE, block, hole, size
from tests.solid.bracket_part import bracket


def _codes(part: Part) -> list[tuple[str, str]]:
    return [(finding.code, finding.feature) for finding in finished(part).findings]


def test_a_feature_outside_the_stock_is_told_and_named() -> None:
    """A hole that meets no metal is an error at its own place; the rest of the part is still built."""
    far = hole(Face.TOP, (60, 15), size(6), 20, 0, "far")
    near = hole(Face.TOP, (20, 15), size(6), 20, 0, "near")
    body = finished(block(far, near))
    assert [(f.code, f.feature, f.place) for f in body.findings] == [("feature-outside-stock", "far", HERE)]
    assert volume_mm3(body) < 24000


def test_a_feature_that_others_swallow_is_a_caution() -> None:
    """A small hole in a larger one takes nothing of its own; one that reaches deeper does."""
    wide = replace(hole(Face.TOP, (20, 15), size(10), 20, 8, "wide"), through=False)
    shallow = replace(hole(Face.TOP, (20, 15), size(6), 20, 12, "small"), through=False)
    deep = hole(Face.TOP, (20, 15), size(6), 20, 0, "small")
    assert _codes(block(wide, shallow)) == [("feature-without-effect", "small")]
    assert _codes(block(wide, deep)) == []


def test_a_level_above_the_stock_is_told() -> None:
    """A level higher than the raw top cuts nothing."""
    assert _codes(block(Level("high", HERE, Face.TOP, None, size(23.5)))) == [("feature-outside-stock", "high")]


def test_a_cut_that_severs_the_part_is_told_and_named() -> None:
    """The second of two slots leaves an island loose; it is the one that is named."""
    one = Slot("one", HERE, Face.TOP, SlotShape((10, -20), (10, 50), 4), size(4), 20, size(5), 0)
    two = Slot("two", HERE, Face.TOP, SlotShape((20, -20), (20, 50), 4), size(4), 20, None, 0)
    assert _codes(block(one, two)) == [("part-in-pieces", "two")]


def test_a_part_that_is_cut_away_altogether_is_told() -> None:
    """A level below the part leaves nothing: an error that names it, and no exception."""
    assert _codes(block(Level("all", HERE, Face.TOP, None, size(-1)))) == [("nothing-left", "all")]


@pytest.mark.parametrize(
    ("shape", "code"),
    [
        (BoxShape((5, 5), (5, 25)), "no-size"),
        (CircleShape((20, 15), 0), "no-size"),
        (PolygonShape(((5, 5), (25, 25))), "no-size"),
        (PolygonShape(((5, 5), (25, 25), (28, 10), (5, 20))), "solid-invalid"),
        (PolygonShape(((5, 5), (25, 5), (25, 25), (5, 25)), 30.0), "solid-invalid"),
    ],
)
def test_a_broken_outline_becomes_a_finding(shape: Shape, code: str) -> None:
    """No width, two corners, a bow-tie, a radius larger than its sides: told, named, and left out of the body."""
    broken = Pocket("broken", HERE, Face.TOP, shape, 20, size(10), 0)
    body = finished(block(broken, hole(Face.TOP, (35, 15), size(6), 20, 0)))
    assert [(finding.code, finding.feature) for finding in body.findings] == [(code, "broken")]
    assert volume_mm3(body) == pytest.approx(24000 - np.pi * 9 * 20)


@pytest.mark.parametrize("diameter", [0.0, -3.0])
def test_a_hole_of_no_size_becomes_a_finding(diameter: float) -> None:
    """The kernel never sees a radius of nothing or less."""
    assert _codes(block(hole(Face.TOP, (20, 15), size(diameter), 20, 0))) == [("no-size", "hole")]


def test_an_edge_cut_far_from_the_part_is_told() -> None:
    """A line beyond the stock has nothing on its far side."""
    far = EdgeCut("far", HERE, Face.TOP, ((-9, 0), (-9, 30)), (-1, 0), Face.LEFT, None)
    assert _codes(block(far)) == [("feature-outside-stock", "far")]


def test_the_bodies_with_least_and_most_metal_hold_each_other() -> None:
    """Without the boss (whose limits are both below its nominal size) least < nominal < most, by the right share."""
    part = bracket()
    plain = replace(part, features=tuple(f for f in part.features if f.kind != "round boss" and f.id != "flange-level"))
    least, nominal, most = (volume_mm3(finished(plain, which)) for which in ("least", "nominal", "most"))
    assert least < nominal
    assert nominal == pytest.approx(most - _countersink_share(), abs=0.2)


def _countersink_share() -> float:
    """Return what the countersink of 8.8 leaves against the one of 9 (frustums over a 4.5 hole, 90 degrees)."""
    return sum(
        sign * np.pi * h * (r * r + r * 2.25 + 2.25**2 - 3 * 2.25**2) / 3
        for sign, r, h in ((1, 4.5, 2.25), (-1, 4.4, 2.15))
    )


def test_the_stock_in_process() -> None:
    """The stock less the envelope's slabs and the features is the finished part."""
    part = bracket()
    slabs = {face.value: (slab,) for face, slab in envelope_volumes(part).items()}
    body = stock_less(part, {**slabs, **finished_volumes(part)})
    assert body.findings == ()
    assert volume_mm3(body) == pytest.approx(volume_mm3(finished(part)), rel=1e-9)
    assert bounding_box(body).high == pytest.approx((80, 62, 15))


@pytest.mark.parametrize(("deflection", "relative"), [(0.05, 1e-3), (0.002, 5e-5)])
def test_the_mesh_is_closed_and_as_fine_as_asked(deflection: float, relative: float) -> None:
    """The other kernel takes the triangles as a sound body of nearly the exact volume."""
    body = finished(bracket())
    corners, triangles = mesh(body, deflection)
    other = Manifold(Mesh64(np.array(corners), np.array(triangles, dtype=np.uint64)))
    assert other.status() == Error.NoError
    assert other.volume() == pytest.approx(volume_mm3(body), rel=relative)


def test_a_stl_file_can_be_read_again_as_a_closed_body() -> None:
    """The binary file holds the count it says, and merging its corners closes it."""
    body = finished(bracket())
    data = stl_bytes(*mesh(body, 0.01))
    count = int.from_bytes(data[80:84], "little")
    assert len(data) == 84 + 50 * count
    record = np.dtype([("n", "<f4", 3), ("p", "<f4", (3, 3)), ("a", "<u2")])
    points = np.frombuffer(data, record, count, 84)["p"].astype(float).reshape(-1, 3).round(5)
    corners, index = np.unique(points, axis=0, return_inverse=True)
    other = Manifold(Mesh64(corners, index.reshape(-1, 3).astype(np.uint64)))
    assert other.status() == Error.NoError
    assert other.volume() == pytest.approx(volume_mm3(body), rel=2e-4)


_WRITE = """
import sys
from pathlib import Path
from setupsheet.part.face import Face
from setupsheet.solid.body import finished
from setupsheet.solid.export import mesh, stl_bytes, write_step
from tests.parts import block, hole, size
from tests.solid.bracket_part import bracket
parts = {"bracket": bracket(), "plain": block(hole(Face.TOP, (20, 15), size(6), 20, 0))}
for name in sys.argv[2].split(","):
    body = finished(parts[name])
    Path(sys.argv[1], name + ".stl").write_bytes(stl_bytes(*mesh(body, 0.002)))
    write_step(body, Path(sys.argv[1], name + ".step"), name)
"""


def _hashes(folder: Path, order: str, seed: str) -> dict[str, str]:
    folder.mkdir()
    env = {"PYTHONHASHSEED": seed, "PYTHONPATH": ":".join(path for path in sys.path if path) + ":."}
    done = subprocess.run(
        [sys.executable, "-c", _WRITE, str(folder), order], env=env, capture_output=True, text=True, check=True
    )
    assert (done.stdout, done.stderr) == ("", "")
    return {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in sorted(folder.iterdir())}


def test_files_are_the_same_in_every_process_and_order(tmp_path: Path) -> None:
    """Two processes, hash seeds and orders give equal STEP and STL, and the kernel says nothing on the way."""
    one = _hashes(tmp_path / "one", "bracket,plain", "1")
    two = _hashes(tmp_path / "two", "plain,bracket", "2")
    assert one == two
    assert len(one) == 4


def test_a_step_file_names_the_part_and_no_clock(tmp_path: Path) -> None:
    """The product carries the given name; the header's time is a fixed one."""
    write_step(finished(block()), tmp_path / "part.step", "ST-04")
    text = (tmp_path / "part.step").read_text()
    assert "PRODUCT('ST-04','ST-04'" in text
    assert "'1970-01-01T00:00:00'" in text


def test_a_folder_that_is_not_there_is_an_os_error(tmp_path: Path) -> None:
    """The writer of STEP fails in the ordinary way."""
    body = finished(block())
    with pytest.raises(OSError, match="gone"):
        write_step(body, tmp_path / "gone" / "part.step", "x")


_BRACKET_BOX = Box((0, 0, 0), (80, 62, 15))
_BRACKET_SHAPES = tuple(shape for volume in finished_volumes(bracket()).values() for shape in volume)
_BRACKET_BODY = finished(bracket())


def _pin_volume(axis: int, at: Point2, radius: float) -> float:
    """Return the kernel's volume of metal in a thin pin: the bracket less the bracket with the pin drilled out."""
    pin = Cone(axis, at, -5, 100, radius, radius)
    shapes = {"bracket": _BRACKET_SHAPES}
    drilled = build(_BRACKET_BOX, {**shapes, "pin": (pin,)})
    return volume_mm3(_BRACKET_BODY) - volume_mm3(drilled)


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 2), st.floats(0.03, 0.97), st.floats(0.03, 0.97))
def test_columns_agree_with_the_kernel(axis: int, u: float, v: float) -> None:
    """A thin pin drilled through the solid removes the column's metal times the pin's area, away from walls."""
    sizes = [extent for i, extent in enumerate(_BRACKET_BOX.size) if i != axis]
    at, radius = (u * sizes[0], v * sizes[1]), 0.05
    lengths = [
        sum(high - low for low, high in metal(_BRACKET_BOX, _BRACKET_SHAPES, axis, (at[0] + du, at[1] + dv)))
        for du in (-radius, 0, radius)
        for dv in (-radius, 0, radius)
    ]
    area = np.pi * radius**2
    found = _pin_volume(axis, at, radius) / area
    assert min(lengths) - 0.05 <= found <= max(lengths) + 0.05


def test_islands_that_cross_the_rim_of_a_prism() -> None:
    """An island half outside its area, and two that overlap, are left standing once."""
    area = Prism(2, CircleLoop((20, 15), 10), (CircleLoop((30, 15), 4), CircleLoop((30, 17), 4)), 10, 21)
    body = build(Box((0, 0, 0), (40, 30, 20)), {"area": (area,)})
    assert body.findings == ()
    whole = build(Box((0, 0, 0), (40, 30, 20)), {"area": (replace(area, islands=()),)})
    assert volume_mm3(body) > volume_mm3(whole) + 200


@pytest.mark.parametrize("columns", [7, 10])
def test_a_plate_of_many_holes(columns: int) -> None:
    """Few or many, alone or met by a slot, through holes take their discs; the slot takes what lies between them."""
    spots = tuple(Spot(f"H{i}", (8.0 + 8 * (i % columns), 8.0 + 8 * (i // columns)), 10, 0) for i in range(columns**2))
    grid = replace(hole(Face.TOP, (0, 0), size(5), 10, 0, "grid"), spots=spots)
    side = 8.0 * columns + 8
    plain = finished(block(grid, high=(side, side, 10.0)))
    assert plain.findings == ()
    left = side * side * 10 - columns**2 * np.pi * 6.25 * 10
    assert volume_mm3(plain) == pytest.approx(left)
    slot = Slot("slot", HERE, Face.TOP, SlotShape((8, 16), (16, 16), 6), size(6), 10, size(4), 0)
    chamfered = replace(grid, chamfers=(HoleChamfer(6.0, 90.0, "exit", "0.5"),))
    met = finished(block(chamfered, slot, high=(side, side, 10.0)))
    assert met.findings == ()
    cones = columns**2 * np.pi * (0.5 * (9 + 7.5 + 6.25) / 3 - 0.5 * 6.25)
    between = (8 * 6 + np.pi * 9 - 2 * np.pi * 6.25) * 6
    assert volume_mm3(met) == pytest.approx(left - cones - between)


@pytest.mark.parametrize("axis", [0, 1, 2])
def test_many_holes_put_together_are_the_holes_that_are_cut(axis: int) -> None:
    """Chamfers, counterbores and points of a hundred holes: the same body, closed and valid, cut one by one or not."""
    across = [200.0, 200.0]
    across.insert(axis, 12.0)
    box, holes = Box((0.0, 0.0, 0.0), (across[0], across[1], across[2])), {}
    for i, centre in enumerate((10.0 + 18 * u, 10.0 + 18 * v) for u in range(10) for v in range(10)):
        holes[f"hole {i}"] = (
            (Cone(axis, centre, -1, 13, 2.5, 2.5), Cone(axis, centre, 0, 0.3, 2.8, 2.5)),
            (Cone(axis, centre, -1, 13, 2.5, 2.5), Cone(axis, centre, 7, 13, 4, 4)),
            (Cone(axis, centre, 5, 13, 2.5, 2.5), Cone(axis, centre, 3.5, 5, 0, 2.5)),
            (Cone(axis, centre, -1, 7, 2.5, 2.5),),
        )[i % 4]
    together = build(box, holes)
    few = [volume_mm3(build(box, {id_: holes[id_]})) for id_ in list(holes)[:4]]
    block = across[0] * across[1] * across[2]
    assert together.findings == ()
    assert block - volume_mm3(together) == pytest.approx(25 * sum(block - volume for volume in few), rel=1e-9)
    assert BRepCheck_Analyzer(together.shape).IsValid()
    corners, triangles = mesh(together, 0.01)
    assert Manifold(Mesh64(corners, triangles.astype(np.uint64))).status() == Error.NoError
