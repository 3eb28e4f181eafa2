"""Rules across keys: what each value alone cannot show. One function a rule, all listed in ``RULES``.

The rules look at the features that could be read whole; they need no geometry kernel.
"""

from __future__ import annotations

from collections.abc import Callable

from setupsheet.spec import (
    sense_amount,
    sense_area,
    sense_edge,
    sense_geometry,
    sense_hole,
    sense_rotary,
    sense_setup,
    sense_stock,
    sense_tilt,
    sense_use,
)
from setupsheet.spec.build import Built
from setupsheet.spec.case import Case
from setupsheet.spec.desk import Desk
from setupsheet.spec.tree import Mapping

RULES: tuple[Callable[[Case], None], ...] = (
    sense_stock.face_without_allowance,
    sense_stock.unlikely_size,
    sense_amount.nothing_to_make,
    sense_amount.boss_without_effect,
    sense_amount.mark_outside_part,
    sense_amount.hole_twice,
    sense_amount.seat_over_hole,
    sense_hole.hole_outside_part,
    sense_hole.hole_too_deep,
    sense_hole.holes_overlap,
    sense_hole.mouth_smaller_than_hole,
    sense_hole.unknown_position_datum,
    sense_hole.datum_circle,
    sense_geometry.geometry_datums,
    sense_hole.mirror_image,
    sense_area.height_out_of_part,
    sense_hole.hole_in_air,
    sense_area.area_outside_part,
    sense_area.pocket_ends_on_edge,
    sense_area.level_without_effect,
    sense_area.pocket_corner,
    sense_area.pocket_width,
    sense_area.boss_cut,
    sense_area.boss_outside_part,
    sense_edge.edge_not_at_size,
    sense_edge.slant_cuts_nothing,
    sense_edge.corner_radius_off,
    sense_edge.rounded_end_off,
    sense_edge.bevel_too_large,
    sense_setup.faces_of_one_axis,
    sense_setup.name_twice,
    sense_setup.turn_contradicts,
    sense_setup.unknown_work,
    sense_setup.unknown_zero,
    sense_setup.found_not_clear,
    sense_setup.expect_differs,
    sense_setup.witness,
    sense_setup.overhang_side,
    sense_tilt.tilt_without_slant,
    sense_tilt.held_at_angle,
    sense_rotary.no_jaw_there,
    sense_rotary.centred,
    sense_rotary.zero_off_axis,
    sense_use.reserved_name,
    sense_use.parameter_unused,
    sense_use.point_unused,
)


def check_sense(desk: Desk, built: Built, tree: Mapping) -> None:
    """Run every rule over what was read whole."""
    if built.sound_sizes:
        case = Case(desk, built, tree)
        for rule in RULES:
            rule(case)
