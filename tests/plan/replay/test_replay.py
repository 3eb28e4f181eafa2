"""The replay as a whole: meshes in, verdict out; leftovers, work that is not proved, bad meshes."""

from __future__ import annotations

import math
import struct
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setupsheet.plan.record import as_json
from setupsheet.plan.replay.metal import from_mesh
from setupsheet.plan.replay.replay import MeshData, MeshError, bodies_after, read_stl, replay
from tests.plan.replay_blocks import (
    DRO,
    Block,
    Json,
    block,
    drill,
    end_mill,
    feature,
    mesh,
    move,
    plan,
    position,
    rod,
    setup,
    shifted,
    step,
)
from tests.plan.replay_parts import end_cut, plate, turned_over


def _stl(data: MeshData) -> bytes:
    rows = [b"\0" * 80, struct.pack("<I", len(data.triangles))]
    for corners in data.triangles:
        values = [0.0, 0.0, 0.0, *(value for corner in corners for value in data.vertices[corner])]
        rows.append(struct.pack("<12fH", *values, 0))
    return b"".join(rows)


def test_limit_bodies_from_files(tmp_path: Path) -> None:
    """Binary STL with float32 corners gives the same verdict as the meshes."""
    made = end_cut()
    (tmp_path / "least.stl").write_bytes(_stl(made.least))
    (tmp_path / "most.stl").write_bytes(_stl(made.most))
    verdict = replay(made.plan, read_stl(tmp_path / "least.stl"), read_stl(tmp_path / "most.stl"))
    assert verdict.proved, verdict.words


@pytest.mark.parametrize("raw", [b"", b"solid text\nendsolid\n", b"\0" * 80 + b"\2\0\0\0" + b"\0" * 50])
def test_a_file_that_is_no_binary_stl(tmp_path: Path, raw: bytes) -> None:
    """Empty, text and short files are refused with their name."""
    (tmp_path / "bad.stl").write_bytes(raw)
    with pytest.raises(MeshError, match=r"bad\.stl"):
        read_stl(tmp_path / "bad.stl")


def test_a_mesh_with_a_hole_is_an_objection(tmp_path: Path) -> None:
    """A limit body that is not closed stops the cutting and is said; as a file it is refused."""
    made = end_cut()
    open_ = MeshData(made.most.vertices, made.most.triangles[:-1])
    verdict = replay(made.plan, made.least, open_)
    assert verdict.objections == ("the mesh of the most part is not a closed body",)
    (tmp_path / "open.stl").write_bytes(_stl(open_))
    with pytest.raises(MeshError, match="closed"):
        read_stl(tmp_path / "open.stl")


def test_same_plan_same_verdict() -> None:
    """Two runs give equal verdicts, faults included."""
    made = turned_over()
    spoiled = made.copy()
    spoiled["setups"][0]["steps"][0]["positions"][0]["x"] += 0.05
    verdicts = [as_json(replay(spoiled, made.least, made.most)) for _ in range(2)]
    assert verdicts[0] == verdicts[1]


def test_the_replay_ignores_its_own_verdict() -> None:
    """A verdict that stands in the plan changes nothing."""
    made = end_cut()
    told = {**made.copy(), "replay": {"proved": False, "words": ["no"]}}
    assert replay(told, made.least, made.most).proved


def test_metal_after_each_setup() -> None:
    """After the first setup of the turned part the step from the top is still there, loose more than tight."""
    told = turned_over().plan
    most, least = ([from_mesh(data, "body").volume() for data in bodies_after(told, sign)] for sign in (-1, 1))
    for high, low, setup_ in zip(most, least, told["setups"], strict=True):
        assert low < setup_["volume_after_mm3"] < high
    assert most[0] - most[1] == pytest.approx(25 * 30 * 6 - math.pi * 6.25 * 6, rel=0.01)


def test_a_hole_that_was_forgotten() -> None:
    """Its metal is left, no cutter came near, and the feature is named."""
    made = plate()
    told = made.copy()
    told["features"] = [feature("F", [[10.0, 8.0, 10.0]], 6.0)]
    for told_step in told["setups"][0]["steps"][1:3]:
        told_step["positions"] = told_step["positions"][1:]
    verdict = replay(told, made.least, made.most)
    assert [piece["features"] for piece in verdict.left] == [["F"]]
    assert verdict.left[0]["volume_mm3"] == pytest.approx(math.pi * 9 * 10, rel=0.02)
    assert "no step's cutter comes there" in verdict.left[0]["words"]


def _unproved(region: list[list[float]] | None) -> tuple[Block, Json]:
    made = end_cut()
    told = made.copy()
    told["setups"][0]["steps"][2].update(
        method="by_hand", moves=[], limits=[], z_shown=[], not_proved="the left end is sawn and filed"
    )
    if region:
        told["setups"][0]["steps"][2]["region_mm"] = region
    return made, told


def test_work_that_is_not_proved() -> None:
    """Its metal is named as not proved where the step's region is, and only there."""
    made, told = _unproved([[-2.1, -0.1, -0.1], [0.1, 30.1, 15.1]])
    told["setups"][0]["volume_after_mm3"] += 2 * 30 * 15
    verdict = replay(told, made.least, made.most)
    assert verdict.proved, verdict.words
    assert len(verdict.not_proved) == 1
    assert any("Not proved (setup 1 step 3, the left end is sawn and filed)" in words for words in verdict.words)
    told["setups"][0]["steps"][2]["region_mm"] = [[60.0, 0.0, 0.0], [70.0, 30.0, 15.0]]
    assert replay(told, made.least, made.most).left


def test_not_proved_without_a_region_is_where_the_feature_is() -> None:
    """Without a region the places of the step's features count; a feature elsewhere does not."""
    made = plate()
    told = made.copy()
    told["features"] = [feature("H", [[10.0, 8.0, 10.0]], 6.2)]
    for told_step in told["setups"][0]["steps"][1:3]:
        told_step["positions"] = told_step["positions"][1:]
    told["setups"][0]["steps"].append(step(6, "drill", ["H"], None, method="by_hand", not_proved="H1 at the bench"))
    assert replay(told, made.least, made.most).not_proved
    told["features"] = [feature("H", [[30.0, 8.0, 10.0]], 6.2)]
    assert replay(told, made.least, made.most).left


def _scalloped(pitch: float, bound: float) -> Block:
    """Return a block whose front is made by plunges of a 10 mm end mill, ``pitch`` apart, ridges left."""
    leftover = {"kind": "cusp", "features": ["front"], "bound_mm": bound, "words": "file"}
    work = step(1, "plunge", ["front"], end_mill(10.0), method="by_points", leftover=[leftover])
    count = math.ceil(44 / pitch)
    work["positions"] = [position(DRO, "", (-2 + pitch * k, -5.0), (1.0, -9.0)) for k in range(count + 1)]
    lying = setup(DRO, 1, ("top", "back"), shifted(0, 0, 8), steps=[work])
    part = block((0, 0, 0), (40, 20, 8))
    half = pitch / 2
    ridge = pitch * 5 - 25 * math.asin(half / 5) - half * math.sqrt(25 - half**2)  # area left per pitch
    told = plan(((0, -2, 0), (40, 20, 8)), [lying], [(40 * 20 + ridge * 40 / pitch) * 8])
    return Block(told, mesh(part), mesh(part))


@pytest.mark.parametrize("pitch", [1.0, 2.0, 3.0])
def test_ridges_between_plunges(pitch: float) -> None:
    """The ridge of a row of plunges is r - sqrt(r^2 - (pitch/2)^2): explained at that bound, not at 0.7 of it."""
    ridge = 5 - math.sqrt(25 - pitch**2 / 4)
    made = _scalloped(pitch, ridge)
    verdict = replay(made.plan, made.least, made.most)
    assert verdict.proved, verdict.words
    assert len(verdict.explained) == 1
    small = _scalloped(pitch, 0.7 * ridge - 0.006)
    assert replay(small.plan, small.least, small.most).left
    large = _scalloped(pitch, ridge + 0.02)
    assert any("leave at most" in words for words in replay(large.plan, large.least, large.most).objections)


@pytest.mark.parametrize("kind", ["by_hand", "inside_corner"])
def test_a_named_leftover_must_cover_the_depth(kind: str) -> None:
    """A step held 0.05 short is explained by a bound of 0.05, not by one of 0.03 or by another step's."""
    made = turned_over()
    told = made.copy()
    work = told["setups"][1]["steps"][0]
    for cut in work["moves"]:
        cut["z"] = 6.05
    work["z_shown"] = [DRO.text(6.05, "z")]
    assert replay(told, made.least, made.most).left
    work["leftover"] = [{"kind": kind, "features": ["step"], "bound_mm": 0.05, "words": ""}]
    verdict = replay(told, made.least, made.most)
    assert verdict.proved
    assert len(verdict.explained) == 1
    work["leftover"][0]["bound_mm"] = 0.03
    assert replay(told, made.least, made.most).left
    work["leftover"] = []
    told["setups"][0]["steps"][1]["leftover"] = [{"kind": kind, "features": ["relief"], "bound_mm": 0.05, "words": ""}]
    assert replay(told, made.least, made.most).left


def test_a_bound_larger_than_cutter_and_path_leave_is_refused() -> None:
    """Corner 0.414 of the radius, drill point 0.3 of the diameter, cusp of the spacing; unknown kinds."""
    for kind, allowed in (("inside_corner", 8 * (math.sqrt(2) - 1)), ("drill_point", 0.0), ("rust", 0.0)):
        made = turned_over()
        told = made.copy()
        leftover = {"kind": kind, "features": ["step"], "bound_mm": allowed + 0.05, "words": ""}
        told["setups"][1]["steps"][0]["leftover"] = [leftover]
        assert replay(told, made.least, made.most).objections
    told["setups"][0]["steps"][0]["leftover"] = [{**leftover, "kind": "drill_point", "bound_mm": 1.6}]
    assert any("1.502" in words for words in replay(told, made.least, made.most).objections)


def test_a_wide_machine_is_told() -> None:
    """Above 0.05 mm the verdict says that this machine cannot hold better."""
    made = end_cut()
    told = made.copy()
    for axis in "xyz":
        told["setups"][0]["readout"][axis]["step_mm"] = 0.1
    words = replay(told, made.least, made.most).words
    assert any("cannot hold better than 0.073" in line for line in words)


@settings(max_examples=6, deadline=None)
@given(
    places=st.lists(st.tuples(st.integers(0, 5), st.integers(0, 3)), min_size=1, max_size=8, unique=True),
    diameter=st.sampled_from([2.0, 4.5, 6.0]),
    spoiled=st.integers(0, 7),
    by=st.tuples(st.sampled_from([-2, 0, 2]), st.sampled_from([-2, 0, 2])).filter(any),
)
def test_random_plates(places: list[tuple[int, int]], diameter: float, spoiled: int, by: tuple[int, int]) -> None:
    """Any plate of drilled holes is proved; with one hole two steps aside, texts along, it never is."""
    at = [(8.0 + 9.123 * i, 8.0 + 9.456 * j) for i, j in places]
    holes = [position(DRO, f"H{k}", place, (1.0, -12.0)) for k, place in enumerate(at)]
    work = step(1, "drill", ["H"], drill(diameter), positions=holes)
    part = block((0, 0, 0), (62, 45, 8))
    least, most = part, part
    for x, y in at:
        least, most = least - rod(x, y, diameter + 0.1, -1, 9), most - rod(x, y, diameter, -1, 9)
    lying = setup(DRO, 1, ("top", "back"), shifted(0, 0, 8), steps=[work])
    volume = 62 * 45 * 8 - len(at) * math.pi * diameter**2 / 4 * 8
    told = plan(((0, 0, 0), (62, 45, 8)), [lying], [volume])
    assert replay(told, mesh(least), mesh(most)).proved
    index = spoiled % len(at)
    true = at[index]
    work["positions"][index] = position(
        DRO, f"H{index}", (true[0] + by[0] * 0.01, true[1] + by[1] * 0.01), (1.0, -12.0)
    )
    verdict = replay(told, mesh(least), mesh(most))
    assert verdict.left
    assert not verdict.gouge


def test_a_round_bar() -> None:
    """A round blank: a 30 mm bar, its end faced, a hole up its middle."""
    face = step(1, "face", ["top"], end_mill(40.0), moves=[move("outside", 0.0, [(-50.0, 0.0), (50.0, 0.0)])])
    hole = step(2, "drill", ["H"], drill(8.0), positions=[position(DRO, "H1", (0.0, 0.0), (1.0, -25.0))])
    lying = setup(DRO, 1, ("top", "back"), shifted(0, 0, 20), steps=[face, hole])
    part = rod(0, 0, 30.0, 0, 20) - rod(0, 0, 8.0, -1, 21)
    told = plan(((-15, -15, 0), (15, 15, 21)), [lying], [math.pi * (225 - 16) * 20])
    told["stock"]["form"] = "round bar"
    told["setups"][0]["volume_before_mm3"] = math.pi * 225 * 21
    verdict = replay(told, mesh(part), mesh(part))
    assert verdict.proved, verdict.words
