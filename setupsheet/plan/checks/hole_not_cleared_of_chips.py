"""A hole is drilled deeper than three times its diameter.

What: from the metal's surface down to the end of the full diameter, against the drill's diameter, step by step.
Why at the machine: the chips pack in the flutes, the drill runs hot and off its line, and breaks when it grabs.
What to do: lift the drill clear of the hole after each diameter or so, oil it, and turn a little slower.
Source: open machine-shop tutorials (MIT), precision drilling (deeper than 3 D).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.length import Unit
from setupsheet.plan.checks import limits
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "hole-not-cleared-of-chips"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each drilling step that has to be pecked."""
    told: set[tuple[int, str, str]] = set()
    for held, step in case.steps():
        if step.tool is None or step.operation not in ("drill", "pilot", "core drill") or not step.positions:
            continue
        wide = step.tool.diameter_mm
        at = max(step.positions, key=lambda place: place.z_from - place.z_full)
        deep = at.z_from - at.z_full
        key = (held.setup.number, at.feature, step.tool.label)
        if key not in told and deep > limits.factor("peck from depth over diameter") * wide + 0.05 * wide:
            told.add(key)
            yield At(case, held, step, at.feature).caution(
                CODE,
                f"{step.tool.label}, {case.size(deep)} deep at {at.label}: {deep / wide:.1f} diameters",
                found=f"{deep / wide:.1f} diameters",
                allowed=f"{limits.factor('peck from depth over diameter'):g} without clearing",
                because="chips pack in the flutes, the drill runs off and breaks",
                try_=f"lift it clear every {case.size(_peck(case, wide))}",
            )


def _peck(case: Case, wide: float) -> float:
    """Return a diameter in round numbers, for the stop of the quill to be read by."""
    step = 0.5 if case.part.unit is Unit.MM else 1.27
    return max(1.0, round(wide / step)) * step
