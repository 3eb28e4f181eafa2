"""Sections: the body cut by a plane, or by a plane with steps, as areas and what is seen beyond (mm).

A kernel file. The plane stands square to the view; all that lies nearer to the reader is taken away.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut, BRepAlgoAPI_Fuse
from OCP.BRepBuilderAPI import BRepBuilderAPI_Transform
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox
from OCP.BRepTools import BRepTools, BRepTools_WireExplorer
from OCP.collections import List_TopoDS_Shape
from OCP.GeomAbs import GeomAbs_SurfaceType
from OCP.gp import gp_Pnt, gp_Trsf, gp_Vec
from OCP.ShapeUpgrade import ShapeUpgrade_UnifySameDomain
from OCP.TopAbs import TopAbs_FACE, TopAbs_WIRE
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS

from setupsheet.plane import Point2, distance
from setupsheet.solid.body import Body, bounding_box
from setupsheet.solid.cutters import Shape
from setupsheet.solid.edge_curve import flat_of
from setupsheet.solid.flat import CutArea, CutLoop, Flat, Line, Outlines, Section, chain
from setupsheet.solid.frame import Matrix
from setupsheet.solid.outline import seen

Level = tuple[float, float, float]
"""From, to (view X) and the height of the plane there (view Z)."""

_IN_PLANE_MM = 1e-6


def section(body: Body, view: Matrix, height: float) -> Section:
    """Return the section by the plane at view Z = ``height``."""
    return stepped_section(body, view, [(-1e9, 1e9, height)])


def stepped_section(body: Body, view: Matrix, levels: Sequence[Level]) -> Section:
    """Return the section by a plane that steps; the steps themselves are not drawn."""
    there = _moved(body.shape, view)
    reach = _reach(Body(there))
    rest = there
    for start, end, height in levels:
        low = gp_Pnt(max(start, -reach), -reach, height)
        box = BRepPrimAPI_MakeBox(low, gp_Pnt(min(end, reach), reach, max(reach, height + 1.0))).Shape()
        rest = _boolean(BRepAlgoAPI_Cut(), rest, [box])
    rest = _unified(rest)
    faces = _one_plane([_cut_faces(rest, level) for level in levels], levels)
    areas = tuple(sorted((_area(face) for face in faces), key=lambda area: min(area.rim.points)))
    steps = [start for start, _, _ in levels[1:]]
    beyond = seen(rest, _IDENTITY, hidden=False)
    return Section(areas, Outlines(tuple(f for f in beyond.visible if not _is_step(f, steps))))


_IDENTITY: Matrix = ((1.0, 0.0, 0.0, 0.0), (0.0, 1.0, 0.0, 0.0), (0.0, 0.0, 1.0, 0.0), (0.0, 0.0, 0.0, 1.0))


def _moved(shape: Shape, view: Matrix) -> Shape:
    motion = gp_Trsf()
    motion.SetValues(*view[0], *view[1], *view[2])
    return BRepBuilderAPI_Transform(shape, motion, True).Shape()


def _reach(body: Body) -> float:
    box = bounding_box(body)
    return 2 * max(abs(value) for value in (*box.low, *box.high)) + 10.0


def _boolean(operation: Any, shape: Shape, tools: list[Shape]) -> Shape:
    arguments, others = List_TopoDS_Shape(), List_TopoDS_Shape()
    arguments.Append(shape)
    for tool in tools:
        others.Append(tool)
    operation.SetArguments(arguments)
    operation.SetTools(others)
    operation.Build()
    return operation.Shape()


def _unified(shape: Shape) -> Shape:
    tidy = ShapeUpgrade_UnifySameDomain(shape, True, True, False)
    tidy.Build()
    return tidy.Shape()


def _faces(shape: Shape) -> list[Shape]:
    found, explorer = [], TopExp_Explorer(shape, TopAbs_FACE)
    while explorer.More():
        found.append(TopoDS.Face(explorer.Current()))
        explorer.Next()
    return found


def _cut_faces(rest: Shape, level: Level) -> list[Shape]:
    """Return the flat faces that lie in the plane of a level and within its stretch."""
    start, end, height = level
    found = []
    for face in _faces(rest):
        surface = BRepAdaptor_Surface(face)
        if surface.GetType() != GeomAbs_SurfaceType.GeomAbs_Plane:
            continue
        plane = surface.Plane()
        level_here = abs(abs(plane.Axis().Direction().Z()) - 1) < 1e-9
        if level_here and abs(plane.Location().Z() - height) < _IN_PLANE_MM:
            box = bounding_box(Body(face))
            if start - _IN_PLANE_MM <= box.low[0] and box.high[0] <= end + _IN_PLANE_MM:
                found.append(face)
    return found


def _one_plane(groups: list[list[Shape]], levels: Sequence[Level]) -> list[Shape]:
    """Bring the faces of all levels into one plane and join those that meet at a step."""
    flat = []
    for faces, (_, _, height) in zip(groups, levels, strict=True):
        motion = gp_Trsf()
        motion.SetTranslation(gp_Vec(0.0, 0.0, -height))
        flat += [BRepBuilderAPI_Transform(face, motion, True).Shape() for face in faces]
    if len(levels) == 1 or len(flat) < 2:
        return [TopoDS.Face(face) for face in flat]
    return _faces(_unified(_boolean(BRepAlgoAPI_Fuse(), flat[0], flat[1:])))


def _area(face: Shape) -> CutArea:
    rim = BRepTools.OuterWire_s(face)
    openings = []
    explorer = TopExp_Explorer(face, TopAbs_WIRE)
    while explorer.More():
        if not explorer.Current().IsSame(rim):
            openings.append(_loop(explorer.Current(), face))
        explorer.Next()
    open_wide = [loop for loop in openings if loop.edges]  # a plane that touches a cylinder leaves a loop of no length
    return CutArea(_loop(rim, face), tuple(sorted(open_wide, key=lambda loop: min(loop.points))))


def _loop(wire: Shape, face: Shape) -> CutLoop:
    edges: list[Flat] = []
    explorer = BRepTools_WireExplorer(TopoDS.Wire(wire), face)
    while explorer.More():
        flat = flat_of(explorer.Current())
        edges += [flat] if flat else []
        explorer.Next()
    return CutLoop(tuple(edges), _walk(edges))


def _walk(edges: list[Flat]) -> tuple[Point2, ...]:
    """Return points round a loop, end to end, whichever way round each edge was recorded."""
    paths = [chain(edge) for edge in edges]
    if len(paths) < 2:
        return paths[0][:-1] if paths else ()
    ends = (paths[1][0], paths[1][-1])
    near = [min(distance(end, other) for other in ends) for end in (paths[0][0], paths[0][-1])]
    points = list(paths[0] if near[1] <= near[0] else paths[0][::-1])
    for path in paths[1:]:
        points += path[1:] if distance(points[-1], path[0]) <= distance(points[-1], path[-1]) else path[-2::-1]
    return tuple(points[:-1])


def _is_step(flat: Flat, steps: list[float]) -> bool:
    return isinstance(flat, Line) and any(
        abs(flat.a[0] - step) < _IN_PLANE_MM and abs(flat.b[0] - step) < _IN_PLANE_MM for step in steps
    )
