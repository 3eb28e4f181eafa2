"""Tap drills and what else tapping needs: per cent aimed at, least full thread, the tap's lead.

tap_drill(find("M5"), "aluminium")   -> (4.2, 76.98, "tap-drill chart, metric (...)")
"""

from __future__ import annotations

import functools
from typing import NamedTuple

from setupsheet.part.size import Thread
from setupsheet.tables import drills, loader, threads

_SLACK_MM = 0.0006
"""Rounding of inch tables to four places; a drill this close to a limit counts as on it."""


class TapDrill(NamedTuple):
    """One drill for a thread; ``percent`` on the full-height basis, ``prints`` how many sources agree.

    ``standard`` says that a drill standard (ISO 2306, BS 1157) names it.
    """

    label: str
    diameter_mm: float
    percent: float | None
    source: str
    status: str
    prints: int
    own_series: bool
    standard: bool = False


class Practice(NamedTuple):
    """What a material asks for: the per cent of thread and the least full thread in diameters."""

    material: str
    target_percent: float
    least_percent: float
    most_percent: float
    full_thread_factor: float
    source: str


def practice(group: str) -> Practice:
    """Return the row whose material is named in ``group`` ('free-machining brass' -> brass), else the general one."""
    rows = {row["material"]: row for row in loader.rows("thread_practice")}
    plastics = ("acetal", "nylon", "pet", "pvc", "acrylic", "ptfe")
    words = "plastic" if any(name in group.lower() for name in plastics) else group.lower()
    fitting = [name for name in ("stainless", "tool steel", "cast iron", *rows) if name in words]
    row = rows[fitting[0] if fitting else "general"]
    return Practice(
        row["material"],
        target_percent=float(row["target_percent"]),
        least_percent=float(row["least_percent"]),
        most_percent=float(row["most_percent"]),
        full_thread_factor=float(row["full_thread_factor"]),
        source=row["source"],
    )


def least_full_thread_mm(thread: Thread, group: str) -> float:
    """Return the least full thread (mm) that bears in a material; a taper thread's own length by hand and wrench."""
    if thread.form == threads.TAPER:
        return threads.hand_tight_mm(thread)[1]
    return practice(group).full_thread_factor * thread.major_mm


def tap_drill(thread: Thread, group: str = "") -> tuple[float, float | None, str]:
    """Return the drill to use (mm), its per cent of thread (None: taper thread) and its source."""
    best = tap_drills(thread, group)[0]
    return best.diameter_mm, best.percent, best.source


def tap_drills(thread: Thread, group: str = "", *, reamed: bool = False) -> tuple[TapDrill, ...]:
    """Return the published drills inside the minor limits, best first; one is worked out if none is.

    ``reamed`` asks for those that are followed by a taper reamer (pipe threads that get thinner).

    Best: named by a drill standard, then printed by most sources, then of the thread's own system,
    then nearest to the per cent that the material asks for.
    """
    found = _published(thread, reamed=reamed)
    lower, upper = threads.minor_limits_mm(thread)
    inside = [drill for drill in found if lower - _SLACK_MM <= drill.diameter_mm <= upper + _SLACK_MM]
    target = practice(group).target_percent
    if not inside:
        inside = [_worked_out(thread, target)]
    return tuple(sorted(inside, key=lambda drill: _rank(drill, target)))


def _rank(drill: TapDrill, target: float) -> tuple[bool, bool, int, bool, float, float]:
    aim = abs((drill.percent or target) - target)
    odd = drill.percent is not None and drill.percent > 95.0
    return odd, not drill.standard, -drill.prints, not drill.own_series, aim, drill.diameter_mm


@functools.cache
def _published(thread: Thread, *, reamed: bool) -> tuple[TapDrill, ...]:
    """Return the drills printed for a thread, with or without a taper reamer after them; each once."""
    sold = {(size.series == "metric", size.label): size for size in drills.sizes()}
    unique: dict[str, TapDrill] = {}
    for row in loader.rows("tap_drills"):
        if row["thread"] != thread.designation or row["drill_series"] == "decimal inch":
            continue
        if ("taper reamer" in row["chart"]) != reamed:
            continue
        label = _label(row)
        size = sold.get((row["drill_series"] == "metric", label))
        if size is None:
            continue
        drill = _tap_drill(thread, row, size)
        if label not in unique or (unique[label].standard, unique[label].prints) < (drill.standard, drill.prints):
            unique[label] = drill
    return tuple(unique.values())


def _label(row: loader.Row) -> str:
    if row["drill_series"] == "metric":
        return f"{row['drill']} mm"
    return f"no. {row['drill'][1:]}" if row["drill"].startswith("#") else row["drill"]


def _tap_drill(thread: Thread, row: loader.Row, size: drills.DrillSize) -> TapDrill:
    state = row["status"]
    prints = int(state.split("_")[1][0]) if state.startswith("verified_") else 0
    metric_thread = thread.series.startswith("metric") or thread.series in ("BA", "BSPP")
    own = (row["drill_series"] == "metric") == metric_thread
    percent = threads.percent(thread, size.diameter_mm)
    standard = "ISO 2306" in row["source"] or "BS 1157 as" in row["source"]
    return TapDrill(size.label, size.diameter_mm, percent, row["source"], state, prints, own, standard)


def _worked_out(thread: Thread, target: float) -> TapDrill:
    """Return the standard drill inside the limits that comes nearest to the per cent aimed at.

    Where none lies inside (over 1 in), the middle of the limits, to be bored.
    """
    lower, upper = threads.minor_limits_mm(thread)
    series = "metric" if thread.series.startswith("metric") or thread.series in ("BA", "BSPP") else "inch"
    fitting = [size for size in drills.sizes() if lower <= size.diameter_mm <= upper]
    own = [size for size in fitting if drills.in_series(size, series)]

    def aim(size: drills.DrillSize) -> tuple[float, float, str]:
        return abs((threads.percent(thread, size.diameter_mm) or target) - target), size.diameter_mm, size.series

    size = min(own or fitting, key=aim, default=None)
    if size is None:
        middle = round((lower + upper) / 2.0, 1)
        return TapDrill(
            f"{middle:g} mm", middle, threads.percent(thread, middle), "middle of the limits", "no drill", 0, True
        )
    percent = threads.percent(thread, size.diameter_mm)
    return TapDrill(size.label, size.diameter_mm, percent, f"worked out for {target:g} %", "computed", 0, True)


def lead_mm(thread: Thread, tap: str) -> float:
    """Return how far a tap's lead reaches past the full thread (mm); ``tap``: taper, second or bottoming."""
    rows = {row["tap"]: row for row in loader.rows("tap_leads")}
    return float(rows[tap]["lead_pitches_count"]) * thread.pitch_mm


def lead_source() -> str:
    """Return the source of the taps' leads, to print where they are used."""
    return loader.rows("tap_leads")[0]["source"]
