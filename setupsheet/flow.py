"""READ THIS FIRST: the whole chain, from a spec's text to the bytes of every paper, one call a stage.

    spec text -> checked part -> exact solid -> plan of work -> proof -> drawing -> papers

Each stage is a folder and hands a frozen record to the next; each returns what it found wrong, and nothing is
printed or written here. The stages with heavy libraries are imported where they are first needed, so that
``check --text-only`` and the look-ups start at once.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from setupsheet.finding import Findings, error, has_errors, in_order
from setupsheet.part.part import Part
from setupsheet.plan.accept import with_accepted
from setupsheet.spec.reader import read_part

if TYPE_CHECKING:
    from setupsheet.plan.make import Planned
    from setupsheet.plan.record import Plan
    from setupsheet.solid.solids import Solids

Progress = Callable[[str, int, int], None]
"""Told at each stage: its name, how many are done, of how many."""


@dataclass(frozen=True, slots=True)
class Built:
    """What a run made: no ``files`` where a finding is an error, nor where only a check was asked for.

    ``planned`` and ``solids`` are what plan and papers were made from.
    """

    part: Part | None
    plan: Plan | None
    findings: Findings
    folder: str = ""
    files: dict[str, bytes] = field(default_factory=dict)
    planned: Planned | None = None
    solids: Solids | None = None


def check_text(path: Path) -> Findings:
    """Read a spec and its shop; return what is wrong with the text. No kernel is loaded."""
    part, _, findings = read_part(path)
    return in_order(with_accepted(part, findings, whole=False)) if part else findings


def check(path: Path, progress: Progress | None = None) -> Built:
    """Run everything that can find a fault, and make no papers."""
    return _run(path, progress or _silent, papers=False)


def build(path: Path, progress: Progress | None = None) -> Built:
    """Make every paper of a part; nothing is written to disk."""
    return _run(path, progress or _silent, papers=True)


def _run(path: Path, progress: Progress, *, papers: bool) -> Built:
    """Call the stages in order and stop at the first that finds an error."""
    from setupsheet.drawing.draw import draw
    from setupsheet.papers.bundle import papers_of
    from setupsheet.plan.make import make_plan, prove
    from setupsheet.solid.solids import make_solids

    progress("spec", 0, 5)
    part, shop, findings = read_part(path)
    if part is None or shop is None or has_errors(findings):
        return Built(part, None, _with_shop(path, shop is None, findings))
    progress("solid", 1, 5)
    solids, found = make_solids(part)
    if has_errors(findings := in_order(findings + found)):
        return Built(part, None, findings, folder_name(part))
    progress("plan", 2, 5)
    planned = prove(make_plan(part, shop, solids), solids)
    progress("drawing", 3, 5)
    sheets, found = draw(part, solids.nominal)
    findings = in_order(with_accepted(part, [*findings, *planned.findings, *found]))
    built = Built(part, planned.plan, findings, folder_name(part), planned=planned, solids=solids)
    if has_errors(findings) or not papers:
        return built
    progress("papers", 4, 5)
    return replace(built, files=papers_of(part, solids, planned, sheets, findings))


def folder_name(part: Part) -> str:
    """Return the name of a build's folder: number and revision in letters, digits, dot, underscore, hyphen."""
    return "-".join(re.sub(r"[^A-Za-z0-9._-]+", "-", text).strip("-.") for text in (part.number, part.revision))


def _with_shop(path: Path, missing: bool, findings: Findings) -> Findings:
    """Say that a plan needs a shop, where the spec names none and nothing else is wrong."""
    if not missing or has_errors(findings):
        return findings
    said = error(
        "shop-needed",
        f"{path.name} names no shop file, so no machine and no cutter is known",
        found="no shop:",
        allowed="shop: shop.yaml",
        try_="write shop: and the name of a shop file, or start from setupsheet new",
    )
    return in_order([*findings, said])


def _silent(_stage: str, _done: int, _of: int) -> None:
    """Tell nobody."""
