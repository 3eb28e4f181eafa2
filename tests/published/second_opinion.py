"""Where the tables of a general-purpose library of fasteners lie, if it is installed; it is never imported.

It is no dependency, not even of the tests: pip would fetch a gigabyte with it. To have its opinion as well:

    python -m pip install --no-deps bd_warehouse
"""

from __future__ import annotations

import csv
import functools
import importlib.util
from pathlib import Path

import pytest

LIBRARY = "bd_warehouse"
HOW = f"{LIBRARY} is not installed: python -m pip install --no-deps {LIBRARY}"


@functools.cache
def _folder() -> Path | None:
    """Return the folder of its tables; finding a package does not import it."""
    found = importlib.util.find_spec(LIBRARY)
    places = found.submodule_search_locations if found else None
    return Path(places[0]) / "data" if places else None


def rows(name: str) -> list[dict[str, str]]:
    """Return the rows of one of its tables; skips the test, with what to do, where it is not installed."""
    folder = _folder()
    if folder is None:
        pytest.skip(HOW)
    with (folder / f"{name}.csv").open(encoding="utf-8-sig", newline="") as file:
        return [{key.strip(): (cell or "").strip() for key, cell in row.items()} for row in csv.DictReader(file)]
