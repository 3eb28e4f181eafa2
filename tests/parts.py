"""Parts made of records, for tests of the stages behind the reader."""

from __future__ import annotations

from fractions import Fraction

from setupsheet.finding import Place
from setupsheet.length import Length, Unit
from setupsheet.part.face import Box, Face
from setupsheet.part.feature import Feature, Hole, Size, Spot
from setupsheet.part.part import Drawing, GeneralTolerance, Part, Stock, Title
from setupsheet.plane import Point2, Point3

HERE = Place("part.yaml", 1, 1)


def size(nominal: float, lower: float | None = None, upper: float | None = None) -> Size:
    """Return a size with limits; without them it may not vary."""
    low, high = nominal if lower is None else lower, nominal if upper is None else upper
    return Size(nominal, low, high, f"{nominal:g}", "limits")


def block(*features: Feature, high: Point3 = (40.0, 30.0, 20.0), over: float = 2.0) -> Part:
    """Return a block from the origin to ``high`` with features; the stock is larger by ``over`` all round."""
    lengths = tuple(Length(Fraction(str(value)), f"{value:g}") for value in high)
    stock_box = Box((-over, -over, -over), (high[0] + over, high[1] + over, high[2] + over))
    three = (lengths[0], lengths[1], lengths[2])
    return Part(
        name="Block",
        number="B-1",
        revision="A",
        unit=Unit.MM,
        material="aluminium 6082",
        material_group="aluminium",
        density_kg_m3=2700.0,
        tolerance=GeneralTolerance("ISO 2768-1", "m", {}, 1.0, "ISO 2768-1 m"),
        box=Box((0.0, 0.0, 0.0), high),
        size=three,
        envelope={face: size(high[face.axis]) for face in Face},
        stock=Stock("plate", stock_box, three, dict.fromkeys(Face, over), {}),
        datums=(),
        points={},
        features=features,
        setups=(),
        deburr_mm=0.0,
        title=Title(),
        drawing=Drawing("iso", "first"),
        revisions=(),
        notes=(),
        defaults=(),
        source_file=HERE.file,
        sha256="0" * 64,
        files_read=(HERE.file,),
    )


def hole(face: Face, at: Point2, diameter: Size, mouth: float, end: float, id_: str = "hole") -> Hole:
    """Return one plain hole from ``mouth`` to ``end`` (coordinates along the face's axis), right through."""
    return Hole(id_, HERE, face, "plain", diameter, diameter.written, (Spot("H1", at, mouth, end),))
