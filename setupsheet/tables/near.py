"""The nearest thing that exists, for a word that a table does not hold."""

from __future__ import annotations

from collections.abc import Iterable


def distance(one: str, other: str) -> int:
    """Return how many letters must be put in, left out, changed or swapped with the next to get ``other``."""
    before: list[int] = []
    above = list(range(len(other) + 1))
    for row, letter in enumerate(one, 1):
        line = [row]
        for column, wanted in enumerate(other, 1):
            steps = min(above[column - 1] + (letter != wanted), above[column] + 1, line[-1] + 1)
            if row > 1 and column > 1 and letter == other[column - 2] and one[row - 2] == wanted:
                steps = min(steps, before[column - 2] + 1)
            line.append(steps)
        before, above = above, line
    return above[-1]


def nearest(word: str, known: Iterable[str]) -> str:
    """Return the known word that differs least from ``word``; the first of equals, '' of none.

    Capitals decide only between words that are otherwise equally near.
    """
    return min(known, key=lambda other: (distance(word.lower(), other.lower()), distance(word, other)), default="")
