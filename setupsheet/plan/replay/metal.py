"""Metal of the replay: closed bodies of the mesh kernel, made and asked without a word about plans.

The only file that knows the mesh kernel (and numpy, which it speaks). Lengths in mm. ``Metal`` is a closed
body, ``Area`` a region of the plane. Round things are polygons: a ``Round`` says whether they lie inside
the true circle (the cutter removes less) or outside (it removes more), and how far off they may be.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

import manifold3d
import numpy as np

from setupsheet.plane import Point2, Point3

Metal = Any
"""A closed body of the mesh kernel; ``Metal`` in signatures says what is meant."""
Area = Any
"""A region of the plane of the mesh kernel."""
Rows = Sequence[Sequence[float]]
"""A 4 x 4 or 3 x 4 matrix, row-major."""

NOISE_MM3 = 1e-6
"""Below this volume a piece is noise of the mesh kernel (contracts: the replay)."""

_MERGE_PLACES = (5, 4, 6, 7)
"""Decimals at which the float32 corners of an STL file are merged, in the order tried."""


@dataclass(frozen=True, slots=True)
class MeshData:
    """A closed mesh: corners (mm, part frame) and triangles as three indices, outward counter-clockwise."""

    vertices: Sequence[Sequence[float]]
    triangles: Sequence[Sequence[int]]


class MeshError(ValueError):
    """A mesh that is no closed body; the sentence says which and why."""


@dataclass(frozen=True, slots=True)
class Round:
    """How circles become polygons: inside or outside the true one, at most ``sag_mm`` off it."""

    inside: bool
    sag_mm: float
    fixed: int = 0
    true_area: bool = False
    """Turned bodies only: polygons of the circle's own area, for volumes."""

    def segments(self, radius: float) -> int:
        """Return the number of corners, a multiple of 4, so that X and Y extremes are exact."""
        if self.fixed:
            return self.fixed
        half = math.acos(max(0.0, 1 - self.sag_mm / max(radius, self.sag_mm)))
        return max(16, 4 * math.ceil(math.pi / half / 4))

    def stretch(self, segments: int) -> float:
        """Return the factor from the true radius to that of the polygon's corners."""
        return 1.0 if self.inside else 1 / math.cos(math.pi / segments)


def read_stl(path: Path) -> MeshData:
    """Read a binary STL file and merge its corners; raises MeshError if it is none or not closed."""
    raw = path.read_bytes()
    count = int.from_bytes(raw[80:84], "little") if len(raw) >= 84 else -1
    if len(raw) != 84 + 50 * count:
        raise MeshError(f"{path.name} is no binary STL file")
    records = np.frombuffer(raw, dtype=[("n", "<f4", 3), ("v", "<f4", (3, 3)), ("a", "<u2")], offset=84)
    corners = records["v"].reshape(-1, 3).astype(float)
    for places in _MERGE_PLACES:
        data = _merged(corners, places)
        if _closed(data):
            return data
    raise MeshError(f"{path.name} is not a closed body")


def _merged(corners: Any, places: int) -> MeshData:
    keys = np.rint(corners * 10.0**places).astype(np.int64)
    keys -= keys.min(axis=0)
    spans = keys.max(axis=0) + 1
    single = (keys[:, 0] * spans[1] + keys[:, 1]) * spans[2] + keys[:, 2]
    _, first, index = np.unique(single, return_index=True, return_inverse=True)
    triangles = index.reshape(-1, 3)
    a, b, c = triangles.T
    return MeshData(corners[first], triangles[(a != b) & (b != c) & (c != a)])


def _closed(data: MeshData) -> bool:
    return bool(_kernel_body(data).status() == manifold3d.Error.NoError)


def _kernel_body(data: MeshData) -> Metal:
    vertices = np.array(data.vertices, dtype=np.float64, order="C").reshape(-1, 3)
    triangles = np.array(data.triangles, dtype=np.uint64, order="C").reshape(-1, 3)
    return manifold3d.Manifold(manifold3d.Mesh64(vertices, triangles))


def from_mesh(data: MeshData, name: str) -> Metal:
    """Return a mesh as metal; raises MeshError when it is not closed or has no volume."""
    body = _kernel_body(data)
    if body.status() != manifold3d.Error.NoError or body.is_empty() or body.volume() <= 0:
        raise MeshError(f"the mesh of the {name} is not a closed body")
    return body


def to_mesh(body: Metal) -> MeshData:
    """Return metal as a mesh."""
    mesh = body.to_mesh64()
    return MeshData(mesh.vert_properties[:, :3], mesh.tri_verts)


def nothing() -> Metal:
    """Return no metal at all."""
    return manifold3d.Manifold()


def box(low: Point3, high: Point3) -> Metal:
    """Return a box between two opposite corners; no metal where it has no size."""
    size = [b - a for a, b in zip(low, high, strict=True)]
    if min(size) <= 0:
        return nothing()
    return manifold3d.Manifold.cube(size).translate(low)


@lru_cache(maxsize=64)
def disc(radius: float, how: Round) -> Area:
    """Return a round area about 0; outside polygons have their flats, inside ones their corners on the axes."""
    if radius <= 0:
        return manifold3d.CrossSection()
    count = how.segments(radius)
    phase = 0.0 if how.inside else math.pi / count
    angles = np.arange(count) * (2 * math.pi / count) + phase
    reach = radius * how.stretch(count)
    return manifold3d.CrossSection([np.column_stack([reach * np.cos(angles), reach * np.sin(angles)])])


def polygon(corners: Sequence[Point2]) -> Area:
    """Return the area inside corners given counter-clockwise."""
    return manifold3d.CrossSection([np.asarray(corners, dtype=float)])


def moved(area: Area, by: Point2) -> Area:
    """Return an area moved in its plane."""
    return area.translate(by)


def hull(areas: Sequence[Area]) -> Area:
    """Return the convex hull of areas."""
    return manifold3d.CrossSection.batch_hull(list(areas))


def hull_of(bodies: Sequence[Metal]) -> Metal:
    """Return the convex hull of bodies."""
    return manifold3d.Manifold.batch_hull(list(bodies))


def join_areas(areas: Sequence[Area]) -> Area:
    """Return the union of areas."""
    if len(areas) == 1:
        return areas[0]
    return manifold3d.CrossSection.batch_boolean(list(areas), manifold3d.OpType.Add)


def area_less(area: Area, other: Area) -> Area:
    """Return what of an area lies outside another."""
    return area - other


def area_within(area: Area, low: Point2, high: Point2) -> Area:
    """Return what of an area lies in a rectangle."""
    return area ^ manifold3d.CrossSection.square((high[0] - low[0], high[1] - low[1])).translate(low)


def drawn_up(area: Area, low: float, high: float) -> Metal:
    """Return an area drawn out along Z."""
    if high <= low or area.is_empty():
        return nothing()
    return area.extrude(high - low).translate((0.0, 0.0, low))


def turned(half: Area, radius: float, how: Round) -> Metal:
    """Return a half section (x radius, y height) turned about Z; ``radius`` is its largest."""
    count = how.segments(radius)
    whole = 2 * math.pi / count
    stretch = math.sqrt(whole / math.sin(whole)) if how.true_area else how.stretch(count)
    return (half if stretch == 1.0 else half.scale((stretch, 1.0))).revolve(count)


def join(bodies: Sequence[Metal]) -> Metal:
    """Return the union of bodies."""
    if not bodies:
        return nothing()
    return manifold3d.Manifold.batch_boolean(list(bodies), manifold3d.OpType.Add)


def cut(body: Metal, cutters: Sequence[Metal]) -> Metal:
    """Return a body less all cutters, in one go."""
    return manifold3d.Manifold.batch_boolean([body, *cutters], manifold3d.OpType.Subtract)


def shared(body: Metal, other: Metal) -> Metal:
    """Return what two bodies have in common."""
    return body ^ other


def is_there(body: Metal, least_mm3: float = NOISE_MM3) -> bool:
    """Tell whether a body is more than noise."""
    return bool(not body.is_empty() and body.volume() > least_mm3)


def placed(body: Metal, matrix: Rows) -> Metal:
    """Return a body carried by a rigid motion."""
    return body.transform(np.asarray([list(row) for row in matrix[:3]], dtype=float))


def bounds(body: Metal) -> tuple[Point3, Point3]:
    """Return the two opposite corners of the box round a body."""
    x0, y0, z0, x1, y1, z1 = body.bounding_box()
    return (x0, y0, z0), (x1, y1, z1)


def pieces(body: Metal, most: int = 200) -> list[Metal]:
    """Return the separate pieces above noise, largest first; a body of very many stays in one."""
    if not is_there(body):
        return []
    if body.num_tri() > 20000:
        return [body]
    found = [piece for piece in body.decompose() if piece.volume() > NOISE_MM3]
    return sorted(found, key=lambda piece: (-round(piece.volume(), 6), piece.bounding_box()))[:most]


def first_metal(body: Metal, at: Point2, high: float, low: float) -> float | None:
    """Return the height of the first surface under (x, y) between two heights, None if there is none."""
    hits = body.ray_cast((at[0], at[1], high), (at[0], at[1], low))
    return float(hits[0].position[2]) if hits else None


def has_corner_near(body: Metal, axis: int, value: float, within: float) -> bool:
    """Tell whether any corner of a body has this coordinate, within a distance."""
    column = body.to_mesh64().vert_properties[:, axis]
    return bool(np.any(np.abs(column - value) <= within))


def touched_places(body: Metal, places: Sequence[Point2], radius: float) -> list[bool]:
    """Tell for each place whether a corner of the body lies within ``radius`` of its axis."""
    if body.is_empty():
        return [False] * len(places)
    corners = body.to_mesh64().vert_properties[:, :2]
    cells: dict[tuple[int, int], list[int]] = {}
    for index, (x, y) in enumerate(places):
        cells.setdefault((math.floor(x / radius), math.floor(y / radius)), []).append(index)
    squares = np.unique(np.floor(corners / radius).astype(int), axis=0)
    order = _by_square(corners, radius)
    found = [False] * len(places)
    for a, b in squares:
        inside = order[(int(a), int(b))]
        for index in _near(cells, int(a), int(b)):
            gap = np.hypot(inside[:, 0] - places[index][0], inside[:, 1] - places[index][1])
            found[index] = found[index] or bool(np.any(gap <= radius))
    return found


def _by_square(corners: Any, size: float) -> dict[tuple[int, int], Any]:
    keys = np.floor(corners / size).astype(int)
    order = np.lexsort((keys[:, 1], keys[:, 0]))
    ordered = keys[order]
    starts = np.flatnonzero(np.any(np.diff(ordered, axis=0, prepend=ordered[:1] - 1) != 0, axis=1))
    groups = np.split(corners[order], starts[1:])
    return {(int(ordered[s][0]), int(ordered[s][1])): group for s, group in zip(starts, groups, strict=True)}


def _near(cells: dict[tuple[int, int], list[int]], a: int, b: int) -> Iterable[int]:
    for da in (-1, 0, 1):
        for db in (-1, 0, 1):
            yield from cells.get((a + da, b + db), ())
