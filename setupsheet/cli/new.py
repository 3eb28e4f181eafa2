"""``setupsheet new``: a folder with a small part and a shop file that build at once."""

from __future__ import annotations

import shlex
from importlib import resources
from pathlib import Path

import click

from setupsheet.cli import trouble
from setupsheet.cli.command import Command
from setupsheet.spec.shape import schema_path

EXAMPLE = "setupsheet new camera-plate"
SPEC, SHOP = "part.yaml", "shop.yaml"


class NotMade(click.ClickException):
    """A folder that cannot be started."""

    exit_code = trouble.WRONG_USAGE


@click.command(cls=Command, example=EXAMPLE)
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
def command(folder: Path) -> None:
    """Start a part in a new folder: a spec and a shop file with remarks, and their schemas for editors."""
    try:
        written = start(folder)
    except OSError as problem:
        raise NotMade(f"{folder} cannot be written: {problem.strerror or problem}") from problem
    for path in written:
        click.echo(path.as_posix())
    click.echo(f"now: setupsheet build {shlex.quote((folder / SPEC).as_posix())}", err=True)


def start(folder: Path) -> list[Path]:
    """Write the files; raises OSError, and NotMade for a folder that holds something."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise NotMade(f"{folder} is there and not empty; name a new folder")
    (folder / "schemas").mkdir(parents=True)
    files = {name: _template(name) for name in (SPEC, SHOP)}
    for name in ("part", "shop"):
        files[f"schemas/{name}.schema.json"] = schema_path(name).read_bytes()
    for name, content in files.items():
        (folder / name).write_bytes(content)
    return [folder / name for name in files]


def _template(name: str) -> bytes:
    return resources.files("setupsheet.cli").joinpath("new_part", name).read_bytes()
