"""Findings as a person reads them, one line each, or as JSON for editors; well set in 80 columns."""

from __future__ import annotations

import json
import os
import sys
import textwrap
from collections.abc import Iterable

import click

from setupsheet.finding import Finding, Findings, Severity

FORMS = ("text", "short", "json")

_COLOURS = {Severity.ERROR: "red", Severity.CAUTION: "yellow", Severity.NOTE: "cyan"}
_LABEL = 9


def as_json(findings: Findings) -> str:
    """Return a list of objects with the keys of the contract."""
    return json.dumps([finding.as_json() for finding in findings], indent=2, ensure_ascii=False)


def as_short(findings: Findings) -> str:
    """Return one line a finding: place, severity, code, message, feature."""
    return "\n".join(_short(finding) for finding in findings)


def as_text(findings: Findings, width: int = 80, *, colour: bool = False) -> str:
    """Return one block a finding: place and what, then feature, found, allowed, try."""
    return "\n\n".join(_block(finding, width, colour) for finding in findings)


def shown(findings: Findings, form: str, *, err: bool = False) -> None:
    """Print findings in one of ``FORMS``, in colour only where a terminal wants it."""
    if form == "json":
        click.echo(as_json(findings), err=err)
    elif findings and form == "short":
        click.echo(as_short(findings), err=err)
    elif findings:
        painted = wants_colour(err=err)
        text = as_text(findings, _width(), colour=painted)
        click.echo(text, err=err, color=painted)


def _width() -> int:
    """Return the terminal's width, at most 80; 80 where there is none."""
    try:
        return min(80, os.get_terminal_size().columns or 80)
    except OSError:
        return 80


def counted(findings: Findings) -> str:
    """Return how many errors, cautions and notes there are: '1 error, 2 cautions'."""
    words = []
    for severity in Severity:
        count = sum(finding.severity is severity for finding in findings)
        if count:
            words.append(f"{count} {severity.value}{'' if count == 1 else 's'}")
    return ", ".join(words) or "no faults"


def wants_colour(*, err: bool = False) -> bool:
    """Tell whether the stream is a terminal that shows colour and nobody said NO_COLOR."""
    stream = sys.stderr if err else sys.stdout
    return stream.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM", "dumb") != "dumb"


def _short(finding: Finding) -> str:
    where = f"{_flat(str(finding.place))}: " if finding.place else ""
    feature = f" [{finding.feature}]" if finding.feature else ""
    return f"{where}{finding.severity.value}: {finding.code}: {_flat(finding.message)}{feature}"


def _flat(text: str) -> str:
    """Return a text on one line; signs that would steer the terminal become question marks."""
    return "".join(sign if sign.isprintable() else "?" for sign in " ".join(text.split()))


def _block(finding: Finding, width: int, colour: bool) -> str:
    head = finding.severity.value
    if colour:
        head = click.style(head, fg=_COLOURS[finding.severity], bold=True)
    place = _flat(str(finding.place)) if finding.place else "the part"
    lines = [f"{place}: {head} {finding.code}"]
    lines += _set(finding.message, "  ", "  ", width)
    for label, text in _rows(finding):
        lines += _set(text, f"    {label:<{_LABEL}}", " " * (4 + _LABEL), width)
    return "\n".join(lines)


def _rows(finding: Finding) -> Iterable[tuple[str, str]]:
    rows = (
        ("feature", finding.feature),
        ("found", finding.found),
        ("allowed", finding.allowed),
        ("try", finding.try_),
        ("because", finding.because),
        ("source", finding.source),
    )
    return (row for row in rows if row[1])


def _set(text: str, first: str, rest: str, width: int) -> list[str]:
    """Return a text in lines of at most ``width``; a word that is longer stays whole."""
    return textwrap.wrap(
        _flat(text),
        width,
        initial_indent=first,
        subsequent_indent=rest,
        break_long_words=False,
        break_on_hyphens=False,
    )
