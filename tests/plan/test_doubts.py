"""What was not seen in print is said on the papers."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setupsheet.part.face import Face
from setupsheet.plan.chain.chain import pick_chain
from setupsheet.plan.doubts import doubts
from setupsheet.tables.doubt import doubtful
from tests.parts import block, hole, size
from tests.plan import hole_cases as case
from tests.plan.planned import plan_of


@pytest.mark.parametrize(
    ("status", "weak"),
    [
        ("verified", False),
        ("one print; agrees with the formula", False),
        ("one print; agrees with memory", False),
        ("not seen in print: formula and memory", True),
        ("UNVERIFIED (memory; not found in print)", True),
        ("composed from widths printed for other classes; own table not seen", True),
    ],
)
def test_words_of_a_status(status: str, weak: bool) -> None:
    """A value that two prints or one hold is none to doubt; one from memory is."""
    assert doubtful(status) == weak


@pytest.mark.parametrize(("thread", "said"), [("M6", 0), ("3/8-16 BSW", 1)])
def test_a_thread_whose_limit_is_from_memory(thread: str, said: int) -> None:
    """The Whitworth nut's upper limit was not seen in print (BS 84), that of M6 was."""
    bored = hole(Face.TOP, (10.0, 10.0), size(5.0), 20.0, 0.0, "h")
    lines = doubts(block(bored), [(bored, pick_chain(case.need(thread), None).steps)], ())
    assert len(lines) == said
    assert all(f"{thread} (h)" in line for line in lines)


def test_a_size_whose_source_has_a_doubt() -> None:
    """A feature's size with a doubtful source is named by feature and callout."""
    doubted = replace(size(5.0), written="5 Q9", source="ISO 286; Q: from memory; not seen in print")
    bored = hole(Face.TOP, (10.0, 10.0), doubted, 20.0, 0.0, "h")
    assert doubts(block(bored), (), ()) == ["from memory, not seen in print: limits of h 5 Q9"]


def test_speeds_from_memory_are_named_on_a_plan() -> None:
    """Boring feeds were not seen in print (the table's own status): the work is named, drilling is not."""
    (line,) = (words for words in plan_of("hole-bored-limits").watch if words.startswith("from memory"))
    assert "bore" in line
    assert "drill" not in line
