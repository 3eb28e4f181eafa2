"""Where the machine is zero in a setup, and how that zero is found, with the numbers worked out.

An edge finder touches with its side: the spindle then stands half a tip away from the surface, on the
outside of it. A feeler lies between cutter and surface: the cutter's tip then stands its thickness above.
"""

from __future__ import annotations

import math

from setupsheet.finding import Finding, error
from setupsheet.part.face import Face
from setupsheet.part.feature import Hole, RoundBoss
from setupsheet.part.part import Part, SetupAsked, ZeroAsked
from setupsheet.plan.bench import Bench, Removed, surface_at
from setupsheet.plan.places import coordinate, face_of, feature_of
from setupsheet.plan.record import AxisZero
from setupsheet.plan.setup.hold import body_box
from setupsheet.plan.setup.rotary_zero import on_table, table_axis
from setupsheet.plan.sizes import with_unit
from setupsheet.solid import column
from setupsheet.solid.laid import Laid, lay

_AXES = ("x", "y", "z")
_ROUND_MM = 0.01
"""An indicator in a bore that moves no more than this shows its middle. Common practice, no source."""
_SHARES = (0.004, 0.03, 0.13, 0.31, 0.47, 0.62, 0.78, 0.9, 0.97, 0.996)
"""Shares of a side's length and height at which metal is looked for."""

_FROM = {(0, -1): "your left", (0, 1): "your right", (1, -1): "your side of it", (1, 1): "behind it"}


def laid_for(part: Part, asked: SetupAsked) -> tuple[Laid, list[Finding]]:
    """Return how the part lies in a setup, with the zero point that was asked for (or its default)."""
    laid = lay(asked.up, asked.back, (0.0, 0.0, 0.0))
    zero = [0.0, 0.0, 0.0]
    findings = []
    for index, name in enumerate(_AXES):
        axis = laid.axes[index]
        wanted = asked.zero.get(name)
        value = table_axis(part, asked, axis) if index < 2 else None
        value = coordinate(part, wanted.at, axis) if value is None and wanted is not None else value
        if wanted is not None and value is None:
            findings.append(_no_place(wanted, name, part))
        zero[axis] = part.box.at(default_face(laid, index)) if value is None else value
    return lay(asked.up, asked.back, (zero[0], zero[1], zero[2])), findings


def default_face(laid: Laid, index: int) -> Face:
    """Return the face at which an axis is zero when nobody says otherwise: left, front, top."""
    return laid.face(index, 1 if index == 2 else -1)


def find_zero(bench: Bench, removed: Removed, tip_mm: float) -> tuple[tuple[AxisZero, ...], list[Finding]]:
    """Return how each axis' zero is found in this setup with the metal that is there now."""
    zeros, findings = [], []
    for index, name in enumerate(_AXES):
        wanted = bench.asked.zero.get(name)
        found, faults = _find(bench, removed, index, wanted, tip_mm)
        zeros.append(found)
        findings += faults
    return tuple(zeros), findings


def _find(
    bench: Bench, removed: Removed, index: int, wanted: ZeroAsked | None, tip_mm: float
) -> tuple[AxisZero, list[Finding]]:
    text = wanted.found if wanted else ""
    if index == 2:
        return _height(bench, removed, text), []
    if bench.rotary is not None:
        return on_table(bench, bench.rotary, removed, index), []
    words = text.split()
    if "indicate" in words:
        return _indicate(bench, removed, index, words[-1], wanted)
    return _edge(bench, removed, index, words, tip_mm, wanted)


def _at_name(bench: Bench, index: int, wanted: ZeroAsked | None) -> str:
    return wanted.at if wanted else f"{default_face(bench.laid, index).value} face"


def _edge(
    bench: Bench, removed: Removed, index: int, words: list[str], tip_mm: float, wanted: ZeroAsked | None
) -> tuple[AxisZero, list[Finding]]:
    """Touch an edge with the edge finder."""
    named = next((f for f in (face_of(bench.part, word) for word in words) if f), None)
    face = named or default_face(bench.laid, index)
    findings = []
    if bench.laid.where(face)[0] != index:
        findings.append(_wrong_axis(bench, index, face, wanted))
        face = default_face(bench.laid, index)
    _, sign = bench.laid.where(face)
    surface, lip = _touched(bench, removed, face)
    findings += _expected(bench, wanted, index, surface)
    letter = _AXES[index]
    reading = bench.settle(letter, surface + sign * tip_mm / 2)
    name = f"raw lip of the {face.value} face" if lip else f"{_state(bench, index, face, surface)} {face.value} face"
    zero = AxisZero(
        letter,
        _at_name(bench, index, wanted),
        bench.laid.zero[bench.laid.axes[index]],
        "edge finder",
        name,
        _FROM[(index, sign)],
        tip_mm,
        0.0,
        reading,
        f"{letter.upper()} {bench.shown(letter, reading)}",
        _edge_words(bench, (index, sign), name, tip_mm, (surface, lip)),
    )
    return zero, findings


def _touched(bench: Bench, removed: Removed, face: Face) -> tuple[float, float]:
    """Return where a finder meets a side: the outermost metal over the whole side that no jaw hides.

    A raw lip that stands out over a finished side is met first, however thin it is: how far it stands out comes
    second, 0 where there is none.
    """
    index, sign = bench.laid.where(face)
    stock, other = bench.stock, 1 - index
    low = max(stock.low[2], bench.jaw_top if index == 1 else stock.low[2])
    met = []
    for share in _SHARES:
        for height in _SHARES:
            at = [0.0, 0.0, low + (stock.high[2] - low) * height]
            at[other] = stock.low[other] + (stock.high[other] - stock.low[other]) * share
            point = bench.laid.to_part((at[0], at[1], at[2]))
            u, v = face.in_plane
            found = column.surface(bench.part.stock.box, removed, face, (point[u], point[v]))
            if found is not None:
                met.append(bench.laid.along(index, found))
    finished = bench.laid.along(index, bench.part.box.at(face))
    if not met:
        return finished, 0.0
    surface = max(met) if sign > 0 else min(met)
    beside = any(abs(at - finished) < 1e-6 for at in met) and sign * finished > -1e-6
    return surface, abs(surface - finished) if beside else 0.0


def _state(bench: Bench, index: int, face: Face, surface: float) -> str:
    """Return whether a face is raw, used as bought, finished by now, or the raw lip over a finished one."""
    if face in bench.part.stock.as_bought:
        return "as-bought"
    if abs(surface - bench.laid.along(index, bench.part.box.at(face))) < 1e-6:
        return "finished"
    return "raw" if abs(surface - bench.laid.along(index, bench.part.stock.box.at(face))) < 1e-6 else "cut"


def _wrong_axis(bench: Bench, index: int, face: Face, wanted: ZeroAsked | None) -> Finding:
    fit = [bench.laid.face(index, sign).value for sign in (-1, 1)]
    return error(
        "zero-edge-wrong-axis",
        f"the {face.value} face cannot give {_AXES[index].upper()}: it does not point along it in this setup",
        wanted.place if wanted else bench.asked.place,
        found=face.value,
        allowed=" or ".join(fit),
        try_=f"write found: stock {fit[0]}",
    )


_PLACES = {(0, -1): "on your left", (0, 1): "on your right", (1, -1): "towards you", (1, 1): "at the back"}


def _edge_words(bench: Bench, side: tuple[int, int], name: str, tip_mm: float, met: tuple[float, float]) -> str:
    """Say what is touched and what the reading is made of; ``met``: the surface, and how far a lip stands out."""
    letter, (surface, lip) = _AXES[side[0]], met
    half = _in_unit(bench, letter, tip_mm / 2)
    true = abs(surface) - lip
    size = f"{bench.scales[letter].plain(true).lstrip('+-')} to zero" if true > 1e-6 else ""
    stands = f"the lip {_in_unit(bench, letter, lip)}" if lip else ""
    first, *more = [text for text in (size, stands, f"half the tip {half}") if text]
    away = ", and ".join([", ".join([first, *more[:-1]]), *more[-1:]])
    words = f"the {name}, {_PLACES[side]}; finder on the outside of it: {away}"
    if lip:
        words += "; measure first how far it stands out over the milled side below, and put that for the lip"
    if bench.scales[letter].axis.kind == "dial":
        words += f"; then raise the finder, move on {half} over the edge, and that is {bench.shown(letter, surface)}"
    return words


def _in_unit(bench: Bench, letter: str, value_mm: float) -> str:
    return bench.scales[letter].plain(value_mm).lstrip("+")


def _expected(bench: Bench, wanted: ZeroAsked | None, index: int, surface: float) -> list[Finding]:
    if wanted is None or wanted.expect_mm is None or abs(abs(surface) - wanted.expect_mm) < 5e-3:
        return []
    letter = _AXES[index]
    got, said = (_in_unit(bench, letter, value) for value in (abs(surface), wanted.expect_mm))
    return [
        error(
            "zero-not-as-expected",
            f"{got} lies between that edge and zero in {letter.upper()}, not {said}",
            wanted.place,
            found=said,
            allowed=got,
            try_="check stock size, remove: and the place of zero; then write what is true or leave expect: out",
        )
    ]


def _indicate(
    bench: Bench, removed: Removed, index: int, name: str, wanted: ZeroAsked | None
) -> tuple[AxisZero, list[Finding]]:
    """Centre the spindle on a bore or boss with the indicator."""
    feature = feature_of(bench.part, name)
    letter = _AXES[index]
    value = coordinate(bench.part, name, bench.laid.axes[index])
    findings = _cannot_indicate(bench, removed, name, value, wanted)
    value = bench.laid.zero[bench.laid.axes[index]] if value is None else value
    reading = bench.settle(letter, bench.laid.along(index, value))
    inside = isinstance(feature, Hole)
    even = with_unit(_ROUND_MM, bench.part.unit)
    zero = AxisZero(
        letter,
        _at_name(bench, index, wanted),
        bench.laid.zero[bench.laid.axes[index]],
        "indicate",
        name,
        "inside" if inside else "outside",
        0.0,
        0.0,
        reading,
        f"{letter.upper()} {bench.shown(letter, reading)}",
        f"indicator {'in' if inside else 'round'} {name}, the same all round within {even}",
    )
    return zero, findings


def _cannot_indicate(
    bench: Bench, removed: Removed, name: str, value: float | None, wanted: ZeroAsked | None
) -> list[Finding]:
    """Return why an indicator cannot go round in or about a feature now; nothing if it can."""
    feature = feature_of(bench.part, name)
    place = wanted.place if wanted else bench.asked.place
    if not isinstance(feature, Hole | RoundBoss) or value is None or len(getattr(feature, "spots", (0,))) > 1:
        return [
            error(
                "nothing-to-indicate",
                f"{name} is no single bore or boss that an indicator can go round",
                place,
                found=name,
                allowed="the id of one hole or of a round boss",
                try_="name a bored or reamed hole that an earlier setup makes",
            )
        ]
    if isinstance(feature, Hole) and not _is_open(bench, removed, feature):
        return [
            error(
                "indicated-hole-not-there",
                f"{name} cannot be indicated in setup {bench.number}: it is not made yet, or not open from above",
                place,
                feature=name,
                try_=f"make {name} in an earlier setup, or find zero from an edge",
            )
        ]
    return []


def _is_open(bench: Bench, removed: Removed, hole: Hole) -> bool:
    if hole.face.axis != bench.up.axis:
        return False
    x, y = bench.laid.flat(hole.spots[0].at)
    top = surface_at(bench, removed, (x, y))
    return top is None or top < bench.stock.high[2] - 1.0


def _height(bench: Bench, removed: Removed, text: str) -> AxisZero:
    """Find Z: on the raw top with a feeler; where zero is a face, say what makes it true."""
    feeler = feeler_for(bench)
    top = body_box(bench.part, bench.laid, removed).high[2]
    faced = abs(top - bench.envelope.high[2]) < 1e-6
    name = f"{'finished' if faced else 'raw'} {bench.up.value} face"
    reading = bench.settle("z", top + feeler)
    wanted = bench.asked.zero.get("z")
    words = f"feeler {_in_unit(bench, 'z', feeler)} between cutter and the {name}, spindle stopped"
    if text.startswith("measure"):
        words += "; this is rough: Z is set true when that face is clean"
    elif "faced" in text or not text:
        words += "; zero is the face that the first cut leaves" if not faced else ""
    return AxisZero(
        "z",
        wanted.at if wanted else f"finished {bench.up.value} face",
        bench.laid.zero[bench.laid.axes[2]],
        "measure" if text.startswith("measure") else "feeler",
        name,
        "above",
        0.0,
        feeler,
        reading,
        f"Z {bench.shown('z', reading)}",
        words,
    )


def feeler_for(bench: Bench) -> float:
    """Return the feeler that Z is found with: the shop's, or the thinnest above it that the machine can show."""
    step = bench.scales["z"].step_mm
    return math.ceil(bench.shop.feeler_mm / step - 1e-6) * step


def is_measured(bench: Bench) -> bool:
    """Tell whether Z becomes true by measuring the part's thickness over the face that is up."""
    wanted = bench.asked.zero.get("z")
    return wanted is not None and wanted.found.startswith("measure")


def measured_words(bench: Bench) -> str:
    """Return what to measure and what to set then: Z of the face underneath, and the thickness on top of it."""
    wanted = bench.asked.zero["z"].found
    what = wanted.replace("measure over", "measure the thickness t over", 1)
    under = bench.settle("z", bench.envelope.low[2])
    if bench.scales["z"].axis.kind == "dial":
        return f"{what}; with the cutter on this face set Z to {bench.shown('z', under)} and t more"
    size = _in_unit(bench, "z", abs(under))
    formula = "t" if abs(under) < 1e-6 else f"t {'-' if under < 0 else '+'} {size}"
    return f"{what}; with the cutter on this face set Z to {formula}"


def _no_place(wanted: ZeroAsked, letter: str, part: Part) -> Finding:
    names = sorted(part.points) + [f.id for f in part.features] + [d.letter for d in part.datums]
    return error(
        "zero-has-no-place",
        f"{wanted.at!r} has no place along {letter.upper()} in this setup",
        wanted.place,
        found=wanted.at,
        allowed=", ".join(names[:12]),
        try_="name a point, a hole, a face square to this axis, or a datum letter",
    )
