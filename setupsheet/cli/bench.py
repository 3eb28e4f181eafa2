"""What the look-ups at the bench share: lengths as written, refusals with the place, numbers on a line, JSON."""

from __future__ import annotations

import importlib
import json
import textwrap
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

import click

from setupsheet.length import Unit, parse
from setupsheet.tables.unknown import NotInTables

if TYPE_CHECKING:
    from setupsheet.part.shop import Shop

_SHOWN = 60
"""Signs of a callout that are shown when it is refused."""
UNITS = tuple(unit.value for unit in Unit)


class NotFound(click.ClickException):
    """A callout that names nothing in the tables: where, why, and the nearest thing that exists."""

    exit_code = 2

    def __init__(self, asked: str, problem: NotInTables) -> None:
        super().__init__(problem.message)
        self.asked = asked if len(asked) <= _SHOWN else f"{asked[:_SHOWN]} ..."
        self.found = problem.found.strip()
        self.nearest = problem.nearest
        self.examples = problem.examples

    def format_message(self) -> str:
        """Return the callout with a mark under what is wrong, the reason, the nearest thing."""
        lines = [self.asked]
        at = self.asked.find(self.found)
        if self.found and at >= 0:
            lines.append(" " * at + "^" * len(self.found))
        lines.append(self.message)
        if self.nearest:
            lines.append(f"nearest: {self.nearest}")
        elif self.examples:
            lines.append(f"write it as one of these: {self.examples}")
        return "\n".join(lines)

    def show(self, file: Any = None) -> None:
        """Print the message on stderr."""
        click.echo(self.format_message(), file=file, err=True)


def length(text: str) -> float:
    """Return a length in mm, written as a machinist does: 6.5, '6.5 mm', '3/8 in'; a bare number is in mm."""
    try:
        return parse(text, Unit.MM).mm
    except ValueError as problem:
        raise click.BadParameter(f"{problem}; write 6.5, '6.5 mm', '3/8 in'") from problem


def shop(path: str) -> Shop:
    """Return the shop of a file; the reader of specs is loaded only where a shop is asked for."""
    read: Callable[[str], Shop] = importlib.import_module("setupsheet.cli.shop_file").read
    return read(path)


def as_json(value: dict[str, Any]) -> None:
    """Print the result for another program."""
    click.echo(json.dumps(value, indent=2, ensure_ascii=False))


def plain(value: float, places: int = 4) -> str:
    """Return a number without trailing zeros, never -0."""
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def table(rows: Sequence[tuple[str, ...]]) -> str:
    """Return rows in columns two blanks apart, without blanks at the end of a line."""
    widths = [max(len(cell) for cell in column) for column in zip(*rows, strict=True)]
    lines = ("  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)) for row in rows)
    return "\n".join(line.rstrip() for line in lines)


def wrapped(label: str, text: str) -> str:
    """Return a text after its label in lines of at most 80 signs, '' if there is none."""
    indent = "  "
    return textwrap.fill(f"{label}: {text}", 80, subsequent_indent=indent, break_long_words=False) if text else ""


def lines(*parts: str) -> str:
    """Return the parts one below the other, without those that are empty."""
    return "\n".join(part for part in parts if part)
