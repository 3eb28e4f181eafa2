"""The program ``setupsheet``: which commands there are, and how it ends.

A command's module is imported when that command runs and not before, so that a look-up at the bench
loads no CAD kernel. Each module ``setupsheet/cli/<name>.py`` holds one click command called ``command``
that returns its exit code.
"""

from __future__ import annotations

import errno
import importlib
import os
import sys
from typing import Any

import click

from setupsheet import __version__
from setupsheet.cli import trouble
from setupsheet.cli.command import write_example

COMMANDS = {
    "check": "Find every fault of a spec; write nothing.",
    "build": "Write all papers of a part.",
    "new": "Start a part that builds at once.",
    "explain": "Explain a key of the spec, a finding or a trade word.",
    "fit": "Limits and clearance of a fit.",
    "hole": "Chain of cutters for a hole or a thread.",
    "circle": "Positions of equally spaced holes on a circle.",
    "speed": "Spindle speed and feed for a cutter.",
}
"""Name of a command -> what it does in one line; shown by --help, which imports no command."""

EXAMPLE = """setupsheet build specs/worm-bracket.yaml
setupsheet fit "25 H7/g6\""""


class Program(click.Group):
    """The group of all commands; turns whatever they raise into a plain message and an exit code."""

    def list_commands(self, _ctx: click.Context) -> list[str]:
        """Return the names in the order of use, not of the alphabet."""
        return list(COMMANDS)

    def get_command(self, _ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Import a command's module and return its command; None for a name that is none."""
        if cmd_name not in COMMANDS:
            return None
        found: click.Command = importlib.import_module(f"setupsheet.cli.{cmd_name}").command
        return found

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Name the nearest command for one that is not known."""
        name = args[0]
        if name not in COMMANDS and not name.startswith("-"):
            from difflib import get_close_matches  # only a slip needs it

            near = get_close_matches(name, COMMANDS, n=1, cutoff=0.5)
            hint = f"did you mean {near[0]}?" if near else f"there are: {', '.join(COMMANDS)}"
            ctx.fail(f"{name} is no command; {hint}")
        return super().resolve_command(ctx, args)

    def format_help(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the examples, then what click writes."""
        write_example(formatter, EXAMPLE)
        super().format_help(ctx, formatter)

    def format_commands(self, _ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands without importing them."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))

    def main(self, *args: Any, **more: Any) -> Any:
        """Run and exit with a code of the contract; never a traceback."""
        _survive_any_terminal()
        sys.exit(self._ended(*args, **{"prog_name": "setupsheet", **more, "standalone_mode": False}))

    def _ended(self, *args: Any, **more: Any) -> int:
        try:
            code = super().main(*args, **more)
            sys.stdout.flush()
        except click.ClickException as wrong:
            wrong.show()
            return wrong.exit_code
        except click.Abort:
            return trouble.INTERRUPTED
        # the one place where anything may arrive
        except Exception as problem:
            if isinstance(problem, OSError) and problem.errno == errno.EPIPE:
                return _reader_left()
            return trouble.tell(problem)
        return code if isinstance(code, int) else trouble.FINE


def _survive_any_terminal() -> None:
    """Let a terminal without our signs (Ø, ±) show a question mark in their place."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure:
            reconfigure(errors="replace")


def _reader_left() -> int:
    """Return the code of a program whose reader (``| head``) has gone; nothing more can be said to it."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return trouble.READER_LEFT


@click.group(cls=Program, context_settings={"help_option_names": ["--help"]})
@click.version_option(__version__, message="%(prog)s %(version)s")
def main() -> None:
    """From a written part to the papers a manual machinist works from: drawing, setup sheets, plan."""
