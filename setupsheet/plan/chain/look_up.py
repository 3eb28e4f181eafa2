"""The bench look-up of a hole: the chain of cutters for one callout, as plain JSON.

    hole_as_json("10-32 UNF")                  -> {"designation": "10-32 UNF", "steps": [...], ...}

Nothing heavy is imported here: the tables are CSV and the arithmetic is plain. The fits are loaded where the
callout is one.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from setupsheet.length import MM_PER_INCH, Unit
from setupsheet.part.size import Size
from setupsheet.pattern import Pattern
from setupsheet.plan.chain.chain import pick_chain
from setupsheet.plan.chain.record import Chain, ChainStep, HoleNeed, TapFacts
from setupsheet.plan.chain.way import limits_of
from setupsheet.tables import callout, clearance
from setupsheet.tables.callout import Callout
from setupsheet.tables.unknown import NotInTables

if TYPE_CHECKING:
    from setupsheet.part.shop import Shop

MOST_MM = 500.0
"""The tables of limits end here."""
_MAKING = {"thread": "tap", "fit": "fit", "clearance": "clearance", "drill": "plain", "plain": "plain"}


def hole_as_json(
    text: str,
    shop: Shop | None = None,
    unit: Unit = Unit.MM,
    material_group: str = "",
    depth_mm: float | None = None,
) -> dict[str, Any]:
    """Return the chain for a callout as the contract has it (lengths in mm); raises NotInTables.

    ``depth_mm`` makes the hole a blind one of that full depth; without it the hole is through.
    """
    asked, size, said = _asked(text)
    read = callout.parse(asked, unit)
    if read.kind == "fit":
        read = read._replace(status=_fit_status(read))
    elif read.diameter_mm > MOST_MM:
        raise NotInTables(f"holes are looked up to {MOST_MM:g} mm", text, f"{MOST_MM:g}")
    need = HoleNeed(
        making="fit" if size else _MAKING[read.kind],
        diameter=size or size_of(read),
        thread=read.thread,
        through=depth_mm is None,
        depth_mm=depth_mm,
        material_group=material_group,
        unit=unit,
    )
    found = chain_as_json(pick_chain(need, shop), read, need)
    return {**found, "words": [*said, *found["words"]]}


def _asked(text: str) -> tuple[str, Size | None, list[str]]:
    """Return the callout to read, the size where a dowel pin asks for one, and what to say of both."""
    if "dowel" not in text.lower():
        asked, meant = _meant(text)
        return asked, None, [meant] if meant else []
    from setupsheet.plan.chain import dowels

    pin = dowels.dowel_of(text)
    size = dowels.hole_size(pin)
    return (size.written if size.fit else f"{pin.nominal_mm:g} mm"), size, dowels.seat_words(pin)


_WORD = Pattern(r"(.*\d)\s+([a-z]{3,})")


def _meant(text: str) -> tuple[str, str]:
    """Return the callout that a word for a fit stands for ('12 press': '12 H7/p6'), and a sentence that says so."""
    match = _WORD.fullmatch(text.strip().lower())
    if match is None or match[2] in clearance.ROOM:
        return text, ""
    from setupsheet.tables import mating

    if match[2] not in mating.intent_words():
        return text, ""
    intent = mating.intent(match[2])
    fit = f"{intent.hole}/{intent.shaft}"
    return f"{match[1]} {fit}", f"{intent.word.capitalize()} stands for {fit}: {intent.meaning}."


def size_of(read: Callout) -> Size:
    """Return the size and limits of a callout; a bare size has none. Raises NotInTables for an unknown fit."""
    if read.kind == "fit":
        return _fitted(read)
    lower = read.diameter_mm if read.lower_mm is None else read.lower_mm
    upper = read.diameter_mm if read.upper_mm is None else read.upper_mm
    kind = read.kind if read.kind in ("thread", "clearance") else "basic"
    return Size(read.diameter_mm, lower, upper, read.written, kind, source=read.source)


def _fitted(read: Callout) -> Size:
    """Return the hole's limits of a fit of ISO 286 or ANSI B4.1."""
    from setupsheet.tables import fits, inch_fits

    if inch_fits.looks_like_inch_fit(read.written):
        fit = inch_fits.inch_fit(read.written)
        inch = float(MM_PER_INCH)
        lower, upper = (round((fit.nominal_in + off) * inch, 6) for off in (fit.hole_lower_in, fit.hole_upper_in))
        return Size(read.diameter_mm, lower, upper, read.written, "fit", read.fit, fit.source)
    symbol = read.fit.split("/")[0]
    if symbol[:1].islower():
        hole = f"{fits.number(read.diameter_mm)} H7"
        raise NotInTables(f"{read.fit} is a shaft; a hole has a capital letter", read.written, hole)
    limits = fits.limits(read.diameter_mm, symbol)
    return Size(read.diameter_mm, limits.lower_mm, limits.upper_mm, read.written, "fit", symbol, limits.source)


def _fit_status(read: Callout) -> str:
    """Return how well the limits of a fit were seen in print; raises NotInTables for one that does not exist."""
    from setupsheet.tables import fits, inch_fits

    if inch_fits.looks_like_inch_fit(read.written):
        return inch_fits.inch_fit(read.written).status
    size_of(read)
    return fits.limits(read.diameter_mm, read.fit.split("/")[0]).status


def chain_as_json(chain: Chain, read: Callout, need: HoleNeed) -> dict[str, Any]:
    """Return a chain in the contract's fields, with verdict, status, tap and words added."""
    limits = limits_of(need)
    required = {"lower_mm": _tidy(limits[0]), "upper_mm": _tidy(limits[1])} if limits else None
    return {
        "designation": read.thread.designation if read.thread else read.written,
        "kind": read.kind,
        "diameter_mm": _tidy(read.diameter_mm),
        "steps": [_step(step) for step in chain.steps],
        "result": {"lower_mm": _tidy(chain.result_lower_mm), "upper_mm": _tidy(chain.result_upper_mm)},
        "required": required,
        "thread_percent": None if chain.thread_percent is None else round(chain.thread_percent, 1),
        "verdict": chain.verdict,
        "how_much": chain.how_much,
        "what_would": chain.what_would,
        "source": read.source or need.diameter.source,
        "status": read.status,
        "tap": _tap(chain.tap) if chain.tap else None,
        "words": list(chain.words),
    }


def _step(step: ChainStep) -> dict[str, Any]:
    return {
        "operation": step.operation,
        "tool": step.cutter.label,
        "diameter_mm": _tidy(step.diameter_mm),
        "source": step.source,
        "status": step.status,
        "owned": step.cutter.owned,
        "words": list(step.words),
    }


def _tap(facts: TapFacts) -> dict[str, Any]:
    return {
        "kind": facts.kind,
        "turns": facts.turns,
        "least_full_thread_mm": _tidy(facts.least_full_thread_mm),
        "drilled_depth_mm": None if facts.drilled_depth_mm is None else _tidy(facts.drilled_depth_mm),
        "lead_source": facts.lead_source,
        "percent_basis": facts.percent_basis,
        "enough_thread": facts.enough_thread,
    }


def _tidy(value: float) -> float:
    return round(value, 6) + 0.0
