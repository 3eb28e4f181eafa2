"""The list to lay out: every cutter once, with the setups that use it, and what finds zero."""

from __future__ import annotations

import pytest

from tests.plan.planned import DEMOS, SPECS, plan_of


@pytest.mark.parametrize("name", [*DEMOS, *SPECS])
def test_every_cutter_is_listed_once(name: str) -> None:
    """The list holds each cutter of each step, owned or not as the step says, with its setups."""
    plan = plan_of(name)
    used: dict[str, set[int]] = {}
    for setup in plan.setups:
        for step in setup.steps:
            if step.tool:
                used.setdefault(step.tool.label, set()).add(setup.number)
                assert next(line for line in plan.tools if line.label == step.tool.label).owned == step.tool.owned
    listed = {line.label: set(line.used_in) for line in plan.tools}
    assert {label: listed[label] for label in used} == used
    assert len(listed) == len(plan.tools)


def test_bracket_s_list() -> None:
    """All cutters of the bracket are owned; finder in setup 1, indicator in setup 2, feeler in both."""
    lines = {line.label: line for line in plan_of("worm-bracket").tools}
    assert all(line.owned for line in lines.values())
    assert lines["edge finder, tip 10"].used_in == (1,)
    assert lines["indicator with a spindle holder"].used_in == (2,)
    assert lines["feeler 0.1"].used_in == (1, 2)


def test_what_to_buy_is_told() -> None:
    """A shop without a spot drill has one on its list, and a feeler that its quill stop of 0.5 can show."""
    missing = [line.label for line in plan_of("drill-press-only").tools if not line.owned]
    assert missing == ["spot drill 5 mm x 90", "feeler 0.5"]
