"""Speed, feed and depth of cut for a cutter on the machine of a setup, from the tables of practice.

The rpm is one that the machine has. A feed by hand is also told as seconds for one turn of the handwheel,
because nobody can watch mm/min there.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from setupsheet.length import fixed
from setupsheet.part.shop import BoringHead, Cutter
from setupsheet.plan.bench import Bench
from setupsheet.plan.chain.record import BY_HAND
from setupsheet.tables import feeds, speeds

STEP_OVER = 0.7
"""Width of a pass when a whole area is cleared, part of the cutter's diameter. Common practice, no source."""

FASTEST_TURN_S = 1.0
"""Seconds for one turn of a handwheel that a person can keep up. Common practice, no source."""

SIDE_SHARE = 0.5
"""Part of the greatest side depth that a light machine is asked for. Common practice, no source."""

EFFICIENCY = 0.7
"""Part of the motor's power that reaches the cutter of a belt-driven mill. From memory, no source."""

OPERATION = {"pilot": "drill", "core drill": "drill", "chamfer": "countersink", "spotface": "counterbore"}
"""Operation of a plan -> the one whose speed and feed it has, where the tables name another."""


@dataclass(frozen=True, slots=True)
class Cut:
    """What to set: spindle speed, feed, and for milling the depth and width of one pass."""

    rpm: int
    rpm_words: str
    feed_mm_per_min: float
    feed_s_per_turn: float
    feed_shown: str
    depth_mm: float = 0.0
    width_mm: float = 0.0


def milling(bench: Bench, cutter: Cutter, *, full_width: bool, slot: bool = False) -> Cut:
    """Return the cut of an end mill: ``full_width`` clears an area, ``slot`` is one of its own width; else an edge."""
    group, diameter = bench.part.material_group, cutter.diameter_mm
    speed = speeds.pick(speeds.start(group, "mill", cutter.material), diameter, "mill", _spindle(bench))
    tooth = feeds.feed_per_tooth_mm(diameter, group, cutter.material).start
    kind = "slot" if slot else "level" if full_width else "side"
    depth = feeds.depth_of_cut_mm(kind, diameter, group)
    feed = feeds.feed_mm_min(tooth, cutter.flutes, speed.rpm)
    share = 1.0 if full_width else SIDE_SHARE
    cut = _cut(bench, speed.rpm, too_fast=speed.too_fast, feed=feed)
    wide = diameter if full_width else STEP_OVER * diameter
    most = depth_for_power(bench, depth.start * share, wide, cut.feed_mm_per_min)
    return replace(cut, depth_mm=_round_down(bench, most), width_mm=STEP_OVER * diameter)


def depth_for_power(bench: Bench, depth_mm: float, width_mm: float, feed_mm_per_min: float) -> float:
    """Return a depth of pass, less where the motor has not the power for it (0 W: not told, no limit)."""
    if bench.machine.power_w <= 0:
        return depth_mm
    force = feeds.cutting_force_n_mm2(bench.part.material_group)[0]
    needed_w = 1000 * feeds.power_kw(feeds.removal_mm3_min(depth_mm, width_mm, feed_mm_per_min), force, EFFICIENCY)
    return depth_mm * min(1.0, bench.machine.power_w / needed_w) if needed_w > 0 else depth_mm


def hole_cut(bench: Bench, cutter: Cutter, operation: str, diameter_mm: float) -> Cut:
    """Return the cut of a drill, reamer, countersink ...; a tap turned by hand has no speed."""
    if operation in BY_HAND:
        return Cut(0, "by hand", 0.0, 0.0, "by hand")
    name = OPERATION.get(operation, operation)
    group = bench.part.material_group
    turning = max(diameter_mm, cutter.tip_mm) or cutter.diameter_mm
    speed = speeds.pick(speeds.start(group, name, cutter.material), turning, name, _spindle(bench, cutter.kind))
    feed = feeds.feed_per_rev_mm(name, turning, group).start * speed.rpm
    cut = _cut(bench, speed.rpm, too_fast=speed.too_fast, feed=feed, axis="z")
    return replace(cut, rpm_words=_HELD_BACK[_holder(cutter.kind)]) if speed.held_back and not speed.too_fast else cut


def boring(bench: Bench, head: BoringHead, diameter_mm: float) -> Cut:
    """Return the cut of the boring head: never over the head's own limit, feed by the quill's fine feed."""
    group = bench.part.material_group
    spindle = _spindle(bench)._replace(most_rpm=head.max_rpm)
    speed = speeds.pick(speeds.start(group, "bore"), diameter_mm, "bore", spindle)
    feed = feeds.feed_per_rev_mm("bore", diameter_mm, group).start * speed.rpm
    return _cut(bench, speed.rpm, too_fast=False, feed=feed, axis="z", words="backwards")


def _round_down(bench: Bench, depth_mm: float) -> float:
    """Round a depth of pass down to a number that is easy to dial: 0.1 mm, or 0.005 in."""
    step = 0.1 if bench.scales["z"].axis.unit == "mm" else 0.127
    return max(step, math.floor(depth_mm / step + 1e-6) * step)


_HELD_BACK = {"drill chuck": "at most for the chuck", "boring head": "at most for the boring head"}
"""What holds a cutter -> why the speed stays below what the cutter bears."""


def _holder(kind: str) -> str:
    """Return what holds a kind of cutter; an end mill is held in a collet, which bears every speed."""
    return {"end mill": "collet", "boring head": "boring head"}.get(kind, "drill chuck")


def _spindle(bench: Bench, kind: str = "end mill") -> speeds.Spindle:
    """Return the machine's speeds, and what the holder of a kind of cutter bears of them."""
    head = bench.shop.boring_head
    most = {
        "drill chuck": bench.shop.chuck_rpm,
        "boring head": head.max_rpm if head else speeds.holder_most_rpm("boring head"),
    }
    return speeds.Spindle(bench.machine.speeds_rpm, bench.machine.stepless, most.get(_holder(kind), 0))


def _cut(bench: Bench, rpm: int, *, too_fast: bool, feed: float, axis: str = "x", words: str = "") -> Cut:
    per_turn = bench.machine.axes[axis].per_turn_mm or bench.machine.feed_mm_per_turn
    by_hand = axis != "z" and per_turn > 0 and not bench.machine.power_feed
    feed = min(feed, 60 * per_turn / FASTEST_TURN_S) if by_hand else feed
    seconds = 60 * per_turn / feed if by_hand and feed > 0 else 0.0
    shown = _feed_words(bench, feed, seconds)
    said = "the lowest speed there is, still fast for this cutter" if too_fast else words
    return Cut(rpm, said, round(feed, 1), round(seconds, 1), shown)


def _feed_words(bench: Bench, feed: float, seconds: float) -> str:
    if seconds and not bench.machine.power_feed:
        return f"{fixed(seconds, 1 if seconds < 10 else 0)} s a turn"
    return "" if not bench.machine.power_feed else f"{fixed(feed, 0)} mm/min"
