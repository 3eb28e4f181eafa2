"""The whole checked part: stock, envelope, datums, features, and the setups that were asked for."""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.finding import Place
from setupsheet.length import Length, Unit
from setupsheet.part.face import Box, Face
from setupsheet.part.feature import Feature, Size
from setupsheet.part.geometry import FaceAsked
from setupsheet.part.mate import Mate
from setupsheet.plane import Point2


@dataclass(frozen=True, slots=True)
class Stock:
    """What is bought or sawn. ``box`` is where the stock lies in the part frame.

    ``as_bought`` holds the faces used as they come with their tolerance (± mm); all other faces are
    machined and have ``remove_mm`` over the finished envelope.
    """

    form: str
    box: Box
    size: tuple[Length, Length, Length]
    remove_mm: dict[Face, float]
    as_bought: dict[Face, float]


@dataclass(frozen=True, slots=True)
class Datum:
    """A datum letter and what it names: a face, or a feature's axis (``feature`` not '')."""

    letter: str
    face: Face | None
    feature: str = ""


@dataclass(frozen=True, slots=True)
class GeneralTolerance:
    """What holds where no tolerance is written.

    ``standard`` 'ISO 2768-1' with ``grade`` f, m, c or v; or 'by places' with ``by_places_mm`` (a
    number of decimal places, -1 for fractions -> ± mm). ``angle_deg`` is the ± for angles.
    """

    standard: str
    grade: str
    by_places_mm: dict[int, float]
    angle_deg: float
    written: str


@dataclass(frozen=True, slots=True)
class Rest:
    """What the part rests on: ``parallels`` or ``table`` or ``packing``; ``under`` names the surface."""

    on: str
    under: str
    height_mm: float | None = None


@dataclass(frozen=True, slots=True)
class HoldAsked:
    """How the author wants the part held; None where the plan decides.

    ``centred`` names what stands over the middle of a rotary table.
    """

    in_: str
    grip_mm: float | None
    rest: Rest | None
    overhang_mm: dict[Face, float]
    place: Place
    centred: str = ""


@dataclass(frozen=True, slots=True)
class ZeroAsked:
    """Where one axis is zero (``at``: a point name, feature id, face or datum letter) and how it is found.

    ``found`` is the author's text: 'stock right', 'indicate bearing-bore', 'finished front',
    'measure over ...', 'raw', 'faced'. ``expect_mm`` is the author's own cross-check, or None.
    """

    at: str
    found: str
    expect_mm: float | None
    place: Place


@dataclass(frozen=True, slots=True)
class TiltAsked:
    """A part set to an angle: ``feature`` is to lie level, or ``raised`` (left, right) goes up by ``degrees``.

    ``words`` is the author's text. The part is stood up as the setup says and then turned about machine Y.
    """

    words: str
    feature: str
    raised: str
    degrees: float
    place: Place


@dataclass(frozen=True, slots=True)
class SetupAsked:
    """A setup as written in the spec. ``back`` is the part face at the fixed jaw (or away from you)."""

    name: str
    up: Face
    back: Face
    in_vise: bool
    turn: str
    hold: HoldAsked | None
    zero: dict[str, ZeroAsked]
    check_first: str
    do: tuple[str, ...]
    place: Place
    machine: str = ""
    tilt: TiltAsked | None = None


@dataclass(frozen=True, slots=True)
class Default:
    """A value that the spec left open and the program filled in."""

    path: str
    value: str
    reason: str


@dataclass(frozen=True, slots=True)
class Title:
    """Fields of the title block (ISO 7200) that the author may write; '' where not given."""

    owner: str = ""
    creator: str = ""
    approver: str = ""
    date: str = ""
    document_type: str = "part drawing"
    language: str = "en"


@dataclass(frozen=True, slots=True)
class Revision:
    """One row of the revision table."""

    letter: str
    date: str
    change: str


@dataclass(frozen=True, slots=True)
class Drawing:
    """How the author wants the drawing: standard ``iso`` or ``asme``, projection ``first`` or ``third``."""

    standard: str
    projection: str
    sheet: str = ""
    decimal_sign: str = "."


@dataclass(frozen=True, slots=True)
class Accepted:
    """A caution that the author accepts: its code, the feature it is accepted for ('' for all), and why."""

    code: str
    feature: str
    reason: str
    place: Place


@dataclass(frozen=True, slots=True)
class Written:
    """A length as the author wrote it, and the feature ('' for none) that was being read; inch decimals matter."""

    feature: str
    mm: float
    text: str


@dataclass(frozen=True, slots=True)
class Part:
    """The checked part. All coordinates in the part frame, mm; ``box`` is the finished envelope."""

    name: str
    number: str
    revision: str
    unit: Unit
    material: str
    material_group: str
    density_kg_m3: float
    tolerance: GeneralTolerance
    box: Box
    size: tuple[Length, Length, Length]
    envelope: dict[Face, Size]
    stock: Stock
    datums: tuple[Datum, ...]
    points: dict[str, Point2]
    features: tuple[Feature, ...]
    setups: tuple[SetupAsked, ...]
    deburr_mm: float
    title: Title
    drawing: Drawing
    revisions: tuple[Revision, ...]
    notes: tuple[str, ...]
    defaults: tuple[Default, ...]
    source_file: str
    sha256: str
    files_read: tuple[str, ...]
    accepted: tuple[Accepted, ...] = ()
    mates: tuple[Mate, ...] = ()
    written: tuple[Written, ...] = ()
    quantity: int = 1
    finish: str = ""
    """Surface texture of every face that says nothing else, '' where the spec asks for none."""
    faces: tuple[FaceAsked, ...] = ()

    def feature(self, id_: str) -> Feature:
        """Return the feature with this id; KeyError if there is none."""
        for feature in self.features:
            if feature.id == id_:
                return feature
        raise KeyError(id_)
