"""What becomes of a random spec: read, planned, proved, or refused."""

from __future__ import annotations

import functools
import shutil
import tempfile
from dataclasses import dataclass
from pathlib import Path

from setupsheet.finding import Finding, Severity, has_errors
from setupsheet.plan.make import Planned, make_plan, prove
from setupsheet.solid.solids import make_solids
from setupsheet.spec.reader import read_part
from tests.plan.planned import CORPUS
from tests.plan.random_specs import SHOPS, random_spec


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of a spec: the plan, and all findings."""

    planned: Planned
    findings: tuple[Finding, ...]

    @property
    def errors(self) -> list[Finding]:
        """Return what stops the papers."""
        return [finding for finding in self.findings if finding.severity is Severity.ERROR]

    @property
    def proved(self) -> bool:
        """Tell whether the papers would be written, and whether the replay vouches for every cut."""
        verdict = self.planned.plan.replay
        return not self.errors and verdict is not None and verdict.proved and not self.planned.plan.not_proved


def write_spec(seed: int, folder: Path) -> Path:
    """Write the spec of a seed with its shops into a folder."""
    for shop in sorted({shop for shop, _ in SHOPS}):
        shutil.copy(CORPUS / shop, folder / shop)
    path = folder / "part.yaml"
    path.write_text(random_spec(seed), encoding="utf-8")
    return path


@functools.cache
def outcome(seed: int) -> Outcome:
    """Plan and prove the spec of a seed."""
    with tempfile.TemporaryDirectory() as folder:
        part, shop, found = read_part(write_spec(seed, Path(folder)))
    assert part is not None, [f.message for f in found]
    assert shop is not None
    assert not has_errors(found), [f.message for f in found]
    solids, faults = make_solids(part)
    planned = prove(make_plan(part, shop, solids), solids)
    return Outcome(planned, (*found, *faults, *planned.findings))
