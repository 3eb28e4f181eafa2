"""Which work is done in which setup, and in which order: the words of ``do:`` or the rules of the trade.

A job is one piece of work that a person would name: face the top, mill the outline, make this feature,
all holes. Where the spec says nothing, a setup takes every job that it can reach and that is not done yet.
"""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.finding import Finding, error
from setupsheet.part.face import Face
from setupsheet.part.feature import (
    CornerRadius,
    EdgeChamfer,
    EdgeCut,
    Feature,
    Hole,
    Level,
    Pocket,
    RingGroove,
    RoundBoss,
    RoundedEnd,
    Slot,
)
from setupsheet.part.part import Part, SetupAsked
from setupsheet.plan.holes.early import before_levels
from setupsheet.plan.places import face_of
from setupsheet.plan.tilt.jobs import level_faults, level_ids


@dataclass(frozen=True, slots=True)
class Job:
    """One piece of work in a setup.

    ``kind`` is ``face`` (with ``face``), ``outline`` (``sides``), ``holes`` (``ids``) or ``feature`` (one id).
    """

    kind: str
    face: Face | None = None
    sides: tuple[Face, ...] = ()
    ids: tuple[str, ...] = ()


_OPEN_WORK: tuple[type, ...] = (Level, Pocket, Slot, RingGroove, RoundBoss)
_EDGE_WORK: tuple[type, ...] = (EdgeCut, CornerRadius, RoundedEnd)


def allot(part: Part, setups: tuple[SetupAsked, ...]) -> tuple[list[list[Job]], list[Finding]]:
    """Return the jobs of every setup in order, and findings on words that name no work."""
    findings: list[Finding] = []
    named = {token for asked in setups for token in (*asked.do, *level_ids(part, asked))}
    left = [f for f in part.features if not _named(f, named)]
    faced: set[Face] = set()
    jobs = []
    for index, asked in enumerate(setups):
        if asked.tilt:
            mine = [Job("feature", ids=(id_,)) for id_ in level_ids(part, asked)]
            findings += level_faults(part, asked)
        elif asked.do:
            mine, faults = _asked_jobs(part, asked)
            findings += [*faults, *_bosses_too_early(part, asked, mine)]
        else:
            mine = _ruled_jobs(part, asked, left, faced, last=index == len(setups) - 1)
        faced |= {f for job in mine for f in (job.face, *job.sides) if f}
        taken = {id_ for job in mine for id_ in job.ids}
        left = [f for f in left if f.id not in taken or isinstance(f, (Hole, *_EDGE_WORK))]
        jobs.append(mine)
    return jobs, findings


def _named(feature: Feature, words: set[str]) -> bool:
    return feature.id in words or (isinstance(feature, Hole) and "all holes" in words)


def _asked_jobs(part: Part, asked: SetupAsked) -> tuple[list[Job], list[Finding]]:
    """Turn the words of ``do:`` into jobs."""
    jobs: list[Job] = []
    findings = []
    for token in asked.do:
        words, excepted = _split(token)
        if words.startswith("face "):
            job = Job("face", face=face_of(part, words[5:]))
        elif words == "outline":
            job = Job("outline", sides=sides_of(part, asked, excepted))
        elif words == "all holes":
            ids = tuple(f.id for f in part.features if isinstance(f, Hole) and f.face.axis == asked.up.axis)
            job = Job("holes", ids=tuple(id_ for id_ in ids if id_ not in excepted))
        elif words in {f.id for f in part.features}:
            job = Job("holes" if isinstance(part.feature(words), Hole) else "feature", ids=(words,))
        else:
            findings.append(_unknown(part, asked, token))
            continue
        if job.kind == "face" and job.face is not asked.up:
            findings.append(_wrong_face(asked, token))
            continue
        jobs.append(job)
    return _join_holes(jobs), findings


def _bosses_too_early(part: Part, asked: SetupAsked, jobs: list[Job]) -> list[Finding]:
    """Return an error for each boss that is to be made round before the level about it is cleared."""
    found = []
    row = [part.feature(job.ids[0]) for job in jobs if job.kind == "feature"]
    for place, boss in enumerate(row):
        late = [f for f in row[place + 1 :] if isinstance(f, Level) and f.face is boss.face and _leaves(f, boss)]
        if isinstance(boss, RoundBoss) and late:
            found.append(_boss_too_early(asked, boss, late[0]))
    return found


def _leaves(level: Level, boss: Feature) -> bool:
    """Tell whether a level clears all round a boss: it names it, or covers the whole face."""
    return level.area is None or any(keep.feature == boss.id for keep in level.leave)


def _boss_too_early(asked: SetupAsked, boss: RoundBoss, level: Level) -> Finding:
    return error(
        "boss-before-its-level",
        f"{boss.id} is made round in setup {asked.name!r} while the metal that {level.id} clears stands about it",
        asked.place,
        feature=boss.id,
        found=f"{boss.id} before {level.id}",
        allowed=f"{level.id} before {boss.id}",
        because="the cutter has no clear ground to start from",
        try_=f"in do:, write {level.id} before {boss.id}",
    )


def _split(token: str) -> tuple[str, frozenset[str]]:
    words, _, rest = token.partition(" except ")
    return words.strip(), frozenset(name.strip() for name in rest.replace(" and ", ",").split(",") if name.strip())


def _join_holes(jobs: list[Job]) -> list[Job]:
    """Join neighbouring hole jobs into one, so that one cutter serves all of them."""
    joined: list[Job] = []
    for job in jobs:
        if job.kind == "holes" and joined and joined[-1].kind == "holes":
            joined[-1] = Job("holes", ids=tuple(dict.fromkeys((*joined[-1].ids, *job.ids))))
        else:
            joined.append(job)
    return joined


def _ruled_jobs(part: Part, asked: SetupAsked, left: list[Feature], faced: set[Face], *, last: bool) -> list[Job]:
    """Return what a setup without ``do:`` takes, in the trade's order: face, outline, areas, edges, holes."""
    jobs = []
    if asked.up not in part.stock.as_bought and asked.up not in faced:
        jobs.append(Job("face", face=asked.up))
    sides = sides_of(part, asked, frozenset())
    if sides and asked.up.axis == 2:  # again in a second setup: the jaws may have hidden a part of them
        jobs.append(Job("outline", sides=sides))
    here = [f for f in left if f.face is asked.up]
    areas = [f for f in here if isinstance(f, _OPEN_WORK)]
    drilled = [f for f in left if isinstance(f, Hole) and _drillable(f, asked.up)]
    levels = [f for f in areas if isinstance(f, Level)]
    early = before_levels(levels, drilled, part.box.at(asked.up))
    holes = tuple(f.id for f in drilled if f.id not in early)
    jobs += [Job("holes", ids=early)] if early else []
    jobs += [Job("feature", ids=(f.id,)) for f in sorted(areas, key=lambda f: _rank(f, asked.up))]
    jobs += [Job("holes", ids=holes)] if holes else []
    edges = [f for f in left if isinstance(f, _EDGE_WORK) and f.face.axis == asked.up.axis]
    free = [f for f in edges if not (isinstance(f, EdgeCut) and f.measured_from)]
    late = [f for f in edges if f not in free] if last or not drilled else []
    jobs += [Job("feature", ids=(f.id,)) for f in (*free, *late)]
    jobs += [Job("feature", ids=(f.id,)) for f in here if isinstance(f, EdgeChamfer)]
    return jobs


def _rank(feature: Feature, up: Face) -> tuple[int, float]:
    """Order areas: highest level first, a boss after the levels round it, pockets and slots after those."""
    if isinstance(feature, Level):
        return 0, -feature.height.nominal_mm * up.sign
    return (1, 0.0) if isinstance(feature, RoundBoss) else (2, 0.0)


def _drillable(hole: Hole, up: Face) -> bool:
    return hole.face.axis == up.axis and (hole.through or hole.face is up)


def sides_of(part: Part, asked: SetupAsked, excepted: frozenset[str]) -> tuple[Face, ...]:
    """Return the side faces that 'outline' means: machined, not left out, not made by an edge cut of their own."""
    own = {f.side for f in part.features if isinstance(f, EdgeCut) and f.side}
    return tuple(
        face
        for face in (Face.FRONT, Face.BACK, Face.LEFT, Face.RIGHT, Face.BOTTOM, Face.TOP)
        if face.axis != asked.up.axis
        and face not in own
        and face not in part.stock.as_bought
        and part.stock.remove_mm.get(face, 0.0) > 0
        and face.value not in excepted
    )


def _unknown(part: Part, asked: SetupAsked, token: str) -> Finding:
    words = ["face <name>", "outline", "all holes", *(f.id for f in part.features)]
    return error(
        "unknown-work",
        f"{token!r} names no work in setup {asked.name!r}",
        asked.place,
        found=token,
        allowed=", ".join(words),
        try_="name a feature, or write face, outline or all holes",
    )


def _wrong_face(asked: SetupAsked, token: str) -> Finding:
    return error(
        "face-not-up",
        f"{token!r} cannot be done in setup {asked.name!r}: the {asked.up.value} face is up there",
        asked.place,
        found=token,
        allowed=f"face {asked.up.value}",
        try_="move it to the setup in which that face is up",
    )
