"""Tapped holes: the drill with its per cent of thread, the tap, turns and depths.

The per cent counts on the full-height basis (tables.threads.percent_basis is printed beside it).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from setupsheet.length import Unit
from setupsheet.part.cutter import Cutter
from setupsheet.part.size import Thread
from setupsheet.plan.chain.record import VERDICTS, ChainStep, HoleNeed, TapFacts, Way
from setupsheet.plan.chain.way import judge, limits_of, owned, to_buy
from setupsheet.plan.chain.words import shown
from setupsheet.tables import reaming, tapping, threads
from setupsheet.tables.unknown import NotInTables

if TYPE_CHECKING:
    from setupsheet.part.shop import Shop

_SAME_MM = 0.012
"""Two drills this near in size are one: a no. 7 and a 5.1 cut the same hole."""

_THROUGH_KINDS = ("spiral point", "gun", "taper", "second", "plug", "")
_BLIND_KINDS = ("bottoming", "spiral flute", "second", "plug", "", "taper")


def drill_ways(need: HoleNeed, thread: Thread, shop: Shop | None) -> list[Way]:
    """Return the drills for a thread, best first: verdict, the table's drill if owned, owned, the table's.

    An owned drill counts if its per cent of thread is one that the material bears.
    """
    table = tapping.tap_drills(thread, need.material_group, reamed=taper_reamed(thread, shop))
    bears = tapping.practice(need.material_group)
    found = []
    for cutter in owned(shop, "drill"):
        place = _place(cutter, table)
        percent = threads.percent(thread, cutter.diameter_mm)
        if place < len(table):
            found.append((_way(cutter, need, thread, table[place]), place))
        elif percent is not None and bears.least_percent <= percent <= bears.most_percent:
            found.append((_way(cutter, need, thread), place))
    for place, drill in enumerate(table):
        found.append((_way(_table_cutter(drill), need, thread, drill), place))
    aim = table[0].diameter_mm

    def key(pair: tuple[Way, int]) -> tuple[float | bool | str, ...]:
        way, place = pair
        off = round(abs(way.diameter_mm - aim), 6)
        return VERDICTS.index(way.verdict), way.out_mm, not way.cutter.owned, place, off, way.cutter.label

    return [way for way, _ in sorted(found, key=key)]


def taper_reamed(thread: Thread, shop: Shop | None) -> bool:
    """Tell whether the hole of a taper thread is reamed: where the shop has that reamer, or nobody named a shop.

    A shop that has the reamer but only the drill to tap straight from does without it: nothing is to get.
    """
    if thread.form != threads.TAPER:
        return False
    if shop is None:
        return True
    own = any(cutter.thread == thread.designation for cutter in owned(shop, "taper reamer"))
    return own and (_has_drill(thread, shop, reamed=True) or not _has_drill(thread, shop, reamed=False))


def _has_drill(thread: Thread, shop: Shop, *, reamed: bool) -> bool:
    table = tapping.tap_drills(thread, reamed=reamed)
    return any(_place(cutter, table) < len(table) for cutter in owned(shop, "drill"))


def taper_steps(thread: Thread, shop: Shop | None) -> list[ChainStep]:
    """Return the step of the taper reamer, empty where the tap cuts the taper by itself."""
    if not taper_reamed(thread, shop):
        return []
    own = [cutter for cutter in owned(shop, "taper reamer") if cutter.thread == thread.designation]
    label = f"taper reamer {thread.designation}"
    size = thread.minor_basic_mm
    cutter = own[0] if own else Cutter("taper reamer", label, size, owned=False, thread=thread.designation)
    words = ("Taper 3/4 in per foot: turn it by hand, clear the chips often; try with the tap.",)
    state = threads.status(thread)
    return [ChainStep("taper ream", cutter, size, "full depth", words=words, source=thread.source, status=state)]


def taper_words(need: HoleNeed, thread: Thread, shop: Shop | None) -> tuple[str, ...]:
    """Return what to know on the taper reamer: the drill without it, or what its lack costs."""
    if thread.form != threads.TAPER:
        return ()
    drills = (tapping.tap_drills(thread, need.material_group, reamed=reamed)[0].label for reamed in (False, True))
    straight, reamed = drills
    if taper_reamed(thread, shop):
        without = f"Without the taper reamer: drill {straight}; the tap then cuts the whole taper, hard work."
        return (without,)
    return (
        "No taper reamer: the tap cuts the whole taper, hard work; turn it half a turn back often.",
        f"Easier: drill {reamed}, taper reamer {thread.designation} (3/4 in per foot), then tap.",
    )


def _place(cutter: Cutter, table: tuple[tapping.TapDrill, ...]) -> int:
    """Return the cutter's place in the table's list, the list's length if it is not in it."""
    for place, drill in enumerate(table):
        if abs(cutter.diameter_mm - drill.diameter_mm) < _SAME_MM:
            return place
    return len(table)


def _table_cutter(drill: tapping.TapDrill) -> Cutter:
    if drill.status == "no drill":
        return to_buy("boring head", "boring head", drill.diameter_mm)
    return to_buy("drill", f"drill {drill.label}", drill.diameter_mm)


def _way(cutter: Cutter, need: HoleNeed, thread: Thread, drill: tapping.TapDrill | None = None) -> Way:
    """Return what a drill leaves of the minor diameter; its source is the table's if it is the table's drill."""
    size = cutter.diameter_mm
    process = "bored" if cutter.kind == "boring head" else "drilled"
    try:
        low, high, source, status = reaming.holds(process, size)
    except NotInTables:
        low, high, source, status = 0.0, 0.0, "", ""
    limits = limits_of(need) or threads.minor_limits_mm(thread)
    verdict, out = judge(size + low, size + high, limits)
    if drill is not None:
        source, status = drill.source, drill.status
    operation = "bore" if cutter.kind == "boring head" else "drill"
    return Way(operation, cutter, size, round(size + low, 6), round(size + high, 6), verdict, out, source, status)


def percent_words(need: HoleNeed, thread: Thread, way: Way) -> tuple[str, ...]:
    """Return the per cent of thread that a drill leaves and, if it is not the table's, what that changes."""
    percent = threads.percent(thread, way.diameter_mm)
    if percent is None:
        return ()
    best = tapping.tap_drills(thread, need.material_group)[0]
    words = [f"{percent:.0f} % thread ({threads.percent_basis(thread)})."]
    if best.percent is not None and abs(best.diameter_mm - way.diameter_mm) >= _SAME_MM:
        effect = "easier to tap" if percent < best.percent else "harder to tap"
        words.append(f"The table's drill is {best.label} ({best.percent:.0f} %): this one is {effect}.")
    return tuple(words)


def tap_step(need: HoleNeed, thread: Thread, shop: Shop | None) -> tuple[ChainStep, TapFacts]:
    """Return the tapping step and its facts."""
    cutter = _tap(need, thread, shop)
    facts = _facts(need, thread, cutter)
    first = f"Tap {facts.turns:.0f} turns." if facts.turns else "Tap right through."
    words = [*facts.words] if thread.form == threads.TAPER else [first, *facts.words]
    state = threads.status(thread)
    step = ChainStep(
        "tap", cutter, thread.major_mm, "full depth", words=tuple(words), source=thread.source, status=state
    )
    return step, facts


def _tap(need: HoleNeed, thread: Thread, shop: Shop | None) -> Cutter:
    liked = _THROUGH_KINDS if need.through else _BLIND_KINDS
    own = [cutter for cutter in owned(shop, "tap") if _cuts(cutter, thread)]
    if not own:
        label = f"tap {thread.designation}"
        return Cutter("tap", label, thread.major_mm, owned=False, thread=thread.designation)
    place = {kind: number for number, kind in enumerate(liked)}
    return min(own, key=lambda cutter: (place.get(cutter.tap_kind, len(liked)), cutter.label))


def _cuts(cutter: Cutter, thread: Thread) -> bool:
    """Tell whether a tap cuts this thread, however its name was written."""
    if cutter.thread == thread.designation:
        return True
    try:
        return threads.find(cutter.thread).designation == thread.designation
    except NotInTables:
        return False


def _facts(need: HoleNeed, thread: Thread, tap: Cutter) -> TapFacts:
    least = tapping.least_full_thread_mm(thread, need.material_group)
    enough = None if need.depth_mm is None else need.depth_mm >= least - 1e-6
    kind, drilled, words = _through(need, tap) if need.through else _blind(need, thread, tap)
    turns = None if need.depth_mm is None else _turns(need.depth_mm, need, thread)
    if thread.form == threads.TAPER:
        kind, turns, words = "taper pipe", None, (_until_hand_tight(thread),)
    lead_source = tapping.lead_source() if drilled is not None and thread.form != threads.TAPER else ""
    if enough is False:
        words += (f"Only {shown(need.depth_mm or 0.0, need.unit)} of thread: {shown(least, need.unit)} holds a screw.",)
    return TapFacts(turns, kind, least, drilled, threads.percent_basis(thread), enough, words, lead_source)


def _turns(depth_mm: float, need: HoleNeed, thread: Thread) -> float:
    """Return the turns of the tap for a depth; a through hole takes the tap's lead as well."""
    lead = tapping.lead_mm(thread, "second") if need.through else 0.0
    return round((depth_mm + lead) / thread.pitch_mm, 1)


def _until_hand_tight(thread: Thread) -> str:
    """Return when to stop a taper tap: it cuts larger with every turn."""
    turns = threads.hand_tight_mm(thread)[0] / thread.pitch_mm
    return f"Stop when the fitting goes in {turns:.0f} turns by hand: every further turn makes the thread larger."


def _through(need: HoleNeed, tap: Cutter) -> tuple[str, None, tuple[str, ...]]:
    kind = tap.tap_kind or "taper"
    return kind, None, (f"{kind.capitalize()} tap, right through.",) if need.depth_mm else ()


def _blind(need: HoleNeed, thread: Thread, tap: Cutter) -> tuple[str, float | None, tuple[str, ...]]:
    """Return tap kind, drilled depth and words: which tap's lead still fits below the full thread.

    The middle tap of a set is called as the shop calls it: second, or plug.
    """
    middle = tap.tap_kind if tap.tap_kind in ("plug", "second") else "plug" if need.unit is Unit.INCH else "second"
    second, bottom = (tapping.lead_mm(thread, kind) for kind in ("second", "bottoming"))
    if need.depth_mm is None:
        return middle, None, ()
    drilled = need.drill_depth_mm if need.drill_depth_mm is not None else need.depth_mm + second
    room = drilled - need.depth_mm
    depth = f"Drill {shown(drilled, need.unit)} deep (full diameter)"
    if room >= second - 1e-6:
        return middle, drilled, (f"{depth}; {middle} tap, blow out the chips.",)
    if room >= bottom - 1e-6:
        return "bottoming", drilled, (f"{depth}; taper tap first, then bottoming.",)
    needed = shown(need.depth_mm + bottom, need.unit)
    return "bottoming", drilled, (f"{depth} leaves the tap no room: a bottoming tap wants {needed}.",)
