"""Rules across keys: what each value alone cannot show. One function a rule, all listed in ``RULES``."""

from __future__ import annotations

from setupsheet.spec.build import Built
from setupsheet.spec.desk import Desk
from setupsheet.spec.tree import Mapping


def check_sense(desk: Desk, built: Built, tree: Mapping) -> None:
    """Run every rule over what was read whole."""
