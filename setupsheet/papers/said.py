"""What a page says: a text together with where its value stands in plan.json.

The rule that the tests hold for every ``Said`` with a path: the pointer resolves in ``as_json(plan)`` and
the text is the one that stands there. A pointer to a number means its text in the ``shown`` beside it
(the field's own name in ``shown``); a whole number (rpm, a count) is its own text.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Said:
    """A printed text and the JSON pointer of its value in plan.json ('' for words of the page itself)."""

    text: str
    path: str = ""

    def __bool__(self) -> bool:
        """Tell whether there is anything to print."""
        return bool(self.text)


NOTHING = Said("")
"""Nothing to print."""


def each(texts: Sequence[str], path: str) -> tuple[Said, ...]:
    """Return the texts of a tuple in the plan that stands at ``path``; empty ones are left out."""
    return tuple(Said(text, f"{path}/{index}") for index, text in enumerate(texts) if text)


def shown(texts: dict[str, str], key: str, path: str) -> Said:
    """Return the text of a ``shown`` dict (its pointer is ``path``), or NOTHING where the key is missing."""
    return Said(texts[key], f"{path}/{key}") if texts.get(key) else NOTHING
