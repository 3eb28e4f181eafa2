"""A round boss is tall and thin.

What: the height over its foot against the diameter of each boss.
Why at the machine: it springs away from the cutter and the boring head, comes out tapered, or breaks off.
What to do: leave it to the end with metal round it, light cuts; or turn it separately and press it in.
Source: machining course notes (slender bosses last); three diameters common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.feature import RoundBoss
from setupsheet.plan.checks import limits, swept
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "boss-slender"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each slender boss, where it is made."""
    most = limits.factor("most boss over its diameter")
    for boss in case.part.features:
        if not isinstance(boss, RoundBoss):
            continue
        foot = [spans[-1 if boss.face.sign > 0 else 0] for spans in _round(case, boss) if spans]
        ends = [span[1] if boss.face.sign > 0 else span[0] for span in foot]
        high = min((abs(boss.top.nominal_mm - end) for end in ends), default=0.0)
        made = case.made_at(boss.id)
        if made and high > most * boss.diameter.nominal_mm + 1e-6:
            wide = case.size(boss.diameter.nominal_mm)
            yield At(case, *made, boss.id).caution(
                CODE,
                f"{boss.id} stands {case.size(high)} high on a diameter of {wide}",
                found=f"{high / boss.diameter.nominal_mm:.1f} diameters",
                allowed=f"up to {most:g}",
                because="it springs away from the cutter and comes out tapered, or breaks off",
                try_="very light cuts; else turn it on a lathe and press it in",
            )


def _round(case: Case, boss: RoundBoss) -> list[tuple[tuple[float, float], ...]]:
    """Return the finished metal just outside a boss, on eight sides."""
    places = swept.ring(boss.at, boss.diameter.nominal_mm / 2 + 0.5, 8)
    return [case.drawn.metal(boss.face.axis, place) for place in places]
