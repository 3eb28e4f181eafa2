"""How the part is held: jaws, parallels, what stands proud, as words and as bodies in the setup frame."""

from __future__ import annotations

from dataclasses import dataclass, replace

from setupsheet.finding import Finding, error
from setupsheet.part.face import Box, Face
from setupsheet.part.part import Part, SetupAsked
from setupsheet.part.shop import Parallel, Shop, Vise
from setupsheet.plan.bench import Removed
from setupsheet.plan.record import Body, Hold
from setupsheet.plan.setup.parallels import (
    Bed,
    Pieces,
    Round,
    alike,
    laid_clear,
    meets,
    pick_parallel,
    pieces_clear,
)
from setupsheet.plan.sizes import length
from setupsheet.solid import column
from setupsheet.solid.laid import Laid, lay

JAW_THICKNESS_MM = 25.0
"""Drawn thickness of a jaw; nothing is decided by it."""

LEAST_GRIP_MM = 3.0
"""Common practice, no source (planning rule M36)."""

OUT_MM = 0.5
"""From how far on an end that stands out past the jaws is told. Common practice, no source."""

_DEFAULT_RAIL_MM = 60.0


@dataclass(frozen=True, slots=True)
class Grip:
    """What the jaws hold: ``box`` is the body now as a box in the setup frame, heights are setup Z."""

    vise: Vise | None
    parallel: Parallel | None
    rest_z: float
    jaw_top: float
    grip_mm: float
    box: Box
    jaws_x: tuple[float, float]
    jaws_y: tuple[float, float]
    envelope: Box
    alike: tuple[Parallel, ...] = ()
    """Other parallels of the same height, for where these would lie under a hole."""
    pieces: Pieces | None = None
    """The packing that lies across the vise where no parallels are clear of the holes."""


def body_box(part: Part, laid: Laid, removed: Removed) -> Box:
    """Return the extent of the metal that is there now, in the setup frame.

    Each face counts as finished once metal is gone over its middle.
    """
    low, high = [0.0] * 3, [0.0] * 3
    for face in Face:
        index, sign = laid.where(face)
        others = face.in_plane
        middle = tuple((part.box.low[i] + part.box.high[i]) / 2 for i in others)
        surface = _first_metal(part, removed, face, (middle[0], middle[1]))
        value = laid.along(index, surface)
        (high if sign > 0 else low)[index] = value
    return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _first_metal(part: Part, removed: Removed, face: Face, middle: tuple[float, float]) -> float:
    """Return the outermost surface met from a face, looked for around the middle of the part."""
    u, v = face.in_plane
    size = part.box.size
    best: float | None = None
    for du in (0.0, -0.23, 0.31, 0.45, -0.45):
        for dv in (0.0, 0.23, -0.31, 0.45, -0.45):
            at = (middle[0] + du * size[u], middle[1] + dv * size[v])
            found = column.surface(part.stock.box, removed, face, at)
            if found is not None and (best is None or found * face.sign > best * face.sign):
                best = found
    return part.stock.box.at(face) if best is None else best


def grip(part: Part, shop: Shop, laid: Laid, asked: SetupAsked, removed: Removed) -> tuple[Grip, list[Finding]]:
    """Work out what the jaws hold and which parallels lie under the part."""
    body = body_box(part, laid, removed)
    vise = shop.vises[0] if asked.in_vise and shop.vises else None
    rest, ends = body.low[2], laid.box(part.box)
    if vise is None:
        none = Grip(None, None, rest, rest, 0.0, body, (body.low[0], body.high[0]), (body.low[1], body.high[1]), ends)
        return none, []
    want = asked.hold.grip_mm if asked.hold and asked.hold.grip_mm else max(LEAST_GRIP_MM, body.size[2] / 3)
    parallel, got, findings = pick_parallel(part, shop, vise, asked, want)
    jaws_y = _gripped(part, laid, removed, (rest, rest + got))
    others = alike(shop, parallel) if parallel else ()
    held = Grip(vise, parallel, rest, rest + got, got, body, _jaws_x(laid, asked, vise, body), jaws_y, ends, others)
    opened = jaws_y[1] - jaws_y[0]
    if opened > vise.opening_mm:
        findings.append(
            error(
                "vise-too-small",
                f"{length(opened, part.unit)} between the jaws: {vise.name} opens {length(vise.opening_mm, part.unit)}",
                asked.place,
                found=length(opened, part.unit),
                allowed=f"up to {length(vise.opening_mm, part.unit)}",
                try_="turn the part so that its shorter side lies between the jaws, or clamp it to the table",
            )
        )
    return held, findings


def _gripped(part: Part, laid: Laid, removed: Removed, heights: tuple[float, float]) -> tuple[float, float]:
    """Return Y of the two surfaces that the jaws bear on: the outermost metal in the gripped height."""
    front, back = laid.face(1, -1), laid.face(1, 1)
    ends = {}
    for face in (front, back):
        found = []
        for share in (0.1, 0.3, 0.5, 0.7, 0.9):
            for height in (heights[0] + 0.2, (heights[0] + heights[1]) / 2, heights[1] - 0.2):
                x = laid.box(part.box).low[0] + share * laid.box(part.box).size[0]
                point = laid.to_part((x, 0.0, height))
                u, v = face.in_plane
                surface = column.surface(part.stock.box, removed, face, (point[u], point[v]))
                if surface is not None:
                    found.append(laid.along(1, surface))
        at = laid.box(part.stock.box)
        ends[face] = (min if face is front else max)(found) if found else (at.low if face is front else at.high)[1]
    return ends[front], ends[back]


def _jaws_x(laid: Laid, asked: SetupAsked, vise: Vise, body: Box) -> tuple[float, float]:
    """Return where the jaws begin and end along X: about the part, or with an end hanging out."""
    half = vise.jaw_length_mm / 2
    for face, out in (asked.hold.overhang_mm if asked.hold else {}).items():
        index, sign = laid.where(face)
        if index == 0 and sign < 0:
            start = body.low[0] + out
            return start, start + vise.jaw_length_mm
        if index == 0:
            end = body.high[0] - out
            return end - vise.jaw_length_mm, end
    middle = (body.low[0] + body.high[0]) / 2
    return middle - half, middle + half


def hold_plan(part: Part, held: Grip, asked: SetupAsked, z_faced: float, through: tuple[Round, ...]) -> Hold:
    """Return the hold as the plan carries it; ``through`` are the places where cutters come out below."""
    if held.vise is None:
        return _on_table(part, held, asked, z_faced)
    before, after = held.box.high[2] - held.jaw_top, z_faced - held.jaw_top
    sizes = {"grip": held.grip_mm, "proud_before": before, "proud_after": after}
    under: tuple[float, ...] = ()
    if held.parallel:
        bed = Bed(held.jaws_x, held.jaws_y, through, part.unit)
        choices = (held.parallel, *held.alike)
        parallel, under = laid_clear(choices, bed)
        ends = held.box.low[0], held.box.high[0]
        held = replace(held, parallel=parallel, pieces=pieces_clear(bed, ends) if meets(parallel, under, bed) else None)
    return Hold(
        "vise",
        _words(part, held, asked, under),
        held.grip_mm,
        before,
        after,
        held.jaw_top,
        "packing" if held.pieces else "parallels" if held.parallel else "vise bed",
        _bodies(held, under),
        {name: length(value, part.unit) for name, value in sizes.items()},
    )


def _words(part: Part, held: Grip, asked: SetupAsked, under: tuple[float, ...]) -> tuple[str, ...]:
    words: list[str] = []
    rest = asked.hold.rest if asked.hold else None
    if held.pieces:
        words += _pieces_words(part, held)
    elif held.parallel and rest and rest.on.startswith("packing"):
        words.append(f"on packing {length(held.parallel.height_mm, part.unit)} high, flat and clean")
        words.append("tap the part down: the packing must be tight")
    elif held.parallel:
        high, thick = (length(v, part.unit) for v in (held.parallel.height_mm, held.parallel.thickness_mm))
        words.append(f"on parallels {high} high, {thick} thick, {_where(part, held, under)}")
        words.append(_tap_down(part, held, asked))
    if _sawn_at_moving_jaw(held):
        words.append("a round bar between the moving jaw and the part: the finished face must bear on the fixed jaw")
    for face, out in (asked.hold.overhang_mm if asked.hold else {}).items():
        flush = ", parallels flush with the jaws there: the cutter goes down beside them" if held.parallel else ""
        words.append(f"the part's {face.value} end stands {length(out, part.unit)} out past the jaws{flush}")
    return (*words, *_ends_out(part, held, asked))


def _pieces_words(part: Part, held: Grip) -> tuple[str, ...]:
    assert held.parallel is not None
    assert held.pieces is not None
    high, wide = (length(v, part.unit) for v in (held.parallel.height_mm, held.pieces.wide_mm))
    gaps = (held.pieces.left - held.box.low[0], held.box.high[0] - held.pieces.right - held.pieces.wide_mm)
    left, right = (
        f"at the {name} end" if gap < OUT_MM else f"{length(gap, part.unit)} in from the {name} end"
        for name, gap in zip(("left", "right"), gaps, strict=True)
    )
    return (
        f"on two equal pieces of packing {high} high and {wide} wide, across the vise, one {left}, one {right}: "
        "parallels would lie under a hole",
        "tap the part down: both pieces must be tight",
    )


def ends_out(held: Grip, asked: SetupAsked) -> dict[Face, float]:
    """Return the ends of the part that stand out past the jaws, and how far; none without jaws."""
    if held.vise is None:
        return {}
    laid = lay(asked.up, asked.back, (0.0, 0.0, 0.0))
    by = ((-1, held.jaws_x[0] - held.box.low[0]), (1, held.box.high[0] - held.jaws_x[1]))
    return {laid.face(0, sign): out for sign, out in by if out >= OUT_MM}


def _ends_out(part: Part, held: Grip, asked: SetupAsked) -> tuple[str, ...]:
    """Say which ends stand out past the jaws though nobody asked for it, and what to do there."""
    wanted = asked.hold.overhang_mm if asked.hold else {}
    found = [(face.value, length(out, part.unit)) for face, out in ends_out(held, asked).items() if face not in wanted]
    if not found:
        return ()
    (name, out), *more = found
    said = f"the part's {name} end stands {out}" + "".join(f" and its {name} end {out}" for name, out in more)
    return (f"{said} out past the jaws: light cuts there, a jack under an end that springs",)


def _tap_down(part: Part, held: Grip, asked: SetupAsked) -> str:
    sawn = asked.up.opposite not in part.stock.as_bought and held.rest_z < held.envelope.low[2] - 1e-6
    return (
        "tap the part down; a sawn face below may rock" if sawn else "tap the part down: both parallels must be tight"
    )


def _sawn_at_moving_jaw(held: Grip) -> bool:
    """Tell whether a finished face lies at the fixed jaw and a face still to be cut at the moving one."""
    assert held.vise is not None
    finished = [
        abs(held.jaws_y[i] - edge) < 1e-6 for i, edge in ((0, held.envelope.low[1]), (1, held.envelope.high[1]))
    ]
    fixed, moving = (finished[1], finished[0]) if held.vise.fixed == "back" else (finished[0], finished[1])
    return fixed and not moving


def _where(part: Part, held: Grip, under: tuple[float, ...]) -> str:
    """Return where the parallels lie: against the jaws, or moved in to be clear of holes."""
    assert held.parallel is not None
    gaps = (under[0] - held.jaws_y[0], held.jaws_y[1] - under[1] - held.parallel.thickness_mm)
    names = ("the front jaw", "the back jaw")
    words = [
        f"one against {name}" if gap < 1e-6 else f"one {length(gap, part.unit)} in from {name}, clear of the holes"
        for name, gap in zip(names, gaps, strict=True)
    ]
    return "one against each jaw" if max(gaps) < 1e-6 else "; ".join(words)


def _on_table(part: Part, held: Grip, asked: SetupAsked, z_faced: float) -> Hold:
    """Return the hold of a part that is clamped to the table, on packing where the author says so."""
    rest = asked.hold.rest if asked.hold else None
    packing = rest.height_mm if rest and rest.on.startswith("packing") and rest.height_mm else 0.0
    on = f"on packing {length(packing, part.unit)} high, " if packing else ""
    words = (
        f"clamp it {on}to the table, square to the travel; clamps clear of everything that is cut",
        *(("packing under each clamp and clear of all that is cut through",) if packing else ()),
    )
    before, after = held.box.high[2] - held.rest_z, z_faced - held.rest_z
    top = held.rest_z - packing
    table = Body("table", (*_wide(held.box.low, -50), top - 20), (*_wide(held.box.high, 50), top))
    return Hold("clamps", words, 0.0, before, after, held.rest_z, "packing" if packing else "table", (table,))


def _bodies(held: Grip, under: tuple[float, ...]) -> tuple[Body, ...]:
    assert held.vise is not None
    (x0, x1), (y0, y1) = held.jaws_x, held.jaws_y
    parallel_height = held.parallel.height_mm if held.parallel else 0.0
    bed = held.rest_z - parallel_height
    back, front = (y1, y1 + JAW_THICKNESS_MM), (y0 - JAW_THICKNESS_MM, y0)
    fixed, moving = (back, front) if held.vise.fixed == "back" else (front, back)
    bodies = [
        Body("fixed jaw", (x0, fixed[0], bed), (x1, fixed[1], held.jaw_top)),
        Body("moving jaw", (x0, moving[0], bed), (x1, moving[1], held.jaw_top)),
        Body("vise bed", (x0, y0 - _DEFAULT_RAIL_MM, bed - 20.0), (x1, y1 + _DEFAULT_RAIL_MM, bed)),
    ]
    if held.pieces:
        for name, low in (("packing at the left", held.pieces.left), ("packing at the right", held.pieces.right)):
            bodies.append(Body(name, (low, y0, bed), (low + held.pieces.wide_mm, y1, held.rest_z)))
    elif held.parallel:
        thick, half = held.parallel.thickness_mm, held.parallel.length_mm / 2
        middle = (x0 + x1) / 2
        for name, low in zip(("parallel at the front", "parallel at the back"), under, strict=True):
            bodies.append(Body(name, (middle - half, low, bed), (middle + half, low + thick, held.rest_z)))
    return tuple(bodies)


def _wide(corner: tuple[float, float, float], by: float) -> tuple[float, float]:
    return corner[0] + by, corner[1] + by
