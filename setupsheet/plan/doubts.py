"""What stands on the papers and was not seen in print: said on the front page, so that nobody trusts it blindly."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import fields

from setupsheet.part.feature import Feature, Hole, Size
from setupsheet.part.part import Part
from setupsheet.plan.chain.record import ChainStep
from setupsheet.plan.cutting import OPERATION
from setupsheet.plan.record import Setup, Step
from setupsheet.tables import feeds, speeds
from setupsheet.tables.doubt import doubtful
from setupsheet.tables.unknown import NotInTables

DOUBT = "from memory, not seen in print"
"""How such a sentence begins."""

_SAID_BY_STEP = "ream"
"""A reamer that is not sure says so in its own step."""


def doubts(part: Part, chains: Iterable[tuple[Hole, tuple[ChainStep, ...]]], setups: Iterable[Setup]) -> list[str]:
    """Return one sentence for each kind of figure that nobody saw in print; none where all were."""
    sizes = [f"{feature.id} {size.written}" for feature in part.features for size in _sizes(feature)]
    cutters = [
        f"{step.cutter.label.removeprefix('tap ')} ({hole.id})"
        for hole, steps in chains
        for step in steps
        if step.operation != _SAID_BY_STEP and doubtful(step.status)
    ]
    work = [step.operation for setup in setups for step in setup.steps if _unsure(part.material_group, step)]
    rows = (
        (f"{DOUBT}: limits of", [*sizes, *cutters]),
        (f"{DOUBT}: speed or feed to", work),
    )
    return [f"{words} {', '.join(dict.fromkeys(named))}" for words, named in rows if named]


def _sizes(feature: Feature) -> Iterator[Size]:
    """Give the sizes of a feature, of its counterbore and countersink too, whose source has a doubt."""
    for field in fields(feature):
        value = getattr(feature, field.name)
        size = value if isinstance(value, Size) else getattr(value, "diameter", None)
        if isinstance(size, Size) and doubtful(size.source):
            yield size


def _unsure(group: str, step: Step) -> bool:
    """Tell whether the speed or the feed of a step comes from a row that was not seen in print."""
    if step.tool is None or step.rpm <= 0:
        return False
    name = OPERATION.get(step.operation, step.operation)
    turning = step.tool.diameter_mm
    try:
        if step.tool.kind == "end mill":
            speed, feed = speeds.start(group, "mill"), feeds.feed_per_tooth_mm(turning, group)
        else:
            speed, feed = speeds.start(group, name), feeds.feed_per_rev_mm(name, turning, group)
    except NotInTables:
        return False
    return doubtful(speed.status) or doubtful(feed.status)
