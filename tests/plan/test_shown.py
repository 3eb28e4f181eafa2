"""Readings as a machine shows them: decimals of a readout, turns and divisions of a dial."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.part.shop import Axis
from setupsheet.plan.record import Readout
from setupsheet.plan.shown import Scale, offset_for
from tests.plan.planned import INCH_DIAL, READOUT, parse_shown

INCH = 25.4


def _dial(per_turn: float, division: float, unit: str = "inch") -> Axis:
    scale = INCH if unit == "inch" else 1.0
    return Axis("dial", division * scale, per_turn * scale, 1, unit)


def _readout(scale: Scale) -> Readout:
    axis = scale.axis
    dial = axis.kind == "dial"
    return Readout(
        axis.kind,
        0.0 if dial else axis.step_mm,
        axis.per_turn_mm,
        axis.step_mm if dial else 0.0,
        axis.unit,
        0.0,
        scale.offset_mm,
    )


@pytest.mark.parametrize(
    ("value", "text"), [(20.285, "+20.285"), (0.0, "0.000"), (-0.0001, "0.000"), (-53.0, "-53.000"), (5.5, "+5.500")]
)
def test_readout_shows_sign_and_step(value: float, text: str) -> None:
    """A readout of 0.005 shows three places and a sign, but none at zero."""
    assert Scale(READOUT).text(value) == text


def test_axis_that_counts_the_other_way() -> None:
    """Where the readout grows to the left, the same place reads with the other sign."""
    assert Scale(Axis("readout", 0.005, 0.0, -1, "mm")).text(34.0) == "-34.000"


DIALS = [
    (37.36, _dial(2.5, 0.02, "mm"), "14 + 2.36"),
    (1.350 * INCH, _dial(0.100, 0.001), "13 + .050"),
    (1.350 * INCH, _dial(0.200, 0.001), "6 + .150"),
    (1.350 * INCH, _dial(0.0625, 0.0005), "21 + .0375"),
]
"""Derived examples D01 to D04 of the project's reference sheet of worked examples; no published answer."""


@pytest.mark.parametrize(("value", "axis", "text"), DIALS)
def test_turns_and_rest(value: float, axis: Axis, text: str) -> None:
    """37.36 = 14 x 2.5 + 2.36; 1.350 in is 13 turns of 0.100 and 0.050, 6 of 0.200 and 0.150, 21 of 1/16 and 0.0375."""
    assert Scale(axis).text(value) == text


def test_metric_length_on_an_inch_dial() -> None:
    """D05: 25 mm is 9 turns and 84.25 divisions of an inch dial; the nearest whole division is 84."""
    scale = Scale(INCH_DIAL)
    assert scale.text(scale.settle(25.0)) == "9 + .084"
    assert abs(scale.settle(25.0) - 25.0) == pytest.approx(0.00025197 * INCH, abs=1e-6)


def test_one_turn_of_a_20_tpi_screw() -> None:
    """Travel per turn is 0.050 in = 1.27 mm (note on a calibrated dial, users.erols.com/knaell, E50)."""
    assert Scale(_dial(0.050, 0.001)).text(1.27) == "1 + .000"


def test_a_full_turn_is_no_hundred_divisions() -> None:
    """Trap: float noise below a whole turn must not print as the turn before and a full dial."""
    assert Scale(INCH_DIAL).text(0.1 * INCH * 3 - 1e-9) == "3 + .000"


@pytest.mark.parametrize(("stands", "stop"), [(17.0, 18.255), (20.0, 18.25)])
def test_stops_round_away_from_what_stands(stands: float, stop: float) -> None:
    """18.2512 between 18.250 and 18.255: the one farther from the metal, never the nearest."""
    assert Scale(READOUT).settle_away(18.2512, stands) == pytest.approx(stop)


def test_offset_makes_readings_positive() -> None:
    """From -1.66 in on: 17 whole turns of 0.100 in; a readout needs none."""
    assert offset_for(INCH_DIAL, -1.66 * INCH, 4.0 * INCH) == pytest.approx(1.7 * INCH)
    assert offset_for(READOUT, -50.0, 50.0) == 0.0


AXES = st.sampled_from([READOUT, INCH_DIAL, _dial(2.5, 0.02, "mm"), _dial(0.0625, 0.0005)])


@given(axis=AXES, counts=st.sampled_from([1, -1]), value=st.floats(-150, 150))
def test_texts_read_back(axis: Axis, counts: int, value: float) -> None:
    """Any settled place, printed and read back as a person does, is the same place within half a step of the wish."""
    own = Axis(axis.kind, axis.step_mm, axis.per_turn_mm, counts, axis.unit)
    scale = Scale(own, offset_for(own, -200.0, 200.0))
    settled = scale.settle(value)
    assert abs(settled - value) <= own.step_mm / 2 + 1e-6
    assert parse_shown(scale.text(settled), _readout(scale), counts) == pytest.approx(settled, abs=1e-6)
    assert own.kind == "readout" or not scale.text(settled).startswith("-")


@given(value=st.floats(-150, 150), side=st.sampled_from([-1, 1]))
def test_stops_never_come_nearer(value: float, side: int) -> None:
    """A stop is at most a step away and never on the metal's side of the true place."""
    stop = Scale(READOUT).settle_away(value, value + side)
    assert -1e-6 <= (value - stop) * side < READOUT.step_mm


@given(value=st.floats(-150, 150), side=st.sampled_from([-1, 1]), axis=AXES)
def test_stops_on_coarse_dials_leave_what_rounding_explains(value: float, side: int, axis: Axis) -> None:
    """A stop stands off by 0.7 of a division and 0.002 mm at most; it enters what stands by 0.3 of one at most."""
    off = (value - Scale(axis).settle_away(value, value + side)) * side
    assert -0.3 * axis.step_mm - 1e-6 <= off <= 0.7 * axis.step_mm + 0.002 + 1e-6


def test_a_stop_between_two_divisions() -> None:
    """By hand, divisions of 0.0254: 4.004 to 4.0132 is 0.36 of one, kept off; to 4.0386 would be too far for 4.0140."""
    dial = Scale(INCH_DIAL)
    assert dial.settle_away(4.0040, 3.0) == pytest.approx(158 * 0.0254)
    assert dial.settle_away(4.0140, 3.0) == pytest.approx(158 * 0.0254)
    assert dial.settle_away(4.0140, 5.0) == pytest.approx(158 * 0.0254)
