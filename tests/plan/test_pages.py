"""Cautions on the page where they bite: at a step, on a setup, among what to watch; accepted ones with their reason."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.finding import Severity
from tests.plan.checks.trial import Setup, Spec, planned

THIN = Spec(
    "h: {kind: hole, at: [20, 37], drill: 5, through: true}\nk: {kind: hole, at: [40, 38], drill: 4, through: true}",
    (Setup("all holes", grip=4),),
)


def test_at_its_step() -> None:
    """What concerns one step stands at that step, with what to do, and names neither setup nor step again."""
    plan = planned(THIN).plan
    told = {step.title: step.cautions for step in plan.setups[0].steps if step.cautions}
    assert len(told) == 2
    assert all("setup" not in line for lines in told.values() for line in lines)
    assert any("H1 when it is drilled; feed gently" in line for lines in told.values() for line in lines)


def test_on_its_setup() -> None:
    """What concerns the clamping stands before the setup's cautions from the table."""
    plan = planned(replace(THIN, size=(60, 40, 20))).plan
    assert plan.setups[0].cautions[0].startswith("16 mm stand over the jaws, which hold 4 mm; ")


def test_what_concerns_no_setup_is_to_be_watched() -> None:
    """A caution on the stock stands on the front page."""
    plan = planned(replace(THIN, remove=(("left", "as-bought ±0.5"),))).plan
    assert [line for line in plan.watch if "used as bought, ±0.5 mm" in line]


def test_an_accepted_caution_is_printed_with_its_reason() -> None:
    """The page says what was accepted and why, in the place of what to do."""
    spec = replace(THIN, more="accept: {hole-breaks-out-at-edge: {h: nothing loads that edge}}")
    lines = [line for step in planned(spec).plan.setups[0].steps for line in step.cautions]
    assert [line for line in lines if line.endswith("H1 when it is drilled (accepted: nothing loads that edge)")]
    assert [line for line in lines if "K1 when it is drilled" in line and "accepted" not in line]


def test_errors_stay_off_the_pages() -> None:
    """An error stops the papers, so it is no caution on them."""
    plan = planned(Spec("s: {kind: slot, centres: [[30, -10], [30, 15]], width: 6, through: true}", (Setup("s"),)))
    assert "jaw-in-cutters-way" in [f.code for f in plan.findings if f.severity is Severity.ERROR]
    assert not [line for step in plan.plan.setups[0].steps for line in step.cautions if "into the moving jaw" in line]
