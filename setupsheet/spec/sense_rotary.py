"""Rules on setups on a rotary table: what stands over its middle, and where zero is then."""

from __future__ import annotations

from setupsheet.part.feature import CornerRadius, Hole, Pocket, RingGroove, RoundBoss, RoundedEnd
from setupsheet.part.part import SetupAsked
from setupsheet.part.shape import CircleShape
from setupsheet.spec.case import Case, place_in
from setupsheet.spec.shape import nearest
from setupsheet.spec.tree import Node

ROTARY_TABLE = "rotary table"
"""The word of ``hold: {in: ...}``."""

ELSEWHERE = ("vise", "table")
"""The other words of ``in:``, where nothing is centred."""


def _on_it(setup: SetupAsked) -> bool:
    return setup.hold is not None and setup.hold.in_ == ROTARY_TABLE


def no_jaw_there(case: Case) -> None:
    """Test that a part on a rotary table lies by ``back:``, since no jaw is there."""
    for setup, text in case.setups():
        if _on_it(setup) and setup.in_vise:
            case.wrong(
                setup.name,
                "jaw-on-rotary-table",
                "a rotary table has no fixed jaw",
                place_in(setup, text, "fixed-jaw"),
                found=f"fixed-jaw: {setup.back}",
                allowed=f"back: {setup.back}",
                try_="write back: for the part face that is away from you",
            )


def centred(case: Case) -> None:
    """Test that what stands over a rotary table's middle is named, is there, and is a single place."""
    for setup, text in case.setups():
        hold = setup.hold
        if hold is None:
            continue
        if hold.in_ != ROTARY_TABLE:
            if hold.centred and hold.in_ in ELSEWHERE:
                _not_centred_there(case, setup, text)
            continue
        known = _single(case, setup)
        if hold.centred in known or _was_not_read(case, hold.centred):
            continue
        near = nearest(hold.centred, known) if hold.centred else None
        case.wrong(
            setup.name,
            "centred-not-clear",
            f"{hold.centred} is no point, single hole or round feature seen from above"
            if hold.centred
            else "what stands over the middle of the rotary table?",
            place_in(setup, text, "hold", "centred") if hold.centred else place_in(setup, text, "hold"),
            found=hold.centred or "no centred:",
            allowed=", ".join(known) or "a point under points:, or a hole",
            try_=f"centred: {near or known[0]}" if near or known else "add the place under points:",
        )


def _not_centred_there(case: Case, setup: SetupAsked, text: Node | None) -> None:
    assert setup.hold is not None
    case.wrong(
        setup.name,
        "centred-without-rotary-table",
        f"nothing is centred in the {setup.hold.in_}",
        place_in(setup, text, "hold", "centred"),
        found=f"in: {setup.hold.in_}, centred: {setup.hold.centred}",
        allowed=f"in: {ROTARY_TABLE}",
        try_=f"write in: {ROTARY_TABLE}, or leave centred: out",
    )


def _single(case: Case, setup: SetupAsked) -> tuple[str, ...]:
    """Return the names that stand for one place seen from above in a setup."""
    found = [*case.part.points] if setup.up.axis == 2 else []
    for feature in case.part.features:
        if feature.face.axis != setup.up.axis:
            continue
        single = isinstance(feature, Hole) and len(feature.spots) == 1
        round_ = isinstance(feature, RoundBoss | RoundedEnd | CornerRadius | RingGroove)
        if single or round_ or (isinstance(feature, Pocket) and isinstance(feature.shape, CircleShape)):
            found.append(feature.id)
    return tuple(found)


def _was_not_read(case: Case, name: str) -> bool:
    """Tell whether a name belongs to a feature with a fault of its own, which is told already."""
    return name in case.ids() and name not in case.built.whole


def zero_off_axis(case: Case) -> None:
    """Test that X and Y are zero nowhere else than on the rotary table's axis."""
    for setup, text in case.setups():
        if not _on_it(setup) or setup.hold is None or setup.hold.centred not in _single(case, setup):
            continue
        for axis in ("x", "y"):
            zero = setup.zero.get(axis)
            if zero is not None and zero.at != setup.hold.centred:
                case.wrong(
                    setup.name,
                    "zero-off-table-axis",
                    f"{axis}: {zero.at} is not what stands over the table's middle",
                    place_in(setup, text, "zero", axis),
                    found=zero.at,
                    allowed=setup.hold.centred,
                    try_=f"leave {axis}: out: it is zero at {setup.hold.centred}",
                )
