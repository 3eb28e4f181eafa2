"""What a look-up raises when a callout names nothing that the tables hold."""

from __future__ import annotations

import re


class NotInTables(ValueError):  # noqa: N818 - it says what is the case; the reader turns it into a finding
    """A size, fit, thread or drill that no table holds.

    ``message`` is one sentence that says why, ``found`` the text looked up, ``nearest`` the nearest
    things that do exist, best first ('' or several with commas between). ``examples`` are things of each
    sort, where nothing is near.
    """

    def __init__(self, message: str, found: str = "", nearest: str = "", *, examples: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.found = found
        self.nearest = nearest
        self.examples = examples

    def __str__(self) -> str:
        """Return the sentence, with the nearest thing behind it."""
        if self.examples:
            return f"{self.message}; such as: {self.examples}"
        return f"{self.message}; nearest: {self.nearest}" if self.nearest else self.message


def refuse_decimal_comma(words: str) -> None:
    """Raise NotInTables for a size written with a decimal comma, with what was meant as the nearest thing."""
    if comma := re.search(r"\d+,\d+", words):
        raise NotInTables("a decimal point is wanted, not a comma", comma[0], words.replace(",", "."))
