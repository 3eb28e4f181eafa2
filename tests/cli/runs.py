"""Runs a command in this process and returns what came out."""

from __future__ import annotations

from click.testing import CliRunner, Result

from setupsheet.cli.main import main


def run(*words: str, **environment: str) -> Result:
    """Run ``setupsheet`` with these words; stdout, stderr and exit code stand in the result."""
    return CliRunner().invoke(main, words, env=environment)
