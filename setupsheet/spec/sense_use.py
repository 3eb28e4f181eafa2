"""Rules on names: those that mean something else, and those that nothing uses."""

from __future__ import annotations

from setupsheet.part.face import Face
from setupsheet.spec.case import Case
from setupsheet.spec.tree import Mapping, Node, Scalar, Sequence

RESERVED = (*(face.value for face in Face), "all", "outline", "face", "stock", "raw", "faced", "finished")
"""Words of ``do:``, ``found:`` and ``leave:`` that no feature may be called."""


def reserved_name(case: Case) -> None:
    """Test that a feature's id may not be a word that means something else."""
    features = case.tree.get("features")
    for name, entry in features.entries.items() if isinstance(features, Mapping) else ():
        if name in RESERVED:
            case.wrong(
                name,
                "name-taken",
                f"'{name}' means something else in setups",
                entry.key.place,
                found=name,
                allowed="any other name",
                try_=f"{name}-level, or what the feature is for",
            )


def parameter_unused(case: Case) -> None:
    """Test that a parameter that no expression uses has no effect."""
    named = case.tree.get("parameters") if case.whole() else None
    used = case.desk.used | _in_parameters(named)
    for name, entry in named.entries.items() if isinstance(named, Mapping) else ():
        if name not in used:
            case.note(
                "parameter-unused",
                f"{name} is never used",
                entry.key.place,
                found=name,
                allowed=f"={name} somewhere",
                try_="delete it, or write it where its number stands",
            )


def _in_parameters(node: Node | None) -> set[str]:
    """Return the words that stand in expressions of other parameters."""
    words: set[str] = set()
    for entry in node.entries.values() if isinstance(node, Mapping) else ():
        if isinstance(entry.value, Scalar) and entry.value.text.startswith("="):
            spaced = "".join(sign if sign.isalnum() or sign in "-_" else " " for sign in entry.value.text)
            words.update(spaced.split())
    return words


def point_unused(case: Case) -> None:
    """Test that a point that nothing stands at has no effect."""
    points = case.tree.get("points")
    if not isinstance(points, Mapping) or not case.whole():
        return
    used = case.built.points.used | set(_texts(case.tree.get("setups")))
    for name, entry in points.entries.items():
        if name not in used:
            case.note(
                "point-unused",
                f"{name} is never used",
                entry.key.place,
                found=name,
                allowed=f"at: {name} somewhere",
                try_="delete it, or write it where its coordinates stand",
            )


def _texts(node: Node | None) -> list[str]:
    """Return every written value below a node."""
    if isinstance(node, Scalar):
        return [node.text.strip()]
    if isinstance(node, Sequence):
        return [text for item in node.items for text in _texts(item)]
    if isinstance(node, Mapping):
        return [text for entry in node.entries.values() for text in _texts(entry.value)]
    return []
