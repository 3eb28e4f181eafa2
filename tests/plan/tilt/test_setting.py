"""How an angle is set: stacks against published examples, which face stands on the bar, which roll goes up."""

from __future__ import annotations

import pytest

from setupsheet.part.face import Face
from setupsheet.part.shop import AngleTools
from setupsheet.plan.tilt.setting import How, how_set, prove_rise, set_words
from setupsheet.solid.laid import lay
from setupsheet.solid.tilted import Tilted
from tests.plan.planned import read


def _how(turn: float, series: str, tools: AngleTools) -> How:
    _, shop = read("tilted-sine-bar")
    upright = lay(Face.TOP, Face.BACK, (0.0, 0.0, 0.0))
    changed = type(shop)(**{**{name: getattr(shop, name) for name in shop.__dataclass_fields__}, "angle": tools})
    return how_set(Tilted(upright, turn), changed, series)


FIVE_INCH = AngleTools(127.0, 25.4, blocks=True)

PUBLISHED = [
    # practice E12: a metrology supplier's learning page on sine bars, 5 in bar
    (27.0, 2.27, 0.0005),
    # practice E13: Handbook of Machining and Metalworking Calculations, ch. 4; 34 deg 25 min
    (34 + 25 / 60, 2.826, 0.0005),
    # practice E15: Machinery's Handbook, 31st ed., p. 695
    (12.0, 1.03956, 0.0001),
]


@pytest.mark.parametrize(("angle", "height", "last_digit"), PUBLISHED)
def test_published_stacks(angle: float, height: float, last_digit: float) -> None:
    """The stack of a setup is the printed height, and its blocks make it up."""
    how = _how(-angle, "inch", FIVE_INCH)
    assert how.stack_mm / 25.4 == pytest.approx(height, abs=last_digit)
    assert sum(how.blocks_mm) == pytest.approx(how.stack_mm, abs=1e-9)
    assert how.owned


@pytest.mark.parametrize(("tilt", "error"), [(30.0, 0.00132), (60.0, 0.00132)])
def test_angle_step(tilt: float, error: float) -> None:
    """Practice E16: .0001 in under a 5 in bar is 0.00132 degrees at 30; 60 is set as 30, so that it is no worse."""
    how = _how(tilt, "inch", FIVE_INCH)
    assert how.step_deg == pytest.approx(error, abs=0.000006)
    assert how.complement == (tilt > 45)


@pytest.mark.parametrize(
    ("turn", "rests_on", "roll", "set_deg"),
    [
        (-20.0, Face.BOTTOM, "right", 20.0),
        (20.0, Face.BOTTOM, "left", 20.0),
        (-60.0, Face.LEFT, "left", 30.0),
        (60.0, Face.RIGHT, "right", 30.0),
        (-45.0, Face.BOTTOM, "right", 45.0),
    ],
)
def test_what_stands_on_the_bar(turn: float, rests_on: Face, roll: str, set_deg: float) -> None:
    """The face on the bar points down, leans by the bar's angle, and its higher side lies over the raised roll."""
    how = _how(turn, "mm", AngleTools(100.0, 25.0, blocks=True))
    assert (how.rests_on, how.roll) == (rests_on, roll)
    assert how.set_deg == pytest.approx(set_deg)
    normal = [0.0, 0.0, 0.0]
    normal[rests_on.axis] = float(rests_on.sign)
    upright = lay(Face.TOP, Face.BACK, (0.0, 0.0, 0.0))
    x, _, z = Tilted(upright, turn).to_setup((normal[0], normal[1], normal[2]))
    assert z < 0
    assert (x > 0) == (roll == "right")


def test_a_shop_without_a_bar() -> None:
    """A protractor that is there is used; where there is nothing, bar and blocks are to buy or borrow."""
    coarse = _how(-20.0, "mm", AngleTools(protractor_min=5.0))
    assert coarse.device == "protractor"
    assert coarse.step_deg == pytest.approx(5 / 60)
    bare = _how(-20.0, "mm", AngleTools())
    assert (bare.device, bare.owned, bare.bar_mm) == ("sine bar", False, 100.0)
    assert any("to buy or borrow" in words for words in set_words(bare, ("slant",)))


def test_rise_that_proves_the_angle() -> None:
    """At 45 degrees a face rises as far as the table goes."""
    assert prove_rise(45.0, 25.4) == pytest.approx(25.4)
