"""A hole for a dowel pin, looked up by the pin."""

from __future__ import annotations

import pytest

from setupsheet.plan.chain.look_up import hole_as_json
from setupsheet.tables.unknown import NotInTables


def test_metric_pin_goes_into_h7() -> None:
    """ISO 8734: a pin 6 m6 is 6.004 to 6.012 (ISO 286-2); its hole is 6 H7, 6.000 to 6.012."""
    found = hole_as_json("6 dowel")
    assert found["required"] == {"lower_mm": 6.0, "upper_mm": 6.012}
    assert found["steps"][-1]["tool"] == "reamer 6 H7"
    assert found["words"][0] == "dowel pin 6 mm m6: 6.004 to 6.012 mm"
    assert any(words.startswith("m6 pin, slip in the other part: F7") for words in found["words"])


def test_inch_pin_has_limits_of_its_own() -> None:
    """ASME B18.8.2: the hole of a standard pin of 1/4 in is nominal less .0005 to nominal."""
    required = hole_as_json("1/4 dowel")["required"]
    assert (required["lower_mm"] / 25.4, required["upper_mm"] / 25.4) == pytest.approx((0.2495, 0.25), abs=1e-6)


def test_unknown_pin() -> None:
    """A pin that is not made names the nearest."""
    with pytest.raises(NotInTables) as said:
        hole_as_json("7.3 dowel")
    assert said.value.nearest == "8 mm"
