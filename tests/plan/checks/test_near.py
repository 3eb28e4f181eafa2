"""Metal along a line through sorted shapes: the same as without sorting, at any moment of the work."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from setupsheet.part.face import Box
from setupsheet.plan.checks.near import Near
from setupsheet.solid import column
from setupsheet.solid.volume import CircleLoop, Cone, EdgeLoop, LineEdge, Primitive, Prism

BOX = Box((0.0, 0.0, 0.0), (60.0, 40.0, 12.0))
_PLACES = st.tuples(st.integers(-5, 65), st.integers(-5, 45))


def _square(u: float, v: float, side: float) -> EdgeLoop:
    corners = [(u, v), (u + side, v), (u + side, v + side), (u, v + side)]
    return EdgeLoop(tuple(LineEdge(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)))


@st.composite
def _shapes(draw: st.DrawFn) -> Primitive:
    u, v = draw(_PLACES)
    size, low = draw(st.integers(1, 60)), draw(st.integers(-1, 10))
    if draw(st.booleans()):
        return Cone(draw(st.sampled_from((0, 1, 2))), (u, v), low, low + 5.0, size / 4, size / 8)
    outer = _square(u, v, size) if draw(st.booleans()) else CircleLoop((u, v), size / 2)
    return Prism(draw(st.sampled_from((0, 1, 2))), outer, (), low, low + 8.0)


@given(st.lists(_shapes(), max_size=12), st.sampled_from((0, 1, 2)), _PLACES, st.integers(0, 12))
def test_sorting_changes_nothing(shapes: list[Primitive], axis: int, at: tuple[int, int], gone: int) -> None:
    """At every place and moment the intervals are those of the plain arithmetic over all shapes."""
    near = Near(BOX, tuple(shapes))
    assert near.metal(axis, at, gone) == column.metal(BOX, shapes[:gone], axis, at)
    assert near.metal(axis, at) == column.metal(BOX, shapes, axis, at)
