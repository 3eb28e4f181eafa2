"""Tree -> Part. One builder a kind of feature (``KINDS``); every default applied is recorded."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from setupsheet.finding import Place
from setupsheet.length import Length, Unit
from setupsheet.part.face import Box, Face
from setupsheet.part.feature import Feature, Size
from setupsheet.part.part import Part, SetupAsked, Stock, Written
from setupsheet.plane import Point2
from setupsheet.spec import build_area, build_edge, build_groove, build_stock
from setupsheet.spec.build_accept import read_accept
from setupsheet.spec.build_geometry import read_faces
from setupsheet.spec.build_hole import HoleTools, build_hole
from setupsheet.spec.build_pattern import PatternBook
from setupsheet.spec.build_point import Points
from setupsheet.spec.build_setup import read_setups
from setupsheet.spec.desk import Desk
from setupsheet.spec.finish import Draft, finish
from setupsheet.spec.label import Labels
from setupsheet.spec.parameters import read_parameters
from setupsheet.spec.tree import Mapping, Node, Scalar
from setupsheet.tables import material
from setupsheet.tables.unknown import NotInTables

MOST_OF_A_SET = 24
"""Most parts of a set that a measuring page has places for; of more, a sheet of their own is kept."""


@dataclass(frozen=True, slots=True)
class Source:
    """Where a spec came from: its name in the project, the hash of all files read, their names."""

    file: str
    sha256: str
    files: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Tools:
    """What features are read with."""

    desk: Desk
    points: Points
    holes: HoleTools
    box: Box


Builder = Callable[[Tools, Mapping, Place, Face], Feature]

KINDS: dict[str, Builder] = {
    "hole": lambda t, node, place, face: build_hole(t.desk, t.holes, node, place, face),
    "level": lambda t, node, place, face: build_area.build_level(t.desk, t.points, node, place, face),
    "round boss": lambda t, node, place, face: build_area.build_boss(t.desk, t.points, node, place, face),
    "pocket": lambda t, node, place, face: build_area.build_pocket(t.desk, t.points, node, place, face),
    "slot": lambda t, node, place, face: build_area.build_slot(t.desk, t.points, node, place, face),
    "edge cut": lambda t, node, place, face: build_edge.build_edge_cut(t.desk, t.points, node, place, face, t.box),
    "corner radius": lambda t, node, place, face: build_edge.build_corner(t.desk, t.points, node, place, face, t.box),
    "rounded end": lambda t, node, place, face: build_edge.build_rounded_end(t.desk, t.points, node, place, face),
    "ring groove": lambda t, node, place, face: build_groove.build_groove(t.desk, t.points, node, place, face),
    "edge chamfer": lambda t, node, place, face: build_edge.build_edge_chamfer(t.desk, node, place, face),
    "mark": lambda t, node, place, face: build_edge.build_mark(t.desk, t.points, node, place, face),
}
"""Kind of feature -> its builder."""


@dataclass(frozen=True, slots=True)
class Built:
    """What came out: the part (to be trusted only without errors), and what ``sense`` looks at."""

    part: Part
    points: Points
    whole: frozenset[str]
    """Ids of the features that were read without a fault."""
    whole_setups: frozenset[Place]
    """Places of the setups that were read without a fault."""
    sound_sizes: bool
    """Whether size and stock could be read, so that rules about them make sense."""


def build_part(desk: Desk, tree: Mapping, source: Source) -> Built:
    """Put the part together; what could not be read is a finding on the desk."""
    read_parameters(desk, tree.get("parameters"))
    desk.general = build_stock.read_tolerance(desk, tree.get("tolerances"))
    desk.broken = False
    frame = _frame(desk, tree)
    desk.written.clear()
    features = tree.get("features")
    points = Points(desk, tree.get("points"), features)
    named = points.all()
    patterns = tree.get("patterns")
    book = PatternBook(patterns if isinstance(patterns, Mapping) else None)
    tools = Tools(desk, points, HoleTools(points, book, Labels(desk, features)), frame.box)
    drafts, whole = _features(tools, features)
    built = finish(desk, points, frame.box, drafts)
    desk.feature, written = "", tuple(dict.fromkeys(desk.written))
    setups, sound = read_setups(desk, tree.get("setups"))
    part = _part(desk, tree, source, frame, Placed(named, built, setups, written))
    return Built(part, points, whole, sound, frame.sound)


@dataclass(frozen=True, slots=True)
class Frame:
    """Finished size, its box in the part frame, and the stock around it."""

    size: tuple[Length, Length, Length]
    box: Box
    envelope: dict[Face, Size]
    stock: Stock
    sound: bool


def _frame(desk: Desk, tree: Mapping) -> Frame:
    """Read size, origin and stock."""
    size = build_stock.read_three(desk, tree.get("size"), "size")
    box = build_stock.read_box(desk, tree.get("origin"), size)
    envelope = build_stock.read_envelope(desk, tree.get("size"), size)
    stock = build_stock.read_stock(desk, tree.get("stock"), box, size)
    return Frame(size, box, envelope, stock, not desk.broken)


@dataclass(frozen=True, slots=True)
class Placed:
    """Named points, finished features, the setups that were asked for, and the lengths of points and features."""

    points: dict[str, Point2]
    features: tuple[Feature, ...]
    setups: tuple[SetupAsked, ...]
    written: tuple[Written, ...]


def _part(desk: Desk, tree: Mapping, source: Source, frame: Frame, placed: Placed) -> Part:
    """Put the record together; words and setups are read on the way."""
    features = tree.get("features")
    found = _material(desk, tree.get("material"))
    return Part(
        desk.text(tree.get("part")),
        desk.text(tree.get("number")),
        desk.text(tree.get("revision")),
        desk.unit,
        desk.text(tree.get("material")),
        found[0],
        found[1],
        desk.general or build_stock.NO_TOLERANCE,
        frame.box,
        frame.size,
        frame.envelope,
        frame.stock,
        build_stock.read_datums(desk, tree.get("datums"), features),
        placed.points,
        placed.features,
        placed.setups,
        _deburr(desk, tree.get("deburr")),
        build_stock.read_title(desk, tree.get("title_block")),
        build_stock.read_drawing(desk, tree.get("drawing")),
        build_stock.read_revisions(desk, tree.get("revisions")),
        tuple(desk.text(item) for item in desk.items(tree.get("notes"))),
        tuple(desk.defaults),
        source.file,
        source.sha256,
        source.files,
        accepted=read_accept(desk, tree.get("accept")),
        written=placed.written,
        quantity=desk.count(tree.get("quantity"), 1, MOST_OF_A_SET),
        finish=desk.text(tree.get("finish")),
        faces=read_faces(desk, tree.get("faces")),
    )


def read_unit(node: Node | None) -> Unit:
    """Return the unit of a file; ``shape`` reports one that is missing or wrong."""
    word = node.text.strip() if isinstance(node, Scalar) else ""
    return Unit(word) if word in tuple(Unit) else Unit.MM


def _features(tools: Tools, node: Node | None) -> tuple[list[Draft], frozenset[str]]:
    """Build every feature; one that could not be read whole stays out of the draft."""
    desk = tools.desk
    drafts: list[Draft] = []
    for id_, entry in node.entries.items() if isinstance(node, Mapping) else ():
        if not isinstance(entry.value, Mapping):
            continue
        kind = entry.value.get("kind")
        builder = KINDS.get(kind.text.strip()) if isinstance(kind, Scalar) else None
        if builder is None:
            continue
        desk.feature, desk.broken = id_, False
        feature = builder(tools, entry.value, entry.key.place, _from(desk, entry.value))
        if not desk.broken:
            drafts.append(Draft(feature, entry.value))
    desk.broken = False
    return drafts, frozenset(draft.feature.id for draft in drafts)


def _from(desk: Desk, node: Mapping) -> Face:
    """Return the face that a feature is cut from.

    An edge cut measures ``from:`` a point instead; it is cut from the top unless ``face:`` says otherwise.
    """
    key = "face" if desk.text(node.get("kind")) == "edge cut" else "from"
    word = desk.text(node.get(key))
    if word in tuple(Face):
        return Face(word)
    if key not in node.entries:
        desk.opened(key, "top", "features are cut from the top unless said otherwise")
    else:
        desk.broken = True
    return Face.TOP


def _material(desk: Desk, node: Node | None) -> tuple[str, float]:
    """Return the group of cutting data and the density in kg/m3."""
    scalar = desk.scalar(node)
    if not scalar:
        return "", 1.0
    try:
        found = material.find(scalar.text)
    except NotInTables as problem:
        desk.not_in_tables(problem, scalar)
        return "", 1.0
    return found.group, found.density_kg_m3


def _deburr(desk: Desk, node: Node | None) -> float:
    if node is None:
        inch = desk.unit is Unit.INCH
        value, shown = (0.254, "0.010 in") if inch else (0.3, "0.3 mm")
        desk.default("deburr", shown, "broken edges, common practice, no source")
        return value
    return desk.mm(node)
