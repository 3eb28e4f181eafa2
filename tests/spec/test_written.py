"""Lengths keep the text they were written as, by feature: in inches the decimals are a tolerance."""

from __future__ import annotations

from pathlib import Path

from setupsheet.spec.reader import read_part

SPEC = Path(__file__).parents[2] / "specs" / "indicator-foot.yaml"


def test_lengths_of_points_and_features_are_kept_as_written() -> None:
    """What stands in the demo part's text: a fraction, a point's coordinate, a parameter, and no size of a setup."""
    part = read_part(SPEC)[0]
    assert part is not None
    text = SPEC.read_text(encoding="utf-8")
    found = {(w.feature, w.text) for w in part.written}
    assert ("", "0.450") in found
    assert "middle: 0.750" in text
    assert any(w.text == "0.750" and abs(w.mm - 0.75 * 25.4) < 1e-9 for w in part.written)
    assert "grip: 3/4" in text
    assert all(w.text != "3/4" for w in part.written)
    assert any(feature and depth == "1/4" for feature, depth in found)
