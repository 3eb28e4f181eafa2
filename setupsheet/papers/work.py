"""The numbered steps of a setup as rows, gathered under the cutter that does them.

Nothing is worked out here: which texts stand together, and where a place that many steps share is named
once by a letter.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from setupsheet.papers.said import NOTHING, Said, each, shown
from setupsheet.papers.turned import Turned, turned
from setupsheet.plan.holes.holes import LOCKED
from setupsheet.plan.record import Position, Setup, Step, TouchOff

_FULL_SIZE = ("drill", "core drill", "reamer", "tap")
MANY_DEPTHS = 6
"""A step with more different depths than this has them in a column of the positions table."""
MANY_LABELS = 30
"""A step with more labels than this names the first and the last, where the table of positions has the others."""
SCRIBE = "scribe"
"""The operation whose places are points of lines, not holes."""
TALL = 3
"""So many stops or depths leave room beside them for the words."""
_FEW_FEATURES = 2
"""The features of a step are named beside its labels where they are no more than this."""
MANY_PASSES = 2
"""A step with more passes than this before its last has them in a line of their own."""


@dataclass(frozen=True, slots=True)
class TouchPlace:
    """Where a cutter's Z is found again; steps name it by ``letter``."""

    letter: str
    surface: Said
    x: Said
    y: Said
    feeler: Said
    set_to: Said


@dataclass(frozen=True, slots=True)
class Stop:
    """A reading at which the cutter's centre stops: axis, the last number, the first ones', words."""

    axis: str
    reading: Said
    rough: Said
    words: Said


@dataclass(frozen=True, slots=True)
class Depth:
    """A tip reading and the places that share it: one setting of the depth stop."""

    reading: Said
    labels: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class Row:
    """One step of work as it is printed. ``anchor`` names it for the ticks of the browser page.

    A place is ``large`` where no table holds it. Labels that ``run`` are so many, and follow each other so in the
    table of positions, that the first and the last say which.
    """

    anchor: str
    number: Said
    title: Said
    labels: tuple[Said, ...]
    features: tuple[Said, ...]
    where: Said
    place: tuple[Said, ...]
    stops: tuple[Stop, ...]
    turned: tuple[Turned, ...]
    readings: tuple[Said, ...]
    passes: tuple[Said, ...]
    depths: tuple[Depth, ...]
    full: Said
    large: bool
    run: bool
    see: bool
    table: str
    settings: tuple[Said, ...]
    words: tuple[Said, ...]
    checks: tuple[tuple[Said, Said], ...]
    cautions: tuple[Said, ...]
    direction: Said
    feed: Said

    @property
    def under(self) -> bool:
        """Tell whether words stand under the line: beside tall stops or depths there is room for them."""
        return len(self.stops) + len(self.depths) + len(self.turned) < TALL

    @property
    def alone(self) -> bool:
        """Tell whether the step has neither a place nor a reading, so that its words may take the whole line."""
        return not any(
            (
                self.labels,
                self.where,
                self.place,
                self.stops,
                self.turned,
                self.readings,
                self.depths,
                self.table,
                self.settings,
            )
        )


@dataclass(frozen=True, slots=True)
class CutterBlock:
    """Steps that one cutter does in a row at one speed.

    ``change`` is False where the cutter is in the spindle already; ``again`` tells that an earlier cutter of
    this setup was touched off at the same place.
    """

    tool: Said
    rpm: Said
    rpm_words: Said
    buy: bool
    change: bool
    touch: TouchPlace | None
    again: bool
    rows: tuple[Row, ...]


def touch_places(setup: Setup, path: str) -> tuple[TouchPlace, ...]:
    """Return the different touch-off places of a setup, lettered in the order in which they are met."""
    found: dict[tuple[object, ...], TouchPlace] = {}
    for index, step in enumerate(setup.steps):
        if step.touch_off and _key(step.touch_off) not in found:
            letter = chr(ord("A") + len(found)) if len(found) < 26 else f"A{len(found)}"
            found[_key(step.touch_off)] = _touch(step.touch_off, letter, f"{path}/steps/{index}/touch_off")
    return tuple(found.values())


def _key(touch: TouchOff) -> tuple[object, ...]:
    return touch.x, touch.y, touch.key_in, touch.surface


def _touch(touch: TouchOff, letter: str, path: str) -> TouchPlace:
    return TouchPlace(
        letter,
        Said(touch.surface, f"{path}/surface"),
        shown(touch.shown, "x", f"{path}/shown"),
        shown(touch.shown, "y", f"{path}/shown"),
        shown(touch.shown, "feeler", f"{path}/shown"),
        Said(touch.key_in, f"{path}/key_in"),
    )


def work(setup: Setup, path: str, tables: dict[int, str], tabled: tuple[str, ...] = ()) -> tuple[CutterBlock, ...]:
    """Return the steps in blocks; ``tables`` names the table that a step (its index) is printed in beside.

    ``tabled`` are the labels whose places stand in the table of positions, in its order.
    """
    places = touch_places(setup, path)
    keys = {_key(step.touch_off): None for step in setup.steps if step.touch_off}
    touch_of = dict(zip(keys, places, strict=True))
    blocks: list[CutterBlock] = []
    rows: list[Row] = []
    for index, step in enumerate(setup.steps):
        before = setup.steps[index - 1] if index else None
        if before is None or _block_ends(before, step):
            rows = []
            blocks.append(_block(setup, index, path, touch_of))
        row = _row(setup, index, path, tables.get(index, ""))
        large = not set(tabled).issuperset(label.text for label in row.labels)
        rows.append(replace(row, large=large, run=_is_run(row.labels, tabled)))
        blocks[-1] = _with_rows(blocks[-1], tuple(rows))
    return tuple(blocks)


def _is_run(labels: tuple[Said, ...], tabled: tuple[str, ...]) -> bool:
    """Tell whether many labels follow each other as they do in the table."""
    texts = tuple(label.text for label in labels)
    if len(texts) <= MANY_LABELS or texts[0] not in tabled:
        return False
    start = tabled.index(texts[0])
    return tabled[start : start + len(texts)] == texts


def _block_ends(before: Step, step: Step) -> bool:
    return _cutter(before) != _cutter(step) or before.rpm != step.rpm or step.touch_off is not None


def _cutter(step: Step) -> str:
    return step.tool.label if step.tool else ""


def _block(setup: Setup, index: int, setup_path: str, touch_of: dict[tuple[object, ...], TouchPlace]) -> CutterBlock:
    step, path = setup.steps[index], f"{setup_path}/steps/{index}"
    met = {_key(one.touch_off) for one in setup.steps[:index] if one.touch_off}
    return CutterBlock(
        tool=Said(step.tool.label, f"{path}/tool/label") if step.tool else NOTHING,
        rpm=Said(str(step.rpm), f"{path}/rpm") if step.rpm else NOTHING,
        rpm_words=Said(step.rpm_words, f"{path}/rpm_words"),
        buy=step.tool is not None and not step.tool.owned,
        change=step.tool is not None and (not index or _cutter(setup.steps[index - 1]) != _cutter(step)),
        touch=touch_of[_key(step.touch_off)] if step.touch_off else None,
        again=step.touch_off is not None and _key(step.touch_off) in met,
        rows=(),
    )


def _with_rows(block: CutterBlock, rows: tuple[Row, ...]) -> CutterBlock:
    return replace(block, rows=rows)


def _row(setup: Setup, index: int, setup_path: str, table: str) -> Row:
    step, path = setup.steps[index], f"{setup_path}/steps/{index}"
    left = tuple(Said(one.words, f"{path}/leftover/{i}/words") for i, one in enumerate(step.leftover) if one.words)
    unproved = (Said(step.not_proved, f"{path}/not_proved"),) if step.not_proved else ()
    readings = _readings(step, path)
    many = len(readings) > MANY_PASSES + 1
    return Row(
        anchor=f"s{setup.number}-{step.number}",
        number=Said(str(step.number), f"{path}/number"),
        title=Said(step.title, f"{path}/title"),
        labels=() if step.operation == SCRIBE and table else _labels(step, path),
        features=_features(setup, index, path),
        where=_where(step, path),
        place=_place(step.positions, path),
        stops=_stops(step, path),
        turned=turned(step, path),
        readings=readings[-1:] if many else readings,
        passes=readings[:-1] if many else (),
        depths=_depths(step.positions, path),
        large=False,
        run=False,
        see=len(z_texts(step.positions)) > MANY_DEPTHS,
        full=_full(step.positions, step.tool.kind if step.tool else "", path),
        table=table,
        settings=tuple(Said(ring.shown, f"{path}/rings/{i}/shown") for i, ring in enumerate(step.rings) if ring.shown),
        words=(*_words(setup, index, path), *left),
        checks=tuple(
            (Said(ask.what, f"{path}/checks/{i}/what"), Said(ask.shown, f"{path}/checks/{i}/shown"))
            for i, ask in enumerate(step.checks)
        ),
        cautions=(*each(step.cautions, f"{path}/cautions"), *unproved),
        direction=_unless_same(step.direction, common_direction(setup), f"{path}/direction"),
        feed=_unless_same(step.feed_shown, _feed_before(setup, index), f"{path}/feed_shown"),
    )


def _words(setup: Setup, index: int, path: str) -> tuple[Said, ...]:
    """Return the words of a step; that nothing moves between cutters is said once in a chain at one place."""
    step, before = setup.steps[index], setup.steps[index - 1] if index else None
    same = before is not None and LOCKED in before.words and _at(before) == _at(step)
    return tuple(said for said in each(step.words, f"{path}/words") if not (same and said.text == LOCKED))


def _at(step: Step) -> list[str]:
    """Return the labels of the places of a step."""
    return [position.label for position in step.positions]


def _labels(step: Step, path: str) -> tuple[Said, ...]:
    return tuple(Said(p.label, f"{path}/positions/{i}/label") for i, p in enumerate(step.positions))


def _features(setup: Setup, index: int, path: str) -> tuple[Said, ...]:
    """Return the names of a step's features where it has few, once in a setup: what R1 belongs to."""
    step = setup.steps[index]
    if not step.positions or len(step.features) > _FEW_FEATURES or step.operation == SCRIBE:
        return ()
    before = [other for other in setup.steps[:index] if other.positions and len(other.features) <= _FEW_FEATURES]
    told = {name for other in before for name in other.features}
    return tuple(
        Said(name, f"{path}/features/{i}")
        for i, name in enumerate(step.features)
        if name not in told and name not in step.title
    )


def common_direction(setup: Setup) -> str:
    """Return the direction of the first milling step: the one that goes without saying."""
    return next((step.direction for step in setup.steps if (step.moves or step.arcs) and step.direction), "")


def _feed_before(setup: Setup, index: int) -> str:
    """Return the feed that the same cutter had in the step before, '' where the cutter is new."""
    if not index or _block_ends(setup.steps[index - 1], setup.steps[index]):
        return ""
    return setup.steps[index - 1].feed_shown


def _unless_same(text: str, known: str, path: str) -> Said:
    return NOTHING if text == known else Said(text, path)


def _place(positions: tuple[Position, ...], path: str) -> tuple[Said, ...]:
    """Return X and Y of a step with one place; more places stand in the table."""
    if len(positions) != 1:
        return ()
    at = f"{path}/positions/0"
    return tuple(Said(positions[0].shown[axis], f"{at}/{axis}") for axis in ("x", "y") if axis in positions[0].shown)


def _where(step: Step, path: str) -> Said:
    """Return the plan's words for where, unless labels, a table or stops with both readings say it better."""
    told = (step.positions and not step.rings) or step.points or all(limit.shown_rough for limit in step.limits)
    return NOTHING if told and (step.positions or step.points or step.limits) else Said(step.where, f"{path}/where")


def _stops(step: Step, path: str) -> tuple[Stop, ...]:
    return tuple(
        Stop(
            limit.axis.upper(),
            Said(limit.shown, f"{path}/limits/{i}/shown"),
            Said(limit.shown_rough, f"{path}/limits/{i}/shown_rough"),
            Said(limit.words, f"{path}/limits/{i}/words"),
        )
        for i, limit in enumerate(step.limits)
    )


def z_texts(positions: tuple[Position, ...]) -> list[str]:
    """Return the tip readings of the places, each once, in their order."""
    return list(dict.fromkeys(position.shown.get("z", "") for position in positions))


def _readings(step: Step, path: str) -> tuple[Said, ...]:
    """Return the Z readings of a step, the last one last; none where its places go to different depths."""
    texts = z_texts(step.positions)
    if step.positions and not step.moves and not step.rings:
        return (Said(texts[0], f"{path}/positions/0/shown/z"),) if len(texts) == 1 and texts[0] else ()
    return each(step.z_shown, f"{path}/z_shown")


def _depths(positions: tuple[Position, ...], path: str) -> tuple[Depth, ...]:
    """Return the different depths with their places, or () where there is one or where a table has them."""
    texts = z_texts(positions)
    if not 1 < len(texts) <= MANY_DEPTHS:
        return ()
    depths: list[Depth] = []
    for text in texts:
        there = [i for i, position in enumerate(positions) if position.shown.get("z", "") == text]
        labels = tuple(Said(positions[i].label, f"{path}/positions/{i}/label") for i in there)
        depths.append(Depth(Said(text, f"{path}/positions/{there[0]}/shown/z"), labels))
    return tuple(depths)


def _full(positions: tuple[Position, ...], kind: str, path: str) -> Said:
    """Return where a drill's full diameter ends; other pointed cutters have none that matters."""
    if not positions or len(z_texts(positions)) != 1 or kind not in _FULL_SIZE:
        return NOTHING
    text = positions[0].shown.get("z_full", "")
    same = text == positions[0].shown.get("z", "")
    return NOTHING if same else Said(text, f"{path}/positions/0/shown/z_full")
