"""``setupsheet check``: every finding that a build would give; nothing is written."""

from __future__ import annotations

import io
from contextlib import redirect_stdout
from pathlib import Path

import click

from setupsheet import flow
from setupsheet.cli import said, trouble
from setupsheet.cli.command import Command
from setupsheet.cli.one_folder import folders_twice
from setupsheet.cli.progress import Bar
from setupsheet.finding import Findings, has_errors, in_order

EXAMPLE = """
setupsheet check specs/worm-bracket.yaml
setupsheet check --text-only --format json specs/worm-bracket.yaml
"""


@click.command(cls=Command, example=EXAMPLE)
@click.argument("specs", metavar="SPEC...", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--text-only", is_flag=True, help="Read the text only: quick, and no CAD kernel is loaded.")
@click.option("--format", "form", type=click.Choice(said.FORMS), default="text", help="How findings are shown.")
def command(specs: tuple[Path, ...], text_only: bool, form: str) -> int:
    """Find every fault of one or more specs; write nothing.

    Without --text-only the part is made, planned and machined again from its plan, as in a build.
    Exit code 1 when there is an error; cautions and notes give 0.
    """
    findings = _read(specs) if text_only else _made(specs)
    said.shown(findings, form)
    if form == "text":
        click.echo(f"{', '.join(map(str, specs))}: {said.counted(findings)}", err=True)
    return trouble.FAULTS if has_errors(findings) else trouble.FINE


def _read(specs: tuple[Path, ...]) -> Findings:
    return in_order([finding for spec in specs for finding in flow.check_text(spec)])


def _made(specs: tuple[Path, ...]) -> Findings:
    built = [_checked(spec) for spec in specs]
    twice = folders_twice([(spec, one.folder) for spec, one in zip(specs, built, strict=True)])
    return in_order([finding for one in built for finding in one.findings] + list(twice.values()))


def _checked(spec: Path) -> flow.Built:
    """Check one spec; what a library prints is no result of ours."""
    with Bar(spec.name) as bar, redirect_stdout(io.StringIO()):
        return flow.check(spec, bar)
