"""The drawing checked as a checker would: rules that can be computed on the finished ink.

Each file ``checks_*.py`` holds the rules of one group (sheet, lines, placing of dimensions, content) and a
list of its functions. An error means that the sheet must not go out; a caution is listed.
"""

from __future__ import annotations

from collections.abc import Sequence

from setupsheet.drawing import (
    checks_content,
    checks_lines,
    checks_measured,
    checks_placing,
    checks_round,
    checks_sheet,
    checks_views,
    checks_words,
)
from setupsheet.drawing.check_record import Case, Fault
from setupsheet.drawing.completeness import place_of
from setupsheet.drawing.ink import Sheet
from setupsheet.drawing.profile import Profile
from setupsheet.finding import Finding, Severity
from setupsheet.part.part import Part

RULES = (
    *checks_sheet.RULES,
    *checks_views.RULES,
    *checks_lines.RULES,
    *checks_round.RULES,
    *checks_placing.RULES,
    *checks_measured.RULES,
    *checks_content.RULES,
    *checks_words.RULES,
)
"""Every rule: a function from a case (one sheet) to its faults."""


def faults_of(sheets: Sequence[Sheet], profile: Profile) -> list[Fault]:
    """Return what is wrong with the sheets of a drawing, each fault once."""
    faults = (fault for sheet in sheets for rule in RULES for fault in rule(Case(sheet, tuple(sheets), profile)))
    return list(dict.fromkeys(faults))


def finding_of(part: Part, fault: Fault) -> Finding:
    """Return a fault as a finding at the feature's place in the spec."""
    return Finding(
        fault.code,
        Severity.ERROR if fault.is_error else Severity.CAUTION,
        fault.message,
        place_of(part, fault.feature),
        feature=fault.feature,
        found=fault.found,
        allowed=fault.allowed,
        source=fault.source,
    )
