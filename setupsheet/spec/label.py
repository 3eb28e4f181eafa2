"""Short labels of holes (R1 ... R6, K1, bore): printed beside each hole and in every table.

A label of one capital letter gets a number behind it; a longer one stands as it is on a single hole,
and gets numbers on a pattern. Where the spec has none, the first free letter of the feature's id
is taken and recorded as a default.
"""

from __future__ import annotations

import string

from setupsheet.finding import Place
from setupsheet.spec.desk import Desk
from setupsheet.spec.tree import Mapping, Node, Scalar

MAX_LETTERS = 12


class Labels:
    """Hands out labels, each once in a part; those that the author wrote are taken from the start."""

    def __init__(self, desk: Desk, features: Node | None) -> None:
        self.desk = desk
        self.taken: dict[str, Place] = {}
        self.letters: set[str] = set()
        for entry in features.entries.values() if isinstance(features, Mapping) else ():
            label = entry.value.get("label") if isinstance(entry.value, Mapping) else None
            if isinstance(label, Scalar):
                self.letters.add(label.text.strip())

    def give(self, id_: str, node: Node | None, count: int, place: Place) -> tuple[str, ...]:
        """Return ``count`` labels for a feature, the first one first."""
        written = self.desk.text(node)
        stem = written or self._free(id_)
        if not written:
            shown = f"{stem}1" if count <= 1 else f"{stem}1 to {stem}{count}"
            self.desk.opened("label", shown, "first free letter of the id")
        if len(stem) > MAX_LETTERS:
            self.desk.wrong(
                "label-too-long", f"{len(stem)} letters", place, found=stem, allowed=f"up to {MAX_LETTERS} letters"
            )
        alone = count == 1 and len(stem) > 1 and bool(written)
        labels = (stem,) if alone else tuple(f"{stem}{number}" for number in range(1, count + 1))
        for label in labels:
            self._take(label, node.place if node else place)
        return labels

    def _free(self, id_: str) -> str:
        for letter in id_.upper() + string.ascii_uppercase:
            if letter in string.ascii_uppercase and letter not in self.letters:
                self.letters.add(letter)
                return letter
        number = len(self.letters)
        self.letters.add(f"H{number}-")
        return f"H{number}-"

    def _take(self, label: str, place: Place) -> None:
        first = self.taken.setdefault(label, place)
        if first is not place:
            self.desk.wrong(
                "label-twice",
                f"{label} is the label of two holes (lines {first.line} and {place.line})",
                place,
                found=label,
                allowed="each label once",
                try_="give one of them another letter by label:",
            )
