"""What a setup at an angle is to do: the slanted faces that lie level there, nothing else."""

from __future__ import annotations

from setupsheet.finding import Finding, error
from setupsheet.part.part import Part, SetupAsked
from setupsheet.plan.tilt.level import leaning_deg, level_slopes, raised_words, turn_deg
from setupsheet.solid.laid import lay
from setupsheet.solid.slopes import slopes


def level_ids(part: Part, asked: SetupAsked) -> tuple[str, ...]:
    """Return the features that a setup at an angle makes; none for a setup that lies square."""
    turn, faults = turn_deg(part, asked)
    if asked.tilt is None or faults:
        return ()
    ids = tuple(dict.fromkeys(slope.feature.id for slope in level_slopes(part, asked, turn)))
    return tuple(id_ for id_ in ids if not asked.do or id_ in asked.do)


def level_faults(part: Part, asked: SetupAsked) -> list[Finding]:
    """Return what is wrong with the work asked for in a setup at an angle."""
    turn, faults = turn_deg(part, asked)
    if faults or asked.tilt is None:
        return faults
    level = {slope.feature.id for slope in level_slopes(part, asked, turn)}
    said = [_not_level(part, asked, word, turn) for word in asked.do if word not in level]
    return said if level or said else [_nothing_level(part, asked, turn)]


def _not_level(part: Part, asked: SetupAsked, word: str, turn: float) -> Finding:
    return error(
        "not-level-here",
        f"{word} does not lie level in setup {asked.name!r}, {raised_words(turn)}: it cannot be milled there as a face",
        asked.place,
        found=word,
        allowed=", ".join(level_ids(part, asked)) or "a slanted edge or bevel that lies level",
        try_="move it to a setup in which its face is up",
    )


def _nothing_level(part: Part, asked: SetupAsked, turn: float) -> Finding:
    upright = lay(asked.up, asked.back, (0.0, 0.0, 0.0))
    leans = {s.feature.id: leaning_deg(s, upright) for f in part.features for s in slopes(f, part.box)}
    ways = [f"{id_}: {raised_words(-lean)}" for id_, lean in leans.items() if lean is not None and abs(lean) < 90]
    assert asked.tilt is not None
    return error(
        "nothing-level-here",
        f"nothing lies level in setup {asked.name!r} with {raised_words(turn)}",
        asked.tilt.place,
        found=asked.tilt.words,
        allowed="; ".join(ways) or "the lean of a slanted edge that runs square to the fixed jaw",
        try_="name the edge that is to lie level: its angle is worked out",
    )
