"""Each check fires where its fault is, and keeps quiet where it nearly is; each says what, why, what to do, source."""

from __future__ import annotations

import re

import pytest

from setupsheet.finding import Severity
from setupsheet.plan.checks import table
from tests import house
from tests.plan.checks import cases_cutters, cases_holding, cases_holes, cases_setups
from tests.plan.checks.trial import Case, found, planned

CASES: dict[str, Case] = {**cases_holding.CASES, **cases_cutters.CASES, **cases_holes.CASES, **cases_setups.CASES}
CODES = tuple(one.CODE for one in table.CHECKS)


def test_every_check_is_tried() -> None:
    """Each check has a spec that fires it and one that nearly does."""
    assert set(CASES) == set(CODES)


@pytest.mark.parametrize("code", sorted(CASES))
def test_fires(code: str) -> None:
    """The fault is found, with what was found, what is allowed, why and one thing to try."""
    findings = found(CASES[code].fires, code)
    assert findings, [finding.code for finding in planned(CASES[code].fires).findings]
    for finding in findings:
        assert finding.found
        assert finding.allowed
        assert finding.because
        assert finding.try_
        assert finding.severity in (Severity.ERROR, Severity.CAUTION)


@pytest.mark.parametrize("code", sorted(CASES))
def test_keeps_quiet_where_the_fault_nearly_is(code: str) -> None:
    """A false alarm is as bad as a miss."""
    assert [finding.message for finding in found(CASES[code].near, code)] == []


def test_every_file_of_a_check_is_gathered() -> None:
    """A check that nobody runs finds nothing; its file is named by its fault, as its code is, and run in that order."""
    files = {
        name.split("/")[-1]
        for name, tree in house.modules().items()
        if name.startswith("plan/checks/") and "CODE = " in _text(name)
    }
    assert files == {f"{code.replace('-', '_')}.py" for code in CODES}
    assert sorted(code.replace("-", "_") for code in CODES) == [code.replace("-", "_") for code in CODES]
    assert len(CODES) >= 40


def test_checks_of_parts_at_an_angle_exist() -> None:
    """A code that was renamed would switch its check off for every part at an angle."""
    assert set(CODES) > table.AT_AN_ANGLE


def _text(name: str) -> str:
    return (house.PACKAGE / name).read_text(encoding="utf-8")


@pytest.mark.parametrize("one", table.CHECKS, ids=CODES)
def test_docstring_has_its_sections(one: table.Check) -> None:
    """What it looks at, why at the machine, what to do, source: whole sentences, in this order, and nothing else."""
    doc = one.__doc__ or ""
    heads = re.findall(r"^([A-Z][a-z ]+): ", doc.partition("\n")[2], flags=re.MULTILINE)
    assert heads == list(table.SECTIONS)
    parts = table.sections(one)
    assert all(text.endswith(".") for text in parts.values())
    source = parts["Source"]
    assert re.search(
        r"no source|\(MIT\)|CC BY|table of|\(\d{4}\)|course notes|forum|club magazine|worked example", source
    )


def test_findings_stay_in_order() -> None:
    """The same plan gives the same findings in the same order."""
    spec = CASES["hole-breaks-out-at-edge"].fires
    first = [finding.message for finding in planned(spec).findings]
    planned.cache_clear()
    assert [finding.message for finding in planned(spec).findings] == first


def test_developers_read_the_list_of_checks() -> None:
    """The table in DEVELOPERS.md is made from the docstrings; a failure prints the table that belongs there."""
    rows = [f"| `{one.CODE}` | {table.sections(one)['']} |" for one in table.CHECKS]
    wanted = "\n".join(["", "| code | what is wrong |", "| --- | --- |", *rows, ""])
    block = (house.PROJECT / "DEVELOPERS.md").read_text(encoding="utf-8").split("<!-- checks -->")[1]
    assert block == wanted, wanted
