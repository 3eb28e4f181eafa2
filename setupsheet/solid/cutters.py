"""Volumes as kernel shapes: prisms from wires, stacks of cones and cylinders as one revolved shape.

A kernel file. Coaxial stages of a hole become one shape of revolution, so that a plate of a thousand
chamfered holes is a thousand cutters and not three thousand that touch each other.
"""

from __future__ import annotations

from itertools import combinations, pairwise
from typing import Any

from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeEdge,
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakePolygon,
    BRepBuilderAPI_MakeWire,
)
from OCP.BRepPrimAPI import BRepPrimAPI_MakeCylinder, BRepPrimAPI_MakePrism, BRepPrimAPI_MakeRevol
from OCP.collections import List_TopoDS_Shape
from OCP.gp import gp_Ax1, gp_Ax2, gp_Circ, gp_Dir, gp_Pnt, gp_Vec
from OCP.TopoDS import TopoDS

from setupsheet.plane import Point2, distance
from setupsheet.solid import loops
from setupsheet.solid.volume import CircleLoop, Cone, EdgeLoop, LineEdge, Loop, Primitive, Prism

Shape = Any
"""A shape of the kernel, whose wheel has no types."""

_SAME = 1e-7
_DIRS = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def cutters(volume: tuple[Primitive, ...]) -> list[Shape]:
    """Return solids that together fill the volume, prisms first."""
    shapes = [_prism(shape) for shape in volume if isinstance(shape, Prism)]
    stacks: dict[tuple[int, float, float], list[Cone]] = {}
    for shape in volume:
        if isinstance(shape, Cone):
            key = (shape.axis, round(shape.centre[0], 6), round(shape.centre[1], 6))
            stacks.setdefault(key, []).append(shape)
    for cones in stacks.values():
        shapes += [_revolved(cones[0], profile) for profile in profiles(cones)]
    return shapes


def profiles(cones: list[Cone]) -> list[list[Point2]]:
    """Return the outlines (height, radius) of the union of coaxial cones, one for each unbroken stretch."""
    heights = sorted({height for cone in cones for height in (cone.low, cone.high)} | _crossings(cones))
    found: list[list[Point2]] = [[]]
    for low, high in pairwise(heights):
        middle = (low + high) / 2
        here = [cone for cone in cones if cone.low < middle < cone.high]
        if high - low < _SAME:
            continue
        if not here:
            found.append([])
            continue
        widest = max(here, key=lambda cone: _radius(cone, middle))
        found[-1] += [(low, _radius(widest, low)), (high, _radius(widest, high))]
    return [_tidy(points) for points in found if points]


def _crossings(cones: list[Cone]) -> set[float]:
    """Return the heights at which one cone comes to be wider than another."""
    found = set()
    for a, b in combinations(cones, 2):
        slope = _slope(a) - _slope(b)
        if abs(slope) > 1e-12:
            height = a.low + (_radius(b, a.low) - a.radius_low) / slope
            if max(a.low, b.low) < height < min(a.high, b.high):
                found.add(height)
    return found


def _slope(cone: Cone) -> float:
    return (cone.radius_high - cone.radius_low) / (cone.high - cone.low)


def _radius(cone: Cone, height: float) -> float:
    if height == cone.high:
        return cone.radius_high
    return cone.radius_low + (height - cone.low) * _slope(cone)


def _tidy(points: list[Point2]) -> list[Point2]:
    """Drop repeated points and those in the middle of a straight line."""
    kept: list[Point2] = []
    for point in points:
        if kept and abs(kept[-1][0] - point[0]) < _SAME and abs(kept[-1][1] - point[1]) < _SAME:
            continue
        while len(kept) > 1 and abs(_turn(kept[-2], kept[-1], point)) < 1e-9:
            kept.pop()
        kept.append(point)
    return kept


def _turn(a: Point2, b: Point2, c: Point2) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _revolved(cone: Cone, profile: list[Point2]) -> Shape:
    start = point(cone.axis, cone.centre, profile[0][0])
    direction = along(cone.axis)
    if len(profile) == 2 and abs(profile[0][1] - profile[1][1]) < _SAME:
        frame = gp_Ax2(start, direction)
        return BRepPrimAPI_MakeCylinder(frame, profile[0][1], profile[1][0] - profile[0][0]).Shape()
    corners = [(profile[0][0], 0.0), *profile, (profile[-1][0], 0.0)]
    polygon = BRepBuilderAPI_MakePolygon()
    for height, radius in _tidy(corners):
        polygon.Add(point(cone.axis, (cone.centre[0] + radius, cone.centre[1]), height))
    polygon.Close()
    face = BRepBuilderAPI_MakeFace(polygon.Wire(), True).Face()
    return BRepPrimAPI_MakeRevol(face, gp_Ax1(start, direction)).Shape()


def _prism(prism: Prism) -> Shape:
    """Return a prism; islands that lie apart and inside are holes of its face, others are cut out of it."""
    inner, outer = prism.islands, prism.outer
    clean = all(_holds(outer, loop) for loop in inner) and _all_apart(inner)
    builder = BRepBuilderAPI_MakeFace(_wire(prism, outer), True)
    if clean:
        for loop in inner:
            builder.Add(TopoDS.Wire(_wire(prism, loop).Reversed()))
        return _drawn_out(prism, builder.Face(), prism.low, prism.high)
    solid = _drawn_out(prism, builder.Face(), prism.low, prism.high)
    tools = List_TopoDS_Shape()
    for loop in inner:
        face = BRepBuilderAPI_MakeFace(_wire(prism, loop), True).Face()
        tools.Append(_drawn_out(prism, face, prism.low, prism.high))
    arguments = List_TopoDS_Shape()
    arguments.Append(solid)
    cut = BRepAlgoAPI_Cut()
    cut.SetArguments(arguments)
    cut.SetTools(tools)
    cut.Build()
    return cut.Shape()


def _drawn_out(prism: Prism, face: Shape, low: float, high: float) -> Shape:
    return BRepPrimAPI_MakePrism(face, gp_Vec(*_DIRS[prism.axis]).Multiplied(high - low)).Shape()


def _holds(outer: Loop, inner: Loop) -> bool:
    """Tell whether one loop certainly lies strictly inside the other (a box test, so 'no' may be wrong)."""
    (a, b), (c, d) = loops.bounds(outer), loops.bounds(inner)
    in_box = all(a[i] + _SAME < c[i] and d[i] + _SAME < b[i] for i in (0, 1))
    return in_box and isinstance(outer, EdgeLoop) and _is_rectangle(outer)


def _is_rectangle(loop: EdgeLoop) -> bool:
    return len(loop.edges) == 4 and all(
        isinstance(e, LineEdge) and (e.a[0] == e.b[0] or e.a[1] == e.b[1]) for e in loop.edges
    )


def _all_apart(inner: tuple[Loop, ...]) -> bool:
    """Tell whether no two loops' boxes meet; circles that lie near each other are measured."""
    row = sorted(((loops.bounds(loop), loop) for loop in inner), key=lambda entry: entry[0])
    for i, ((low, high), loop) in enumerate(row):
        for (other_low, other_high), other in row[i + 1 :]:
            if other_low[0] > high[0] + _SAME:
                break
            if other_low[1] <= high[1] + _SAME and low[1] <= other_high[1] + _SAME and not _round_apart(loop, other):
                return False
    return True


def _round_apart(one: Loop, other: Loop) -> bool:
    if not (isinstance(one, CircleLoop) and isinstance(other, CircleLoop)):
        return False
    return distance(one.centre, other.centre) > one.radius + other.radius + _SAME


def _wire(prism: Prism, loop: Loop) -> Shape:
    builder = BRepBuilderAPI_MakeWire()
    if isinstance(loop, CircleLoop):
        builder.Add(BRepBuilderAPI_MakeEdge(_circle(prism, loop.centre, loop.radius, True)).Edge())
        return builder.Wire()
    for edge in loop.edges:
        a, b = point(prism.axis, edge.a, prism.low), point(prism.axis, edge.b, prism.low)
        if isinstance(edge, LineEdge):
            builder.Add(BRepBuilderAPI_MakeEdge(a, b).Edge())
        else:
            radius = distance(edge.a, edge.centre)
            builder.Add(BRepBuilderAPI_MakeEdge(_circle(prism, edge.centre, radius, edge.ccw), a, b).Edge())
    return builder.Wire()


def _circle(prism: Prism, centre: Point2, radius: float, ccw: bool) -> Any:
    """Return a circle that runs the right way: (x, z) seen as x right, z up is looked at along +y."""
    sign = (1.0 if ccw else -1.0) * (-1.0 if prism.axis == 1 else 1.0)
    x, y, z = _DIRS[prism.axis]
    return gp_Circ(gp_Ax2(point(prism.axis, centre, prism.low), gp_Dir(sign * x, sign * y, sign * z)), radius)


def point(axis: int, flat: Point2, height: float) -> Any:
    """Return a point of the kernel from its height along an axis and its other two coordinates."""
    full = [flat[0], flat[1]]
    full.insert(axis, height)
    return gp_Pnt(*full)


def along(axis: int) -> Any:
    """Return the direction of a part axis."""
    return gp_Dir(*_DIRS[axis])
