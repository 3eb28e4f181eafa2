"""Both demo parts built once for all tests of this folder: together, and each alone under other circumstances."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from tests.end_to_end.builds import ELSEWHERE, HERE, SPECS, Done, build


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Done:
    """Both parts, built in one run."""
    return build(tmp_path_factory.mktemp("together"), *SPECS.values(), **HERE)


@pytest.fixture(scope="session")
def built_alone(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Each part built in a run of its own, in another time zone, with another hash seed, at another folder."""
    out = tmp_path_factory.mktemp("alone-in-a-folder-with-a-longer-name")
    with ThreadPoolExecutor() as pool:
        runs = list(pool.map(lambda spec: build(out, spec, **ELSEWHERE), SPECS.values()))
    assert [run.code for run in runs] == [0, 0], runs
    return out
