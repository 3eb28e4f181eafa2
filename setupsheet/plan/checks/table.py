"""The list of checks, and the one door that runs them all."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from types import ModuleType

from setupsheet.plan.checks import (
    allowance_too_small,
    as_bought_too_coarse,
    boring_bar_too_long,
    boring_head_hits_jaw,
    boss_slender,
    chamfered_after_reaming,
    chuck_hits_work,
    clamps_have_no_place,
    cutter_hangs_out,
    cutter_too_fast,
    datum_made_after_use,
    datum_removed,
    drill_comes_out_on_an_edge,
    drill_into_jaw,
    drill_into_parallel,
    drill_starts_on_an_edge,
    drill_too_short,
    edge_not_touchable,
    face_never_cut,
    faced_after_holes,
    feature_in_no_setup,
    finished_before_roughing,
    first_face_not_widest,
    flute_too_short,
    grip_too_low,
    hangs_out_too_far,
    height_too_small,
    holder_hits_work,
    hole_breaks_out_at_edge,
    hole_floor_thin,
    hole_under_jaw,
    holes_cross,
    holes_met_halfway,
    jaw_in_cutters_way,
    jaws_squeeze_a_wall,
    little_under_the_jaws,
    milled_floor_thin,
    milling_on_drill_press,
    mouth_cutter_hits_wall,
    no_gauge,
    no_place_to_touch_off,
    nothing_under_the_part,
    opening_without_cutter,
    other_face_at_fixed_jaw,
    parallel_in_cutters_way,
    parallels_do_not_fit,
    pick_up_hole_made_late,
    position_chain_too_long,
    position_finer_than_process,
    quill_too_short,
    raw_face_at_fixed_jaw,
    readout_in_other_unit,
    rests_on_another_face,
    setup_cuts_nothing,
    shank_rubs_wall,
    side_cut_in_two_setups,
    stands_too_proud,
    tap_breaks_into_opening,
    tap_hits_bottom,
    thin_part_bows,
    thread_too_short,
    travel_too_short,
    wall_beside_hole_thin,
    wall_thin,
    witness_proves_nothing,
    zero_from_raw_edge,
    zero_lost_with_head,
    zero_not_found_again,
)
from setupsheet.plan.checks.bite import Bite
from setupsheet.plan.checks.case import Case

Check = Callable[[Case], Iterator[Bite]]

MODULES: tuple[ModuleType, ...] = (
    allowance_too_small,
    as_bought_too_coarse,
    boring_bar_too_long,
    boring_head_hits_jaw,
    boss_slender,
    chamfered_after_reaming,
    chuck_hits_work,
    clamps_have_no_place,
    cutter_hangs_out,
    cutter_too_fast,
    datum_made_after_use,
    datum_removed,
    drill_comes_out_on_an_edge,
    drill_into_jaw,
    drill_into_parallel,
    drill_starts_on_an_edge,
    drill_too_short,
    edge_not_touchable,
    face_never_cut,
    faced_after_holes,
    feature_in_no_setup,
    finished_before_roughing,
    first_face_not_widest,
    flute_too_short,
    grip_too_low,
    hangs_out_too_far,
    height_too_small,
    holder_hits_work,
    hole_breaks_out_at_edge,
    hole_floor_thin,
    hole_under_jaw,
    holes_cross,
    holes_met_halfway,
    jaw_in_cutters_way,
    jaws_squeeze_a_wall,
    little_under_the_jaws,
    milled_floor_thin,
    milling_on_drill_press,
    mouth_cutter_hits_wall,
    no_gauge,
    no_place_to_touch_off,
    nothing_under_the_part,
    opening_without_cutter,
    other_face_at_fixed_jaw,
    parallel_in_cutters_way,
    parallels_do_not_fit,
    pick_up_hole_made_late,
    position_chain_too_long,
    position_finer_than_process,
    quill_too_short,
    raw_face_at_fixed_jaw,
    readout_in_other_unit,
    rests_on_another_face,
    setup_cuts_nothing,
    shank_rubs_wall,
    side_cut_in_two_setups,
    stands_too_proud,
    tap_breaks_into_opening,
    tap_hits_bottom,
    thin_part_bows,
    thread_too_short,
    travel_too_short,
    wall_beside_hole_thin,
    wall_thin,
    witness_proves_nothing,
    zero_from_raw_edge,
    zero_lost_with_head,
    zero_not_found_again,
)
"""One module a check, in alphabetical order; each has ``CODE``, ``check`` and its sections in the docstring."""

AT_AN_ANGLE = frozenset(
    {
        "cutter-hangs-out",
        "cutter-too-fast",
        "height-too-small",
        "jaw-in-cutters-way",
        "milling-on-drill-press",
        "no-gauge",
        "readout-in-other-unit",
        "setup-cuts-nothing",
        "travel-too-short",
        "zero-lost-with-head",
    }
)
"""Checks that hold for a part at an angle too; all others look along faces that are square to the machine."""

SECTIONS = ("What", "Why at the machine", "What to do", "Source")


def run(case: Case) -> list[Bite]:
    """Return what every check finds, in the order of the list."""
    checks: list[Check] = [module.check for module in MODULES]
    tilted = {setup.number for setup in case.plan.setups if setup.angle_setting is not None}
    found = [bite for check in checks for bite in check(case)]
    return [bite for bite in found if bite.setup not in tilted or bite.finding.code in AT_AN_ANGLE]


def sections(module: ModuleType) -> dict[str, str]:
    """Return a check's fault (its first line, '') and the sections of its docstring, each on one line."""
    first, _, rest = (module.__doc__ or "").partition("\n")
    found = {"": first.strip()}
    name = ""
    for line in rest.strip().splitlines():
        head = re.match(r"^([A-Z][a-z ]+): (.*)$", line)
        if head and head[1] in SECTIONS:
            name = head[1]
            found[name] = head[2].strip()
        elif name:
            found[name] += f" {line.strip()}"
    return found


def explained() -> dict[str, dict[str, str]]:
    """Return code -> what, why, try, as ``setupsheet explain`` tells them."""
    told = {}
    for module in MODULES:
        parts = sections(module)
        told[module.CODE] = {"what": parts[""], "why": parts["Why at the machine"], "try": parts["What to do"]}
    return {code: {key: text[:1].upper() + text[1:] for key, text in entry.items()} for code, entry in told.items()}
