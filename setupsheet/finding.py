"""Findings: the one way in which any stage says that something is wrong.

A stage never prints and never stops the program: it returns its result together with the findings
it gathered, and ``cli/`` shows them. A finding says what is wrong (``message``), where (``place``,
``feature``), what was found, what is allowed and one thing to try.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Severity(StrEnum):
    """How much a finding matters: an error stops the papers, a caution is printed on them."""

    ERROR = "error"
    CAUTION = "caution"
    NOTE = "note"


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A place in a text file; line and column count from 1, 0 means the file as a whole."""

    file: str
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        """Return the place as file:line:column."""
        return f"{self.file}:{self.line}:{self.column}" if self.line else self.file


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that somebody has to know.

    ``code`` is a lower-case phrase with hyphens that names the fault found (``hole-outside-part``);
    ``because`` says what would happen at the machine; ``try_`` is one thing to do about it.
    """

    code: str
    severity: Severity
    message: str
    place: Place | None = None
    feature: str = ""
    found: str = ""
    allowed: str = ""
    try_: str = ""
    because: str = ""
    source: str = ""

    def as_json(self) -> dict[str, object]:
        """Return the finding in the form that ``check --format json`` and plan.json carry."""
        return {
            "code": self.code,
            "severity": self.severity.value,
            "message": self.message,
            "file": self.place.file if self.place else "",
            "line": self.place.line if self.place else 0,
            "column": self.place.column if self.place else 0,
            "feature": self.feature,
            "found": self.found,
            "allowed": self.allowed,
            "try": self.try_,
            "because": self.because,
            "source": self.source,
        }


Findings = list[Finding]

_RANK = {Severity.ERROR: 0, Severity.CAUTION: 1, Severity.NOTE: 2}


def error(code: str, message: str, place: Place | None = None, **more: str) -> Finding:
    """Return an error; ``more`` names further fields of Finding."""
    return Finding(code, Severity.ERROR, message, place, **more)


def caution(code: str, message: str, place: Place | None = None, **more: str) -> Finding:
    """Return a caution; ``more`` names further fields of Finding."""
    return Finding(code, Severity.CAUTION, message, place, **more)


def note(code: str, message: str, place: Place | None = None, **more: str) -> Finding:
    """Return a note; ``more`` names further fields of Finding."""
    return Finding(code, Severity.NOTE, message, place, **more)


def has_errors(findings: Findings) -> bool:
    """Tell whether any finding stops the papers."""
    return any(finding.severity is Severity.ERROR for finding in findings)


def in_order(findings: Findings) -> Findings:
    """Return the findings, errors first, then by place, those without one last; equal ones only once."""
    unique = list(dict.fromkeys(findings))
    return sorted(unique, key=lambda f: (_RANK[f.severity], f.place is None, f.place or Place(""), f.code, f.message))
