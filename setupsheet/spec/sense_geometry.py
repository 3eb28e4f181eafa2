"""Rules for geometrical tolerances: the datum exists, and face, axis and datum can stand so to each other."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from setupsheet.finding import Place
from setupsheet.part.face import Face
from setupsheet.part.feature import Hole, RoundBoss
from setupsheet.part.geometry import Geometry
from setupsheet.part.part import Datum
from setupsheet.plane import Point2
from setupsheet.spec.case import Case

_NEAR_MM = 1e-6


@dataclass(frozen=True, slots=True)
class _Asked:
    """One tolerance: of which feature ('' for a face), along which part axis its normal or its own axis lies."""

    name: str
    geometry: Geometry
    axis: int
    face: Face | None
    at: Point2 | None
    place: Place


def _asked(case: Case) -> Iterator[_Asked]:
    for asked in case.part.faces:
        for geometry in asked.geometry:
            yield _Asked(f"the {asked.face} face", geometry, asked.face.axis, asked.face, None, asked.place)
    for feature in case.part.features:
        if isinstance(feature, Hole | RoundBoss):
            at = feature.at if isinstance(feature, RoundBoss) else feature.spots[0].at
            for geometry in feature.geometry:
                place = case.place(feature, "geometry")
                yield _Asked(feature.id, geometry, feature.face.axis, None, at, place)


def geometry_datums(case: Case) -> None:
    """Test that a geometrical tolerance counts from a datum that exists and can stand so to what it is of."""
    datums = {datum.letter: datum for datum in case.part.datums}
    for asked in _asked(case):
        for letter in asked.geometry.datums.split():
            if letter not in datums:
                case.wrong(
                    "" if asked.face else asked.name,
                    "unknown-datum",
                    f"{letter} is no datum",
                    asked.place,
                    found=letter,
                    allowed=", ".join(datums),
                    try_=f"add {letter}: to datums",
                )
                break
        else:
            _stands_so(case, asked, datums)


def _stands_so(case: Case, asked: _Asked, datums: dict[str, Datum]) -> None:
    """Test the first datum: it gives the direction, or the axis."""
    letter = asked.geometry.datums.partition(" ")[0]
    why = _contradiction(case, asked, datums[letter]) if letter else ""
    if why:
        case.wrong(
            "" if asked.face else asked.name,
            "geometry-contradiction",
            f"{asked.geometry.what} of {asked.name} to {letter}: {why}",
            asked.place,
            found=asked.geometry.written,
            allowed="a datum that stands so to it in the finished part",
            try_="name another datum, or another tolerance",
            because="no part made to the other sizes could pass",
        )


def _contradiction(case: Case, asked: _Asked, datum: Datum) -> str:
    """Return why a tolerance cannot be, '' if it can."""
    what = asked.geometry.what
    if (asked.face is not None and asked.face is datum.face) or (asked.face is None and datum.feature == asked.name):
        return "that is the datum itself"
    axis, is_axis, at = _datum(case, datum)
    if axis is None:
        return ""
    if what == "concentricity":
        if not is_axis:
            return "the datum is a face, not an axis"
        same = at is not None and asked.at is not None and all(abs(a - b) < _NEAR_MM for a, b in _pairs(asked.at, at))
        return "" if axis == asked.axis and same else "the two do not stand on one axis"
    along = (axis == asked.axis) == (is_axis == (asked.face is None))
    if what == "parallelism":
        return "" if along else "the two stand square to each other"
    return "the two lie parallel to each other" if along else ""


def _pairs(a: Point2, b: Point2) -> Iterator[tuple[float, float]]:
    return zip(a, b, strict=True)


def _datum(case: Case, datum: Datum) -> tuple[int | None, bool, Point2 | None]:
    """Return the direction of a datum, whether it is an axis, and where that stands."""
    if datum.face is not None:
        return datum.face.axis, False, None
    feature = next((f for f in case.part.features if f.id == datum.feature), None)
    if isinstance(feature, Hole):
        return feature.face.axis, True, feature.spots[0].at
    if isinstance(feature, RoundBoss):
        return feature.face.axis, True, feature.at
    return None, True, None
