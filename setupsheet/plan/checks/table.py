"""All checks of this folder, and the one door that runs them."""

from __future__ import annotations

import importlib
import pkgutil
import re
from collections.abc import Iterator
from typing import Protocol, cast

from setupsheet.plan import checks
from setupsheet.plan.checks.bite import Bite
from setupsheet.plan.checks.case import Case


class Check(Protocol):
    """A module of this folder that looks for one fault; its docstring has the sections of ``SECTIONS``."""

    __doc__: str | None
    CODE: str

    @staticmethod
    def check(case: Case) -> Iterator[Bite]:
        """Yield what is wrong, with the setup and step on whose page it is printed."""


def _gathered() -> tuple[Check, ...]:
    """Return the modules beside this one that have a ``CODE``, by name: a new check is run as soon as it is there."""
    names = sorted(found.name for found in pkgutil.iter_modules(checks.__path__) if found.name != "table")
    modules = [importlib.import_module(f"{checks.__name__}.{name}") for name in names]
    return tuple(cast(Check, module) for module in modules if hasattr(module, "CODE"))


CHECKS = _gathered()

AT_AN_ANGLE = frozenset(
    {
        "cutter-hangs-out",
        "cutter-too-fast",
        "height-too-small",
        "jaw-in-cutters-way",
        "milling-on-drill-press",
        "no-gauge",
        "readout-in-other-unit",
        "setup-cuts-nothing",
        "travel-too-short",
        "zero-lost-with-head",
    }
)
"""Checks that hold for a part at an angle too; all others look along faces that are square to the machine."""

SECTIONS = ("What", "Why at the machine", "What to do", "Source")


def run(case: Case) -> list[Bite]:
    """Return what every check finds, in the order of the list."""
    tilted = {setup.number for setup in case.plan.setups if setup.angle_setting is not None}
    found = [bite for one in CHECKS for bite in one.check(case)]
    return [bite for bite in found if bite.setup not in tilted or bite.finding.code in AT_AN_ANGLE]


def sections(one: Check) -> dict[str, str]:
    """Return a check's fault (its first line, '') and the sections of its docstring, each on one line."""
    first, _, rest = (one.__doc__ or "").partition("\n")
    found = {"": first.strip()}
    name = ""
    for line in rest.strip().splitlines():
        head = re.match(r"^([A-Z][a-z ]+): (.*)$", line)
        if head and head[1] in SECTIONS:
            name = head[1]
            found[name] = head[2].strip()
        elif name:
            found[name] += f" {line.strip()}"
    return found


def explained() -> dict[str, dict[str, str]]:
    """Return code -> what, why, try, as ``setupsheet explain`` tells them."""
    told = {}
    for one in CHECKS:
        parts = sections(one)
        told[one.CODE] = {"what": parts[""], "why": parts["Why at the machine"], "try": parts["What to do"]}
    return {code: {key: text[:1].upper() + text[1:] for key, text in entry.items()} for code, entry in told.items()}
