"""The exact body: a box less volumes, checked and measured (mm, mm3).

Kernel files of the project: ``body.py``, ``cutters.py``, ``pierced.py``, ``export.py``, ``outline.py``,
``edge_curve.py``, ``section.py``; nothing else imports the kernel. Most kernel trouble is silent, so every
cut is checked: done, valid, metal gone but no more than the cutters hold, one piece. Trouble becomes a
finding in ``Body.findings`` and names the feature.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from OCP.Bnd import Bnd_Box
from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut
from OCP.BRepBndLib import BRepBndLib
from OCP.BRepCheck import BRepCheck_Analyzer
from OCP.BRepGProp import BRepGProp
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox
from OCP.collections import List_TopoDS_Shape
from OCP.gp import gp_Pnt
from OCP.GProp import GProp_GProps
from OCP.Message import Message, Message_PrinterOStream
from OCP.ShapeUpgrade import ShapeUpgrade_UnifySameDomain
from OCP.Standard import (
    Standard_ConstructionError,
    Standard_DomainError,
    Standard_Failure,
    Standard_NumericError,
    Standard_ProgramError,
    Standard_RangeError,
)
from OCP.StdFail import StdFail_NotDone
from OCP.TopAbs import TopAbs_SOLID
from OCP.TopExp import TopExp_Explorer

from setupsheet.finding import Finding, caution, error
from setupsheet.part.face import Box
from setupsheet.part.feature import Feature
from setupsheet.part.part import Part
from setupsheet.solid.cutters import Shape, cutters
from setupsheet.solid.drawn import Which
from setupsheet.solid.effect import perhaps_idle
from setupsheet.solid.extent import bounds, has_size, overlap, volume_at_most
from setupsheet.solid.pierced import Pierced, pierced
from setupsheet.solid.volume import Volume
from setupsheet.solid.volumes import finished_volumes

Message.DefaultMessenger_s().RemovePrinters(Message_PrinterOStream.get_type_descriptor_s())

_KERNEL_ERRORS = (
    Standard_Failure,
    Standard_ConstructionError,
    Standard_DomainError,
    Standard_NumericError,
    Standard_ProgramError,
    Standard_RangeError,
    StdFail_NotDone,
)
"""What the kernel raises; its classes have no parent of their own but Exception."""
_NOISE = 1e-6
"""mm3 and relative: volumes nearer than this are equal."""
_MANY = 60
"""Cutters from which on the kernel is allowed to use all cores; below it threads cost more."""


@dataclass(frozen=True, slots=True)
class Body:
    """A solid of the kernel (``shape``: hands off outside the kernel files) and what went wrong with it."""

    shape: Shape
    findings: tuple[Finding, ...] = ()


def build(box: Box, volumes: Mapping[str, Volume]) -> Body:
    """Return the box less the volumes; their keys are the feature ids that findings name."""
    block = BRepPrimAPI_MakeBox(gp_Pnt(*box.low), gp_Pnt(*box.high)).Shape()
    reaching = {key: tuple(s for s in volume if overlap(bounds(s), box)) for key, volume in volumes.items()}
    flat = [key for key, volume in reaching.items() if not all(has_size(shape) for shape in volume)]
    sound = {key: volume for key, volume in reaching.items() if volume and key not in flat}
    quick = pierced(box, sound)
    start, left = (quick.shape, quick.left) if quick and _as_pierced(quick, block) else (block, sound)
    shape, fault = _cut(start, list(left.values()))
    body = _one_by_one(block, sound, fault) if fault else Body(shape)
    return Body(body.shape, (*(_fault("no-size", key) for key in flat), *body.findings))


def finished(part: Part, which: Which = "nominal") -> Body:
    """Return the finished part: the envelope less every feature; features that miss the stock are told."""
    volumes = finished_volumes(part, which)
    body = build(part.box, volumes)
    cutting = (f for f in part.features if f.kind not in ("mark", "round boss"))  # a boss stands, it need not cut
    missed = [_missed(f) for f in cutting if not _reaches(volumes[f.id], part)]
    idle = _idle(part, volumes) if which == "nominal" and not (missed or body.findings) else ()
    return Body(body.shape, (*missed, *_with_places(body.findings, part), *idle))


def stock_less(part: Part, volumes: Mapping[str, Volume]) -> Body:
    """Return the stock in process: the stock's box less the given volumes."""
    body = build(part.stock.box, volumes)
    return Body(body.shape, _with_places(body.findings, part))


def volume_mm3(body: Body) -> float:
    """Return the volume of a body."""
    return _volume(body.shape)


def bounding_box(body: Body) -> Box:
    """Return the smallest box along the axes that holds the body."""
    found = Bnd_Box()
    BRepBndLib.AddOptimal_s(body.shape, found, False, False)
    found.SetGap(0.0)
    low, high = found.CornerMin(), found.CornerMax()
    return Box((low.X(), low.Y(), low.Z()), (high.X(), high.Y(), high.Z()))


def pieces(shape: Shape) -> list[Shape]:
    """Return the solids in a shape of the kernel."""
    found, explorer = [], TopExp_Explorer(shape, TopAbs_SOLID)
    while explorer.More():
        found.append(explorer.Current())
        explorer.Next()
    return found


def _as_pierced(quick: Pierced, block: Shape) -> bool:
    """Tell whether a pierced block has lost just what its holes hold between its two faces."""
    whole = _volume(block)
    return abs(whole - _volume(quick.shape) - quick.gone_mm3) < _NOISE * whole


def _cut(block: Shape, volumes: Sequence[Volume]) -> tuple[Shape, str]:
    """Return the block less the volumes and the fault found ('' if none)."""
    most_mm3 = sum(volume_at_most(volume) for volume in volumes)
    try:
        tools = [shape for volume in volumes for shape in cutters(volume)]
        if not tools:
            return block, ""
        cut = BRepAlgoAPI_Cut()
        cut.SetArguments(_list([block]))
        cut.SetTools(_list(tools))
        cut.SetRunParallel(len(tools) >= _MANY)
        cut.SetToFillHistory(False)
        cut.Build()
        if not cut.IsDone():
            return block, "cut-failed"
        return _checked(block, cut.Shape(), most_mm3, len(tools) >= _MANY)
    except _KERNEL_ERRORS:
        return block, "cut-failed"


def _checked(block: Shape, result: Shape, most_mm3: float, many: bool) -> tuple[Shape, str]:
    solids = pieces(result)
    if not solids:
        return block, "nothing-left"
    tidy = ShapeUpgrade_UnifySameDomain(solids[0] if len(solids) == 1 else result, True, True, False)
    tidy.Build()
    shape = tidy.Shape()
    before, after = _volume(block), _volume(shape)
    gone = before - after
    if not BRepCheck_Analyzer(shape, True, many).IsValid() or abs(after - _volume(result)) > _NOISE * before:
        return result, "solid-invalid"
    if gone <= _NOISE * min(before, most_mm3) or gone > most_mm3 * (1 + _NOISE):
        return result, "cut-implausible"
    return shape, "part-in-pieces" if len(solids) > 1 else ""


_FAULTS = {
    "no-size": ("its cut has no size", "give it a width, a diameter and a depth above 0"),
    "cut-failed": ("the solid could not be cut", "move or resize it by a little; report the spec if it is sound"),
    "nothing-left": ("nothing is left of the part", "check sizes and heights"),
    "solid-invalid": ("the cut leaves a broken solid", "look for walls of no thickness and faces that only touch"),
    "cut-implausible": ("the cut took away nothing or more than it can", "check its sizes and place"),
    "part-in-pieces": ("the part falls into pieces", "leave metal between the cuts"),
}


def _one_by_one(block: Shape, volumes: Mapping[str, Volume], fault: str) -> Body:
    """Cut feature by feature to learn which one is at fault; the body goes on without a broken cut."""
    shape = block
    findings: list[Finding] = []
    for id_, volume in volumes.items():
        result, own_fault = _cut(shape, [volume])
        if own_fault == "cut-implausible" and not _NOISE * _volume(shape) < _volume(shape) - _volume(result):
            continue
        if own_fault and not (own_fault == "part-in-pieces" and findings):
            findings.append(_fault(own_fault, id_))
        if own_fault in ("", "part-in-pieces"):
            shape = result
    return Body(shape, tuple(findings) or (_fault(fault, ""),))


def _fault(code: str, feature: str) -> Finding:
    message, advice = _FAULTS[code]
    return error(code, f"{feature or 'all features together'}: {message}", feature=feature, try_=advice)


def _missed(feature: Feature) -> Finding:
    return error(
        "feature-outside-stock",
        f"{feature.id} lies outside the stock and would cut nothing",
        feature.place,
        feature=feature.id,
        try_="check its place, its heights and the face that it is cut from",
    )


def _idle(part: Part, volumes: Mapping[str, Volume]) -> tuple[Finding, ...]:
    """Tell of features that could be left out of the spec; a round boss stands, it need not cut."""
    box, stand = part.stock.box, {feature.id for feature in part.features if feature.kind == "round boss"}
    found = []
    for id_ in perhaps_idle(box, volumes):
        rest = {key: volume for key, volume in volumes.items() if key != id_}
        if id_ in stand:
            continue
        whole = volume_mm3(build(box, volumes))
        if volume_mm3(build(box, rest)) - whole <= _NOISE * whole:
            place = part.feature(id_).place
            message = f"{id_} takes nothing away that other features do not take already"
            found.append(caution("feature-without-effect", message, place, feature=id_, try_="leave it out or move it"))
    return tuple(found)


def _reaches(volume: Volume, part: Part) -> bool:
    return any(overlap(bounds(shape), part.stock.box) for shape in volume)


def _with_places(findings: tuple[Finding, ...], part: Part) -> tuple[Finding, ...]:
    places = {feature.id: feature.place for feature in part.features}
    return tuple(
        Finding(f.code, f.severity, f.message, places.get(f.feature), f.feature, try_=f.try_) for f in findings
    )


def _volume(shape: Shape) -> float:
    properties = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, properties)
    return float(properties.Mass())


def _list(shapes: Sequence[Shape]) -> Shape:
    found = List_TopoDS_Shape()
    for shape in shapes:
        found.Append(shape)
    return found
