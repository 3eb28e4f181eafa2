"""Setups for a part that has none written: from the trade's rules, with the reasons that are printed."""

from __future__ import annotations

from setupsheet.finding import Finding, note
from setupsheet.part.face import Face
from setupsheet.part.part import Part, SetupAsked, ZeroAsked


def proposed(part: Part) -> tuple[tuple[SetupAsked, ...], list[Finding]]:
    """Return the setups to plan: those of the spec, or proposed ones and a note that says so."""
    if part.setups:
        return part.setups, []
    setups = tuple(_setup(part, up) for up in _faces_up(part))
    names = ", ".join(f"{s.name} ({s.up.value} up)" for s in setups)
    said = note(
        "setups-proposed",
        f"no setups are written: {len(setups)} are proposed: {names}",
        found="no setups:",
        try_="write setups: to choose for yourself how the part is held and where zero is",
    )
    return setups, [said]


def _faces_up(part: Part) -> list[Face]:
    """Return which faces come up in turn: the datum's first, then its opposite, then sides that have work."""
    first = next((d.face for d in part.datums if d.face and d.face.axis == 2), None) or Face.BOTTOM
    order = [first, first.opposite]
    ends = [face for face in (Face.FRONT, Face.BACK, Face.LEFT, Face.RIGHT) if _has_work(part, face)]
    return [face for face in order if _has_work(part, face)] + ends or [first]


def _has_work(part: Part, face: Face) -> bool:
    machined = face.axis == 2 and face not in part.stock.as_bought and part.stock.remove_mm.get(face, 0.0) > 0
    return machined or any(f.face is face for f in part.features)


def _setup(part: Part, up: Face) -> SetupAsked:
    back = Face.BACK if up.axis != 1 else (Face.TOP if up is Face.FRONT else Face.BOTTOM)
    place = part.features[0].place if part.features else None
    assert place is not None
    zero = {"z": ZeroAsked(up.value, "faced", None, place)}
    return SetupAsked(f"{up.value} up", up, back, True, "", None, zero, "", (), place)


def reasons(part: Part, setups: tuple[SetupAsked, ...]) -> tuple[str, ...]:
    """Return why the setups come in this order, one sentence a setup."""
    letters = {d.face: d.letter for d in part.datums if d.face}
    return tuple(
        f"setup {number}: {setup.up.value} up: {_reason(letters.get(setup.up), setup, number, setups)}"
        for number, setup in enumerate(setups, 1)
    )


def _reason(letter: str | None, setup: SetupAsked, number: int, setups: tuple[SetupAsked, ...]) -> str:
    later = [i for i, s in enumerate(setups, 1) if i > number and s.up is setup.up.opposite]
    earlier = [i for i, s in enumerate(setups, 1) if i < number and s.up is setup.up.opposite]
    faces_only = bool(setup.do) and all(token.startswith("face ") for token in setup.do)
    if letter and later:
        return f"it makes {letter}, on which the part stands in setup {later[0]}"
    found = next((z.found for z in setup.zero.values() if z.found.startswith("indicate")), "")
    if found:
        return f"zero comes from {found.split()[-1]}, made before, not from an edge"
    if faces_only and earlier:
        return f"the {setup.up.value} face, parallel to the one that setup {earlier[0]} made"
    if faces_only:
        return f"the {setup.up.value} face, square to the one at the fixed jaw"
    return "the work that only this side can reach"
