"""What a rule of ``sense`` looks at: the part as built, its text, and its finished surfaces."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeVar

from setupsheet.finding import Place, caution, error, note
from setupsheet.length import plain
from setupsheet.part.face import Box, Face
from setupsheet.part.feature import Feature
from setupsheet.part.part import Part, SetupAsked
from setupsheet.spec.build import Built
from setupsheet.spec.desk import Desk
from setupsheet.spec.heights import Surfaces
from setupsheet.spec.tree import Mapping, Node, Sequence, child

Kind = TypeVar("Kind")
NOISE = 1e-6
"""mm; float noise of coordinates that were worked out."""


class Case:
    """One part under test."""

    def __init__(self, desk: Desk, built: Built, tree: Mapping) -> None:
        self.desk = desk
        self.built = built
        self.tree = tree
        self.part: Part = built.part
        self.box: Box = built.part.box
        self.surfaces = Surfaces(built.part.box, built.part.features)

    def each(self, kind: type[Kind]) -> Iterator[Kind]:
        """Return every feature of one record type."""
        return (feature for feature in self.part.features if isinstance(feature, kind))

    def ids(self) -> tuple[str, ...]:
        """Return the ids of all features in the text, also of those that could not be read."""
        features = self.tree.get("features")
        return tuple(features.entries) if isinstance(features, Mapping) else ()

    def whole(self) -> bool:
        """Tell whether every feature could be read; else nobody knows what is used."""
        return len(self.built.whole) == len(self.ids())

    def place(self, feature: Feature, *keys: str) -> Place:
        """Return the place of a key of a feature (the first that is there), else of the feature."""
        node = child(self.tree, "features", feature.id)
        if isinstance(node, Mapping):
            for key in keys:
                if key in node.entries:
                    return node.entries[key].value.place
        return feature.place

    def every_setup(self) -> Iterator[tuple[SetupAsked, Node | None]]:
        """Return each setup with its text."""
        node = self.tree.get("setups")
        items = node.items if isinstance(node, Sequence) else ()
        return zip(self.part.setups, [item for item in items if isinstance(item, Mapping)], strict=True)

    def setups(self) -> Iterator[tuple[SetupAsked, Node | None]]:
        """Return each setup that could be read whole, with its text."""
        return ((setup, text) for setup, text in self.every_setup() if setup.place in self.built.whole_setups)

    def wrong(self, feature: str, code: str, message: str, place: Place | None, **more: str) -> None:
        """Write down an error."""
        self.desk.findings.append(error(code, message, place, feature=feature, **more))

    def mind(self, feature: str, code: str, message: str, place: Place | None, **more: str) -> None:
        """Write down a caution."""
        self.desk.findings.append(caution(code, message, place, feature=feature, **more))

    def note(self, code: str, message: str, place: Place | None, **more: str) -> None:
        """Write down a note."""
        self.desk.findings.append(note(code, message, place, **more))

    def shown(self, value_mm: float) -> str:
        """Return a length in the spec's unit as text."""
        unit = self.desk.unit
        return f"{plain(value_mm / float(unit.mm), 3 if unit.mm == 1 else 4)} {unit.short}"


def place_in(setup: SetupAsked, text: Node | None, *path: str) -> Place:
    """Return the place of a key below a setup, else of the setup."""
    node = child(text, *path)
    return node.place if node else setup.place


def along(face: Face) -> str:
    """Return the name of the axis that is square to a face."""
    return "xyz"[face.axis]
