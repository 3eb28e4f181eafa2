"""View frames against the projection rule and against the kernel's views."""

from __future__ import annotations

import pytest

from setupsheet.drawing.frames import FRAME, place_beside_front, project
from setupsheet.part.face import Face
from setupsheet.solid.frame import apply
from setupsheet.solid.view import face_view


@pytest.mark.parametrize("face", list(Face))
def test_a_frame_looks_at_its_face(face: Face) -> None:
    """Out of the paper points the outward normal of the face."""
    normal = [0.0, 0.0, 0.0]
    normal[face.axis] = float(face.sign)
    assert FRAME[face].towards_reader == pytest.approx(tuple(normal))


@pytest.mark.parametrize("face", list(Face))
def test_frames_agree_with_the_kernels_views(face: Face) -> None:
    """A point lies at the same paper place in both."""
    point = (3.0, 7.0, 11.0)
    assert project(point, FRAME[face]) == pytest.approx(apply(face_view(face), point)[:2])


@pytest.mark.parametrize(
    ("face", "first"),
    # ISO 5456-2, method 1 (first angle), as the digest's table of arrangement gives it
    [(Face.TOP, (0, -1)), (Face.BOTTOM, (0, 1)), (Face.LEFT, (1, 0)), (Face.RIGHT, (-1, 0))],
)
def test_views_stand_where_the_method_puts_them(face: Face, first: tuple[int, int]) -> None:
    """First angle: on the far side; third angle: on the near side, so exactly opposite."""
    assert place_beside_front(face, True) == first
    assert place_beside_front(face, False) == (-first[0], -first[1])
