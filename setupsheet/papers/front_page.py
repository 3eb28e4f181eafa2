"""The front page: what it is, what to saw, the setups in order and why, what to lay out, what to watch."""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.drawing.ink import Group
from setupsheet.papers.said import NOTHING, Said, each
from setupsheet.papers.setup_page import face_back, face_up, own_name
from setupsheet.papers.small_pictures import picture
from setupsheet.papers.views import Views
from setupsheet.plan.doubts import DOUBT
from setupsheet.plan.record import Plan, ToolLine

_PICTURE_ROOM = (88.0, 40.0)
_SMALL_ROOM = (19.0, 12.0)


@dataclass(frozen=True, slots=True)
class Tool:
    """A line to lay out; ``used_in`` are setup numbers."""

    label: Said
    used_in: tuple[int, ...]
    why: Said


@dataclass(frozen=True, slots=True)
class SetupLine:
    """A setup in the list of the front page."""

    anchor: str
    number: Said
    up: str
    name: Said
    back: str
    steps: int
    picture: Group | None


@dataclass(frozen=True, slots=True)
class Known:
    """What a step is known for beforehand: where, the number first, and the words."""

    setup: Said
    step: Said
    number: Said
    words: Said


@dataclass(frozen=True, slots=True)
class FrontPage:
    """Everything on the front page. ``unit`` holds for every length without one."""

    unit: Said

    part: Said
    number: Said
    revision: Said
    material: Said
    quantity: Said
    """How many parts of a set; nothing for one."""
    picture: Group | None
    stock: Said
    least: Said
    stock_mass: Said
    finished: Said
    mass: Said
    setups: tuple[SetupLine, ...]
    reasons: tuple[Said, ...]
    owned: tuple[Tool, ...]
    to_get: tuple[Tool, ...]
    holding: tuple[Tool, ...]
    measuring: tuple[Tool, ...]
    watch: tuple[Said, ...]
    doubts: tuple[Said, ...]
    """What was not seen in print: it stands low, since nothing is done about it at the machine."""
    close: tuple[Known, ...]
    left: tuple[Known, ...]
    cautions: tuple[Said, ...]
    revisions: tuple[tuple[Said, Said, Said], ...]
    notes: tuple[Said, ...]
    title: str
    verdict: tuple[Said, ...]
    proved: bool
    not_proved: tuple[Said, ...]


def front_page(plan: Plan, views: Views) -> FrontPage:
    """Return the front page of a plan."""
    proved = plan.replay is not None and plan.replay.proved
    return FrontPage(
        unit=Said(plan.unit, "/unit"),
        part=Said(plan.part, "/part"),
        number=Said(plan.number, "/number"),
        revision=Said(plan.revision, "/revision"),
        material=Said(plan.material, "/material"),
        quantity=Said(str(plan.quantity), "/quantity") if plan.quantity > 1 else NOTHING,
        picture=picture(plan.part, views.finished, _PICTURE_ROOM),
        stock=Said(plan.stock.shown_size, "/stock/shown_size"),
        least=Said(plan.stock.shown_least, "/stock/shown_least"),
        stock_mass=Said(plan.stock.shown_mass, "/stock/shown_mass"),
        finished=Said(plan.solid.shown_box, "/solid/shown_box"),
        mass=Said(plan.solid.shown_mass, "/solid/shown_mass"),
        setups=_setups(plan, views),
        reasons=each(plan.order_reasons, "/order_reasons"),
        owned=_tools(plan, owned=True),
        to_get=_tools(plan, owned=False),
        holding=_holding(plan),
        measuring=_measuring(plan),
        watch=_watch(plan, doubted=False),
        doubts=_watch(plan, doubted=True),
        close=_close(plan),
        left=_left(plan),
        cautions=each(plan.cautions, "/cautions"),
        revisions=_revisions(plan),
        notes=each(plan.notes, "/notes"),
        title=("Proved, but for hand work" if plan.not_proved else "Proved") if proved else "Not proved",
        verdict=_verdict(plan),
        proved=proved,
        not_proved=each(plan.not_proved, "/not_proved"),
    )


def _watch(plan: Plan, *, doubted: bool) -> tuple[Said, ...]:
    """Return what to watch but hand work, which has its own lines: doubts about sources, or all else."""
    lines = (said for said in each(plan.watch, "/watch") if said.text not in plan.not_proved)
    return tuple(said for said in lines if said.text.startswith(DOUBT) == doubted)


def _verdict(plan: Plan) -> tuple[Said, ...]:
    """Return the verdict's sentences but those that steps and hand work say better."""
    if plan.replay is None:
        return ()
    told = [str(piece["words"]) for piece in (*plan.replay.explained, *plan.replay.not_proved)]
    lines = each(plan.replay.words, "/replay/words")
    return tuple(line for line in lines if not any(words in line.text or words[1:] in line.text for words in told))


def _close(plan: Plan) -> tuple[Known, ...]:
    """Return the sizes with close limits, in the order in which they are made."""
    rows = [(row.after, i, row) for i, row in enumerate(plan.measure) if row.close and row.after]
    rows.sort(key=lambda row: (row[0].setup, row[0].step, row[1]))
    return tuple(
        Known(
            Said(str(after.setup), f"/measure/{i}/after/setup"),
            Said(str(after.step), f"/measure/{i}/after/step"),
            Said(row.shown, f"/measure/{i}/shown"),
            Said(row.what, f"/measure/{i}/what"),
        )
        for after, i, row in rows
    )


def _left(plan: Plan) -> tuple[Known, ...]:
    """Return what steps knowingly leave standing."""
    return tuple(
        Known(
            Said(str(setup.number), f"/setups/{s}/number"),
            Said(str(step.number), f"/setups/{s}/steps/{n}/number"),
            NOTHING,
            Said(left.words, f"/setups/{s}/steps/{n}/leftover/{i}/words"),
        )
        for s, setup in enumerate(plan.setups)
        for n, step in enumerate(setup.steps)
        for i, left in enumerate(step.leftover)
        if left.words
    )


def _setups(plan: Plan, views: Views) -> tuple[SetupLine, ...]:
    return tuple(
        SetupLine(
            f"setup-{setup.number}",
            Said(str(setup.number), f"/setups/{i}/number"),
            face_up(setup),
            own_name(plan, i),
            face_back(setup),
            len(setup.steps),
            picture(f"after setup {setup.number}", seen.after_oblique, _SMALL_ROOM),
        )
        for i, (setup, seen) in enumerate(zip(plan.setups, views.setups, strict=True))
    )


def _tools(plan: Plan, *, owned: bool) -> tuple[Tool, ...]:
    return tuple(_tool(line, f"/tools/{i}") for i, line in enumerate(plan.tools) if line.owned == owned)


def _holding(plan: Plan) -> tuple[Tool, ...]:
    """Return what the part stands on, as the setups' words say it, and the pins that find holes."""
    found: dict[str, tuple[Said, list[int]]] = {}
    for s, setup in enumerate(plan.setups):
        for w, words in enumerate(setup.hold.words):
            if words.startswith("on "):
                said = Said(words, f"/setups/{s}/hold/words/{w}")
                found.setdefault(words, (said, []))[1].append(setup.number)
    return tuple(Tool(said, tuple(used), NOTHING) for said, used in found.values())


def _measuring(plan: Plan) -> tuple[Tool, ...]:
    """Return the gauges of the measuring page, each once, with the setups in which they are taken up."""
    found: dict[str, tuple[Said, list[int]]] = {}
    for i, row in enumerate(plan.measure):
        used = found.setdefault(row.gauge, (Said(row.gauge, f"/measure/{i}/gauge"), []))[1]
        if row.after and row.after.setup not in used:
            used.append(row.after.setup)
    return tuple(Tool(said, tuple(sorted(used)), NOTHING) for said, used in found.values() if said)


def _tool(line: ToolLine, path: str) -> Tool:
    return Tool(Said(line.label, f"{path}/label"), line.used_in, Said(line.why, f"{path}/why") if line.why else NOTHING)


def _revisions(plan: Plan) -> tuple[tuple[Said, Said, Said], ...]:
    rows = []
    for i, row in enumerate(plan.revisions):
        letter, date, change = (Said(row.get(key, ""), f"/revisions/{i}/{key}") for key in ("letter", "date", "change"))
        rows.append((letter, date, change))
    return tuple(rows)
