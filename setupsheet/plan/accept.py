"""Cautions that the author of a spec accepts with a reason: they become notes that carry it."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.finding import Finding, Findings, Severity, note
from setupsheet.part.part import Accepted, Part


def reason_for(part: Part, finding: Finding) -> str:
    """Return why a caution is accepted, '' if it is not; errors cannot be accepted."""
    row = _row_for(part, finding)
    return row.reason if row else ""


def with_accepted(part: Part, findings: Findings, *, whole: bool = True) -> Findings:
    """Return the findings with accepted cautions as notes.

    ``whole``: every stage has run, so that an acceptance that met nothing is a note too.
    """
    met = {row for finding in findings if (row := _row_for(part, finding))}
    told = [_as_note(finding, reason_for(part, finding)) for finding in findings]
    return [*told, *(_idle(row) for row in part.accepted if whole and row not in met)]


def _row_for(part: Part, finding: Finding) -> Accepted | None:
    if finding.severity is not Severity.CAUTION:
        return None
    rows = [row for row in part.accepted if row.code == finding.code and row.feature in ("", finding.feature)]
    return max(rows, key=lambda row: bool(row.feature), default=None)


def _as_note(finding: Finding, reason: str) -> Finding:
    if not reason:
        return finding
    return replace(finding, severity=Severity.NOTE, message=f"{finding.message} (accepted: {reason})", try_="")


def _idle(row: Accepted) -> Finding:
    where = f" of {row.feature}" if row.feature else ""
    return note(
        "accepted-without-cause",
        f"{row.code}{where} is accepted, and nothing of that name was found",
        row.place,
        feature=row.feature,
        found=row.code,
        allowed="the code of a caution that is given",
        try_="take it out of accept:",
    )
