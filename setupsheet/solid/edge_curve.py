"""Edges of the kernel that lie in the plane Z = 0, as plain flat records (mm). A kernel file."""

from __future__ import annotations

import itertools
import math
from typing import Any

from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepLib import BRepLib
from OCP.GCPnts import GCPnts_QuasiUniformDeflection
from OCP.GeomAbs import GeomAbs_CurveType
from OCP.TopAbs import TopAbs_EDGE
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS

from setupsheet.plane import Point2, angle_of, distance, distance_to_segment
from setupsheet.solid.cutters import Shape
from setupsheet.solid.flat import NEAR_MM, Arc, Circle, Ellipse, Flat, Line, Polyline

_STRAIGHT_MM = 1e-6
_ROUND_MM = 1e-5
_SHORT_MM = 1e-6
_SAMPLES = 33


def flats_of(compound: Shape) -> list[Flat]:
    """Return the edges of a compound in the kernel's order; a null shape has none."""
    if compound is None or compound.IsNull():
        return []
    BRepLib.BuildCurves3d_s(compound)
    found: list[Flat] = []
    explorer = TopExp_Explorer(compound, TopAbs_EDGE)
    while explorer.More():
        flat = flat_of(explorer.Current())
        found += [flat] if flat else []
        explorer.Next()
    return found


def flat_of(edge: Shape) -> Flat | None:
    """Return one edge as a flat record; None if it shrinks to a point."""
    curve = BRepAdaptor_Curve(TopoDS.Edge(edge))
    first, last = curve.FirstParameter(), curve.LastParameter()
    kind = curve.GetType()
    if kind == GeomAbs_CurveType.GeomAbs_Line:
        return _line(_at(curve, first), _at(curve, last))
    if kind == GeomAbs_CurveType.GeomAbs_Circle:
        circle = curve.Circle()
        centre = (circle.Location().X(), circle.Location().Y())
        return _arc(
            centre, circle.Radius(), [_at(curve, first + (last - first) * i / 4) for i in range(5)], last - first
        )
    if kind == GeomAbs_CurveType.GeomAbs_Ellipse:
        return _ellipse(curve, first, last)
    return _free(curve, first, last)


def _at(curve: Any, parameter: float) -> Point2:
    point = curve.Value(parameter)
    return (point.X(), point.Y())


def _line(a: Point2, b: Point2) -> Flat | None:
    return Line(a, b) if distance(a, b) > _SHORT_MM else None


def _arc(centre: Point2, radius: float, points: list[Point2], sweep_rad: float) -> Flat:
    """Return the arc through five points that follow each other on a circle."""
    if sweep_rad >= math.tau - 1e-9:
        return Circle(centre, radius)
    start, end = points[0], points[-1]
    turn = (points[1][0] - start[0]) * (points[2][1] - start[1]) - (points[1][1] - start[1]) * (points[2][0] - start[0])
    if turn < 0:
        start, end = end, start
    from_deg = angle_of(centre, start)
    to_deg = from_deg + (angle_of(centre, end) - from_deg) % 360
    return Arc(centre, radius, from_deg, to_deg)


def _ellipse(curve: Any, first: float, last: float) -> Flat | None:
    ellipse = curve.Ellipse()
    a, b = ellipse.MajorRadius(), ellipse.MinorRadius()
    centre = (ellipse.Location().X(), ellipse.Location().Y())
    along = ellipse.XAxis().Direction()
    unit = (along.X(), along.Y())
    if b < _STRAIGHT_MM:
        return _free(curve, first, last)
    major = (a * unit[0], a * unit[1])
    if last - first >= math.tau - 1e-9:
        return Ellipse(centre, major, b / a)
    reversed_ = ellipse.Axis().Direction().Z() < 0
    start, end = (-last, -first) if reversed_ else (first, last)
    from_deg = math.degrees(start) % 360
    return Ellipse(centre, major, b / a, from_deg, from_deg + math.degrees(end - start))


def _free(curve: Any, first: float, last: float) -> Flat | None:
    """Return a spline as what it truly is: a straight line, an arc, or else a polyline close to it."""
    points = [_at(curve, first + (last - first) * i / (_SAMPLES - 1)) for i in range(_SAMPLES)]
    low, high = _ends(points)
    if distance(low, high) <= _SHORT_MM:
        return None
    if all(distance_to_segment(p, low, high) < _STRAIGHT_MM for p in points):
        return Line(low, high)
    return _round(points) or _polyline(curve, first, last)


def _ends(points: list[Point2]) -> tuple[Point2, Point2]:
    """Return the two points furthest apart along the way that the points spread in."""
    far = max(points, key=lambda p: distance(points[0], p))
    return max(points, key=lambda p: distance(far, p)), far


def _round(points: list[Point2]) -> Flat | None:
    """Return the arc that all points lie on, if there is one."""
    centre = _centre(points[0], points[len(points) // 3], points[2 * len(points) // 3])
    if centre is None:
        return None
    radius = distance(centre, points[0])
    if radius > 1e4 or any(abs(distance(centre, p) - radius) > _ROUND_MM for p in points):
        return None
    turned = sum(_signed(angle_of(centre, b) - angle_of(centre, a)) for a, b in itertools.pairwise(points))
    return _arc(centre, radius, points, math.radians(abs(turned)))


def _signed(degrees: float) -> float:
    return (degrees + 180.0) % 360.0 - 180.0


def _centre(a: Point2, b: Point2, c: Point2) -> Point2 | None:
    ux, uy, vx, vy = b[0] - a[0], b[1] - a[1], c[0] - a[0], c[1] - a[1]
    double = 2 * (ux * vy - uy * vx)
    if abs(double) < 1e-9:
        return None
    u2, v2 = ux * ux + uy * uy, vx * vx + vy * vy
    return a[0] + (vy * u2 - uy * v2) / double, a[1] + (ux * v2 - vx * u2) / double


def _polyline(curve: Any, first: float, last: float) -> Flat:
    walk = GCPnts_QuasiUniformDeflection(curve, NEAR_MM / 4, first, last)
    if not walk.IsDone() or walk.NbPoints() < 2:
        steps = [first + (last - first) * i / 200 for i in range(201)]
        return Polyline(tuple(_at(curve, step) for step in steps))
    points = [(walk.Value(i).X(), walk.Value(i).Y()) for i in range(1, walk.NbPoints() + 1)]
    closed = distance(points[0], points[-1]) < _STRAIGHT_MM
    return Polyline(tuple(points[:-1] if closed else points), closed)
