"""``accept:`` in a spec: a reason for the part or for each feature."""

from __future__ import annotations

from pathlib import Path

import pytest

from setupsheet.finding import Findings
from setupsheet.part.part import Accepted
from setupsheet.spec.reader import read_part
from tests.plan.checks.trial import Spec


def _read(folder: Path, accept: str) -> tuple[tuple[Accepted, ...], Findings]:
    spec = Spec(more=accept)
    (folder / "part.yaml").write_text(spec.text(), encoding="utf-8")
    (folder / "shop.yaml").write_text(spec.shop_text(), encoding="utf-8")
    part, _, findings = read_part(folder / "part.yaml")
    return part.accepted if part else (), findings


def test_both_forms(tmp_path: Path) -> None:
    """A text accepts for the whole part, a mapping feature by feature; each knows its line."""
    rows, findings = _read(tmp_path, "accept:\n  thin-part-bows: it is bolted down flat\n  wall-thin: {h: a spacer}")
    assert findings == []
    assert [(row.code, row.feature, row.reason) for row in rows] == [
        ("thin-part-bows", "", "it is bolted down flat"),
        ("wall-thin", "h", "a spacer"),
    ]
    assert rows[1].place.line == rows[0].place.line + 1


@pytest.mark.parametrize(
    "accept", ['accept: {wall-thin: ""}', 'accept: {wall-thin: {h: ""}}', "accept: {wall-thin: [a]}"]
)
def test_a_reason_is_wanted(tmp_path: Path, accept: str) -> None:
    """An acceptance without a reason is an error at its place."""
    rows, findings = _read(tmp_path, accept)
    assert rows == ()
    assert findings
    assert all(finding.place for finding in findings)
