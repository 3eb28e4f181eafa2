"""Steps in a row: numbers, what each depends on, the last step."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setupsheet.part.part import HoldAsked
from setupsheet.part.shop import Cutter
from setupsheet.plan.draft import Draft, step, tool_plan
from setupsheet.plan.setup.sequence import in_sequence, last_step
from tests.parts import HERE, block
from tests.plan.planned import asked, bench, plan_of

MILL, DRILL = (Cutter(kind, label, 6.0, flute_length_mm=20.0) for kind, label in (("end mill", "m"), ("drill", "d")))


def _draft(operation: str, feature: str, cutter: Cutter) -> Draft:
    return Draft(step(operation, feature, (feature,), removes=True, tool=tool_plan(cutter)), (), cutter)


def test_numbers_and_dependencies() -> None:
    """Numbered from 1; each step stands on the facing and on earlier work at the same feature."""
    drafts = [
        _draft("face", "", MILL),
        _draft("drill", "a", DRILL),
        _draft("drill", "b", DRILL),
        _draft("ream", "a", MILL),
    ]
    steps = in_sequence(bench(block()), (), drafts)
    assert [made.number for made in steps] == [1, 2, 3, 4]
    assert [made.depends_on for made in steps] == [(), (1,), (1,), (1, 2)]


def test_touch_off_only_when_the_cutter_changes() -> None:
    """Two steps with one drill: one touch-off; back to the mill: another."""
    drafts = [
        _draft("face", "", MILL),
        _draft("drill", "a", DRILL),
        _draft("drill", "b", DRILL),
        _draft("mill", "c", MILL),
    ]
    steps = in_sequence(bench(block()), (), drafts)
    assert [made.touch_off is not None for made in steps] == [True, True, False, True]


def test_last_step_breaks_edges() -> None:
    """The last step says how much comes off the edges, or that they stay sharp."""
    assert "leave edges sharp" in last_step(bench(block()), []).step.words[0]
    made = last_step(bench(replace(block(), deburr_mm=0.3)), []).step
    assert made.words[0].startswith("break all edges 0.3")
    assert (made.method, made.removes) == ("by_hand", False)


@pytest.mark.parametrize(
    ("held", "brushed"),
    [("vise", "jaws and parallels"), ("table", "the table"), ("angle plate", "plate and table")],
)
def test_last_step_brushes_what_the_next_part_lies_against(held: str, brushed: str) -> None:
    """Jaws, table or angle plate: where no vise is, none is named."""
    on = replace(bench(block()), asked=replace(asked(), hold=HoldAsked(held, None, None, {}, HERE)))
    words = last_step(on, []).step.words[0]
    assert f"brush {brushed} clean" in words
    assert ("jaws" in words) is (held == "vise")


def test_a_face_cut_square_is_tried_with_a_square() -> None:
    """Squaring the hinge block: from the second setup on the finished bottom lies at the fixed jaw."""
    lines = [
        [words for words in setup.steps[-1].words if "square" in words] for setup in plan_of("hinge-block").setups[:4]
    ]
    assert lines == [[], *[["try the new face against the bottom (A) with a square: no light"]] * 3]
