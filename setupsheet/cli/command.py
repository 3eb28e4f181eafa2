"""A command whose help shows an example before anything else."""

from __future__ import annotations

from typing import Any

import click


class Command(click.Command):
    """A click command with an ``example``: one or more command lines, shown first by ``--help``."""

    def __init__(self, *args: Any, example: str, **attributes: Any) -> None:
        super().__init__(*args, **attributes)
        self.example = example

    def format_help(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the example, then what click writes."""
        write_example(formatter, self.example)
        super().format_help(ctx, formatter)


def write_example(formatter: click.HelpFormatter, example: str) -> None:
    """Write the example's lines as they are, each indented."""
    lines = example.strip().splitlines()
    formatter.write("Example:\n" if len(lines) == 1 else "Examples:\n")
    formatter.write("".join(f"  {line.strip()}\n" for line in lines) + "\n")
