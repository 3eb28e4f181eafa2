"""Lets ``python -m setupsheet`` do what ``setupsheet`` does."""

from setupsheet.cli.main import main

main(prog_name="setupsheet")
