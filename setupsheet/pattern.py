"""Regular expressions that are compiled when they are first used, not when their file is loaded.

A look-up at the bench tries two or three of the twenty forms that a callout may have; compiling them all
took a quarter of its time.
"""

from __future__ import annotations

import re


class Pattern:
    """A regular expression; the library keeps it once it is compiled."""

    __slots__ = ("_flags", "_text")

    def __init__(self, text: str, flags: int = 0) -> None:
        self._text, self._flags = text, flags

    def match(self, words: str) -> re.Match[str] | None:
        """Match from the start of the words."""
        return re.compile(self._text, self._flags).match(words)

    def fullmatch(self, words: str) -> re.Match[str] | None:
        """Match the words as a whole."""
        return re.compile(self._text, self._flags).fullmatch(words)

    def search(self, words: str) -> re.Match[str] | None:
        """Match anywhere in the words."""
        return re.compile(self._text, self._flags).search(words)

    def sub(self, by: str, words: str) -> str:
        """Put ``by`` in the place of every match."""
        return re.compile(self._text, self._flags).sub(by, words)

    def findall(self, words: str) -> list[str]:
        """Return every match of a pattern with one group at most."""
        return re.compile(self._text, self._flags).findall(words)

    def split(self, words: str) -> list[str]:
        """Split the words where the pattern matches."""
        return re.compile(self._text, self._flags).split(words)
