"""By how much a part is tilted, and which slanted faces lie level then."""

from __future__ import annotations

import math

from setupsheet.finding import Finding, error
from setupsheet.length import fixed
from setupsheet.part.face import FACE_OF, Face
from setupsheet.part.feature import Feature
from setupsheet.part.part import Part, SetupAsked, TiltAsked
from setupsheet.solid.laid import Laid, lay
from setupsheet.solid.slopes import Slope, slopes

LEVEL_MM = 0.001
"""A face that falls by no more than this from end to end lies level: far below what a fine setting holds."""

_LEAST_DEG, _MOST_DEG = 0.1, 89.9


def leaning_deg(slope: Slope, upright: Laid) -> float | None:
    """Return how far a face leans from level, degrees towards the right; None if it does not run along Y."""
    if slope.axis != upright.axes[1]:
        return None
    normal = [0.0, 0.0, 0.0]
    for axis, value in zip(upright.back.in_plane, slope.outward, strict=True):
        normal[axis] = value
    x, z = (upright.signs[i] * normal[upright.axes[i]] for i in (0, 2))
    return math.degrees(math.atan2(x, z))


def turn_deg(part: Part, asked: SetupAsked) -> tuple[float, list[Finding]]:
    """Return the turn about machine Y that a setup asks for (minus raises the right end); 0 with a finding."""
    tilt = asked.tilt
    if tilt is None:
        return 0.0, []
    if tilt.raised:
        return (-tilt.degrees if tilt.raised == "right" else tilt.degrees), []
    upright = lay(asked.up, asked.back, (0.0, 0.0, 0.0))
    feature = next((f for f in part.features if f.id == tilt.feature), None)
    found = {} if feature is None else _ways(feature, part, upright)
    if len(found) == 1:
        return -next(iter(found)), []
    if found:
        return 0.0, [_two_ways(tilt, sorted(found))]
    return 0.0, [_no_way(part, asked, tilt, feature)]


def _ways(feature: Feature, part: Part, upright: Laid) -> dict[float, Slope]:
    """Return the slanted faces of a feature that a tilt can bring level, by their lean."""
    found = {}
    for slope in slopes(feature, part.box):
        lean = leaning_deg(slope, upright)
        if lean is not None and _LEAST_DEG <= abs(lean) <= _MOST_DEG:
            found[round(lean, 9)] = slope
    return found


def level_slopes(part: Part, asked: SetupAsked, turn: float) -> tuple[Slope, ...]:
    """Return every slanted face that lies level once the part is turned about Y by ``turn`` degrees."""
    upright = lay(asked.up, asked.back, (0.0, 0.0, 0.0))
    return tuple(
        slope for feature in part.features for slope in slopes(feature, part.box) if _is_level(slope, upright, turn)
    )


def _is_level(slope: Slope, upright: Laid, turn: float) -> bool:
    lean = leaning_deg(slope, upright)
    return lean is not None and math.radians(abs(lean + turn)) * math.dist(*slope.line) <= LEVEL_MM


def raised_words(turn: float) -> str:
    """Return a tilt as it is written in a spec: 'raise right 20'."""
    return f"raise {'right' if turn < 0 else 'left'} {fixed(abs(turn), 4).rstrip('0').rstrip('.')}"


def _two_ways(tilt: TiltAsked, leans: list[float]) -> Finding:
    ways = [raised_words(-lean) for lean in leans]
    return error(
        "tilt-has-two-ways",
        f"{tilt.feature} has {len(ways)} faces that could lie level",
        tilt.place,
        feature=tilt.feature,
        found=tilt.words,
        allowed=" or ".join(ways),
        try_=f"write tilt: {ways[0]}",
    )


def _no_way(part: Part, asked: SetupAsked, tilt: TiltAsked, feature: Feature | None) -> Finding:
    ways = _that_would_do(part, feature) if feature is not None else []
    return error(
        "tilt-not-possible",
        f"with {asked.up.value} up and {asked.back.value} at the back no tilt brings {tilt.feature} level from above",
        tilt.place,
        feature=tilt.feature,
        found=f"up: {asked.up.value}, fixed-jaw: {asked.back.value}",
        allowed="; ".join(ways) or "a slanted edge or a bevel",
        try_="the edge has to run square to the fixed jaw and to lean upwards: stand the part up another way",
    )


def _that_would_do(part: Part, feature: Feature) -> list[str]:
    """Return the two faces that a part can be stood up by so that the feature comes level."""
    found = []
    for axis in dict.fromkeys(slope.axis for slope in slopes(feature, part.box)):
        ups = [
            face
            for face in Face
            if face.axis != axis and _ways(feature, part, lay(face, FACE_OF[(axis, 1)], (0.0, 0.0, 0.0)))
        ]
        backs = f"{FACE_OF[(axis, 1)].value} or {FACE_OF[(axis, -1)].value}"
        found.append(f"up: {' or '.join(face.value for face in ups)} with fixed-jaw: {backs}")
    return found
