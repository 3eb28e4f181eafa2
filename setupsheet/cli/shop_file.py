"""The shop that a look-up is given: read, or refused with its findings."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from setupsheet.cli import said, trouble
from setupsheet.part.shop import Shop
from setupsheet.spec.reader import read_shop


class ShopRefused(click.ClickException):
    """A shop file with errors."""

    exit_code = trouble.FAULTS

    def show(self, file: Any = None) -> None:
        """Say nothing more: the findings are on stderr already."""


def read(path: str) -> Shop:
    """Return the shop; print what is wrong with it and raise ShopRefused when it cannot be used."""
    shop, findings = read_shop(Path(path))
    said.shown(findings, "text", err=True)
    if shop is None:
        raise ShopRefused("the shop file has errors")
    return shop
