"""The bench look-up ``speed`` as the JSON of the contract; loads nothing but the CSV tables."""

from __future__ import annotations

from typing import NamedTuple

from setupsheet.tables import feeds, material, speeds
from setupsheet.tables.unknown import NotInTables


class SpeedAsked(NamedTuple):
    """What is asked at the machine. ``flutes`` counts for end mills only; ``spindle`` any by default."""

    diameter_mm: float
    material: str
    operation: str = "drill"
    tool: str = "hss"
    flutes: int = 2
    spindle: speeds.Spindle = speeds.ANY_SPINDLE


def speed_as_json(asked: SpeedAsked) -> dict[str, object]:
    """Return rpm, ideal rpm, cutting speed and feed for a cutter in a material; raises NotInTables.

    ``feed_mm_per_min`` is null where no table has a feed (a tap feeds by its pitch).
    """
    found = material.find(asked.material)
    speed = speeds.start(found.group, asked.operation, asked.tool)
    chosen = speeds.pick(speed, asked.diameter_mm, asked.operation, asked.spindle)
    feed, teeth = _feed(asked, found.group)
    per_min = None if feed is None else round(feeds.feed_mm_min(feed.start, teeth, chosen.rpm), 1)
    return {
        "rpm": chosen.rpm,
        "rpm_ideal": round(chosen.ideal_rpm, 1),
        "cutting_speed_m_per_min": speed.start_m_min,
        "feed_mm_per_min": per_min,
        "cutting_speed_reached_m_per_min": round(chosen.cutting_speed_m_min, 1),
        "range_m_per_min": {"low": speed.low_m_min, "high": speed.high_m_min},
        "too_fast": chosen.too_fast,
        "held_back": chosen.held_back,
        "operation": asked.operation,
        "material": found.name,
        "group": found.group,
        "note": found.note,
        "source": f"speed: {speed.source}" + (f"; feed: {feed.source}" if feed else ""),
        "status": f"speed: {speed.status}" + (f"; feed: {feed.status}" if feed else ""),
    }


def _feed(asked: SpeedAsked, group: str) -> tuple[feeds.StartValue | None, int]:
    """Return the feed per tooth or per turn and how many of them one turn makes."""
    if asked.operation in {"mill", "plunge"}:
        return feeds.feed_per_tooth_mm(asked.diameter_mm, group, asked.tool), asked.flutes
    try:
        return feeds.feed_per_rev_mm(asked.operation, asked.diameter_mm, group), 1
    except NotInTables:
        return None, 1
