"""``setupsheet build``: all papers of a part, each spec written whole or not at all."""

from __future__ import annotations

import io
from contextlib import redirect_stdout
from pathlib import Path

import click

from setupsheet import flow
from setupsheet.cli import said, trouble, written
from setupsheet.cli.command import Command
from setupsheet.cli.one_folder import folders_twice
from setupsheet.cli.progress import Bar
from setupsheet.finding import Findings, has_errors, in_order

EXAMPLE = """
setupsheet build specs/worm-bracket.yaml
setupsheet build specs/indicator-foot.yaml --out papers
"""


@click.command(cls=Command, example=EXAMPLE)
@click.argument("specs", metavar="SPEC...", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--out", type=click.Path(path_type=Path), default=Path("out"), help="Where the folders go; out if left.")
def command(specs: tuple[Path, ...], out: Path) -> int:
    """Write all papers of one or more parts: drawing, setup sheets, plan, solid.

    Each part gets a folder named by its number and revision. A part with an error gets nothing,
    and what was there before stays as it was. The list of files goes to standard output.
    """
    try:
        written.refuse_unwritable(out)
    except written.NotWritten as problem:
        return _refused(problem)
    built = [_built(spec) for spec in specs]
    twice = folders_twice([(spec, one.folder) for spec, one in zip(specs, built, strict=True)])
    codes = []
    for spec, one in zip(specs, built, strict=True):
        own = [twice[spec]] if spec in twice else []
        codes.append(_written(spec, one, in_order([*one.findings, *own]), out))
    return max(codes)


def _built(spec: Path) -> flow.Built:
    """Build one spec; what a library prints (a banner, when one of its own is missing) is no result of ours."""
    with Bar(spec.name) as bar, redirect_stdout(io.StringIO()):
        return flow.build(spec, bar)


def _written(spec: Path, built: flow.Built, findings: Findings, out: Path) -> int:
    """Show the findings, write the files unless something stops them; return the exit code."""
    said.shown(findings, "text", err=True)
    if has_errors(findings) or built.plan is None:
        click.echo(f"{spec}: {said.counted(findings)}; nothing was written", err=True)
        return trouble.FAULTS
    papers = written.Papers(built.folder, built.files, built.plan.spec_sha256)
    try:
        files = written.write(out, papers)
    except written.NotWritten as problem:
        return _refused(problem)
    for path in files:
        click.echo(path.as_posix())
    click.echo(f"{spec}: {len(files)} files in {out / built.folder}; {said.counted(findings)}", err=True)
    return trouble.FINE


def _refused(problem: written.NotWritten) -> int:
    """Say why nothing was written and what to do; return the exit code."""
    click.echo(f"{problem}; nothing was written\ntry: another folder with --out", err=True)
    return trouble.IMPOSSIBLE if problem.impossible else trouble.WRONG_USAGE
