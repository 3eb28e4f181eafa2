"""Faces are finished first, and most of the metal goes after that.

What: the share of the stock that goes in all, and in the setups after the first finished face.
Why at the machine: the metal moves when its stress is let out; what was flat and true is so no longer.
What to do: rough all sides first and leave 0.5 mm, let it lie loose, then finish; or finish the datum again at the
end.
Source: open machine-shop tutorials (MIT), work holding (stress); a third of the stock common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "finished-before-roughing"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for the first setup after a finished one that takes too large a share of the stock."""
    setups = case.plan.setups
    whole = setups[0].volume_before_mm3 if setups else 0.0
    most = limits.factor("most stock to go after a finished face")
    for setup, held in list(zip(setups, case.clamped, strict=True))[1:]:
        share = (setup.volume_before_mm3 - setup.volume_after_mm3) / whole if whole else 0.0
        if share > most:
            yield At(case, held).caution(
                CODE,
                f"{share * 100:.0f} % of the stock goes now, after other faces were finished",
                found=f"{share * 100:.0f} %",
                allowed=f"up to {most * 100:.0f} %",
                because="the metal moves when so much goes, and what was true is so no longer",
                try_="let the part cool and measure before the last cuts; leave them for the other side if it moved",
                page=f"{share * 100:.0f} % of the stock goes now: let it cool, measure before the last cuts",
            )
            return
