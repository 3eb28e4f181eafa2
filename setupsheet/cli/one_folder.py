"""Two specs of one run must not end in one folder: the second would replace the first."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from setupsheet.finding import Finding, Place, error


def folders_twice(folders: Sequence[tuple[Path, str]]) -> dict[Path, Finding]:
    """Return an error for every spec whose folder another spec of the run has too ('' is no folder)."""
    found = {}
    for at, (spec, folder) in enumerate(folders):
        others = [str(other) for i, (other, name) in enumerate(folders) if name == folder and i != at]
        if folder and others:
            found[spec] = error(
                "two-specs-one-folder",
                f"{', '.join(others)} would be written to the same folder",
                Place(str(spec)),
                found=folder,
                allowed="one number and revision a spec",
                try_="give each spec its own number: or revision:",
            )
    return found
