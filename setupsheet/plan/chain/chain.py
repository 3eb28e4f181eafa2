"""The right cutter for every hole: from required limits to the chain of cutters that reaches them.

    pick_chain(need, shop).steps

The shop's own cutters come first; where none does, the standard size to buy or borrow stands in its
place, marked ``owned`` False. Nothing is refused: a chain that misses the limits says by how much
and what would reach them. Equal choices are broken by size, then by label, so the order never varies.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from setupsheet.plan.chain.drill import drilled, opening
from setupsheet.plan.chain.mouth import counterbores, sinks, spot
from setupsheet.plan.chain.record import OPERATIONS, Chain, ChainStep, HoleNeed, TapFacts, Way
from setupsheet.plan.chain.way import limits_of, ways
from setupsheet.plan.chain.words import bushing, how_much, what_would

if TYPE_CHECKING:
    from setupsheet.part.shop import Shop
    from setupsheet.part.size import Thread

__all__ = ["OPERATIONS", "Chain", "ChainStep", "HoleNeed", "TapFacts", "pick_chain"]


def pick_chain(need: HoleNeed, shop: Shop | None) -> Chain:
    """Return the chain of cutters for one hole, with what comes out of it."""
    if need.thread is not None:
        return _tapped(need, need.thread, shop)
    found = ways(need, shop)
    taken = found[0]
    opened = opening(taken, need, shop)
    words = tuple(text for text in (bushing(need),) if text)
    return _chain(need, taken, what_would(taken, found, need), _assembled(opened, [], need, shop), words)


def _tapped(need: HoleNeed, thread: Thread, shop: Shop | None) -> Chain:
    from setupsheet.plan.chain.thread import drill_ways, percent_words, tap_step, taper_steps, taper_words
    from setupsheet.tables import threads

    taken = drill_ways(need, thread, shop)[0]
    if taken.operation == "bore":
        opened = opening(taken, need, shop)
    else:
        opened = drilled(taken.cutter, need, shop, (taken.source, taken.status))
    words = (*percent_words(need, thread, taken), *taper_words(need, thread, shop))
    tapped, facts = tap_step(need, thread, shop)
    finish = [*taper_steps(thread, shop), tapped]
    missing = [step.cutter.label for step in (opened[-1], *finish) if not step.cutter.owned]
    would = f"get: {', '.join(missing)}" if missing else ""
    chain = _chain(need, taken, would, _assembled(opened, finish, need, shop), words)
    return Chain(
        chain.steps,
        chain.result_lower_mm,
        chain.result_upper_mm,
        *(limits_of(need) or threads.minor_limits_mm(thread)),
        chain.verdict,
        chain.how_much,
        chain.what_would,
        threads.percent(thread, taken.diameter_mm),
        facts,
        words,
    )


def _assembled(
    opened: list[ChainStep], finish: list[ChainStep], need: HoleNeed, shop: Shop | None
) -> tuple[ChainStep, ...]:
    """Return all steps in the order of work: the mouth is worked after drilling, before reamer and tap."""
    drilled_mm = max(step.diameter_mm for step in opened if step.operation != "ream")
    first = spot(opened[0].diameter_mm, need, shop)
    mouth = [*counterbores(drilled_mm, need, shop), *sinks(drilled_mm, first, need, shop)]
    steps = [first, *opened, *mouth, *finish]
    return tuple(sorted(steps, key=lambda step: OPERATIONS.index(step.operation)))


def _chain(need: HoleNeed, taken: Way, would: str, steps: tuple[ChainStep, ...], words: tuple[str, ...]) -> Chain:
    lower, upper = limits_of(need) or (None, None)
    return Chain(
        steps,
        taken.lower_mm,
        taken.upper_mm,
        lower,
        upper,
        taken.verdict,
        how_much(taken, need),
        would,
        words=words,
    )
