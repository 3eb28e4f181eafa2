"""The tree of a text file: what stands where, as written. Nothing in it has become a number yet.

A ``Scalar`` is always text (``no``, ``010``, ``6:1`` and ``1e3`` stay what they are) until the
stage that knows what belongs there reads it.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeAlias

from setupsheet.finding import Place


@dataclass(frozen=True, slots=True)
class Scalar:
    """One written value; ``plain`` is False where it stood in quotes or in a text block."""

    text: str
    place: Place
    plain: bool = True

    @property
    def empty(self) -> bool:
        """Tell whether nothing at all was written."""
        return self.plain and self.text == ""

    def at(self, offset: int) -> Place:
        """Return the place of the character at ``offset`` in the text."""
        return Place(self.place.file, self.place.line, self.place.column + offset + (0 if self.plain else 1))


@dataclass(frozen=True, slots=True)
class Entry:
    """A key and its value; the key keeps its own place."""

    key: Scalar
    value: Node


@dataclass(frozen=True, slots=True)
class Mapping:
    """Keys and values in the order written. ``weight`` and ``depth`` count what aliases unfold to."""

    place: Place
    entries: dict[str, Entry] = field(default_factory=dict)
    weight: int = 1
    depth: int = 1

    def get(self, key: str) -> Node | None:
        """Return the value of a key, None if it is not there."""
        entry = self.entries.get(key)
        return entry.value if entry else None

    def key_place(self, key: str) -> Place:
        """Return the place of a key, of the mapping if it is not there."""
        entry = self.entries.get(key)
        return entry.key.place if entry else self.place


@dataclass(frozen=True, slots=True)
class Sequence:
    """Values in a list."""

    place: Place
    items: tuple[Node, ...] = ()
    weight: int = 1
    depth: int = 1


Node: TypeAlias = "Scalar | Mapping | Sequence"


def weight(node: Node) -> int:
    """Return how many nodes a node unfolds to."""
    return 1 if isinstance(node, Scalar) else node.weight


def depth(node: Node) -> int:
    """Return how deep a node is nested."""
    return 0 if isinstance(node, Scalar) else node.depth


def child(node: Node | None, *path: str) -> Node | None:
    """Return what stands at a path of keys, None where any of them is missing."""
    for key in path:
        if not isinstance(node, Mapping):
            return None
        node = node.get(key)
    return node
