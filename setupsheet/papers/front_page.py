"""The front page: what it is, what to saw, the setups in order and why, what to lay out, what to watch."""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.drawing.ink import Group
from setupsheet.papers.said import NOTHING, Said, each
from setupsheet.papers.setup_page import face_back, face_up
from setupsheet.papers.small_pictures import picture
from setupsheet.papers.views import Views
from setupsheet.plan.record import Plan, ToolLine

_PICTURE_ROOM = (88.0, 54.0)
_SMALL_ROOM = (19.0, 14.0)


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
    back: str
    steps: int
    picture: Group | None


@dataclass(frozen=True, slots=True)
class FrontPage:
    """Everything on the front page."""

    part: Said
    number: Said
    revision: Said
    material: Said
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
    watch: tuple[Said, ...]
    cautions: tuple[Said, ...]
    revisions: tuple[tuple[Said, Said, Said], ...]
    notes: tuple[Said, ...]
    verdict: tuple[Said, ...]
    proved: bool
    not_proved: tuple[Said, ...]


def front_page(plan: Plan, views: Views) -> FrontPage:
    """Return the front page of a plan."""
    return FrontPage(
        part=Said(plan.part, "/part"),
        number=Said(plan.number, "/number"),
        revision=Said(plan.revision, "/revision"),
        material=Said(plan.material, "/material"),
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
        watch=each(plan.watch, "/watch"),
        cautions=each(plan.cautions, "/cautions"),
        revisions=_revisions(plan),
        notes=each(plan.notes, "/notes"),
        verdict=each(plan.replay.words, "/replay/words") if plan.replay else (),
        proved=plan.replay is not None and plan.replay.proved,
        not_proved=each(plan.not_proved, "/not_proved"),
    )


def _setups(plan: Plan, views: Views) -> tuple[SetupLine, ...]:
    return tuple(
        SetupLine(
            f"setup-{setup.number}",
            Said(str(setup.number), f"/setups/{i}/number"),
            face_up(setup),
            face_back(setup),
            len(setup.steps),
            picture(f"after setup {setup.number}", seen.after_oblique, _SMALL_ROOM),
        )
        for i, (setup, seen) in enumerate(zip(plan.setups, views.setups, strict=True))
    )


def _tools(plan: Plan, *, owned: bool) -> tuple[Tool, ...]:
    return tuple(_tool(line, f"/tools/{i}") for i, line in enumerate(plan.tools) if line.owned == owned)


def _tool(line: ToolLine, path: str) -> Tool:
    return Tool(Said(line.label, f"{path}/label"), line.used_in, Said(line.why, f"{path}/why") if line.why else NOTHING)


def _revisions(plan: Plan) -> tuple[tuple[Said, Said, Said], ...]:
    rows = []
    for i, row in enumerate(plan.revisions):
        letter, date, change = (Said(row.get(key, ""), f"/revisions/{i}/{key}") for key in ("letter", "date", "change"))
        rows.append((letter, date, change))
    return tuple(rows)
