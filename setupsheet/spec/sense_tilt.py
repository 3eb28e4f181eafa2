"""Rules on setups at an angle: what is to lie level, and what holds a part that stands on a corner."""

from __future__ import annotations

from setupsheet.part.feature import EdgeChamfer, EdgeCut, Feature
from setupsheet.part.part import SetupAsked
from setupsheet.spec.case import Case
from setupsheet.spec.shape import nearest

ANGLE_PLATE = "angle plate"


def tilt_without_slant(case: Case) -> None:
    """Test that what is to lie level is a slanted edge or a bevel."""
    slanted = [feature.id for feature in case.part.features if _is_slanted(feature)]
    for setup, _text in case.setups():
        tilt = setup.tilt
        if tilt is None or not tilt.feature or tilt.feature in slanted:
            continue
        if tilt.feature in case.ids() and tilt.feature not in case.built.whole:
            continue
        near = nearest(tilt.feature, slanted)
        case.wrong(
            setup.name,
            "tilt-without-slant",
            f"{tilt.feature} is no slanted edge and no bevel that could lie level",
            tilt.place,
            found=tilt.words,
            allowed=", ".join((*slanted, "raise left 20", "raise right 20")),
            try_=f"tilt: {near or slanted[0]}" if slanted else "leave tilt: out",
        )


def _is_slanted(feature: Feature) -> bool:
    return isinstance(feature, EdgeChamfer) or (isinstance(feature, EdgeCut) and feature.side is None)


def held_at_angle(case: Case) -> None:
    """Test that a part at an angle is held in a vise or at an angle plate, and no other part at an angle plate."""
    for setup, _text in case.setups():
        fault = _hold_fault(setup)
        if fault and setup.hold:
            case.wrong(
                setup.name,
                "hold-does-not-suit",
                fault,
                setup.hold.place,
                found=f"in: {setup.hold.in_}",
                allowed="in: vise or in: angle plate" if setup.tilt else "in: vise or in: table",
            )


def _hold_fault(setup: SetupAsked) -> str:
    held = setup.hold.in_ if setup.hold else "vise"
    if setup.tilt is None:
        return "an angle plate is for a part that is set to an angle" if held == ANGLE_PLATE else ""
    if held == "table":
        return "a part set to an angle stands on a corner: it cannot be clamped down on the table"
    return ""
