"""Charts: exact to scale, every text with its place in the plan, plain attributes, drawn only when asked for."""

from __future__ import annotations

import re
import subprocess
import sys
from dataclasses import replace
from itertools import combinations
from xml.etree import ElementTree

import pytest

from setupsheet.drawing import lettering
from setupsheet.drawing.boxes import Rect
from setupsheet.papers.chart import fit_chart, level_chart
from setupsheet.plan.record import Move, Setup, Step, as_json
from tests.papers.reading_html import shown_at
from tests.papers.small_plan import END_MILL, FIT, plan, reading, setup, step


def points(path: ElementTree.Element) -> list[tuple[float, float]]:
    """Return the points of a path made of straight lines."""
    numbers = [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", path.get("d", ""))]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def marked(svg: str, name: str) -> dict[str, list[tuple[float, float]]]:
    """Return the points of every shape that carries an attribute, by its value."""
    found = (node for node in ElementTree.fromstring(svg).iter() if node.get(name))
    return {node.get(name, ""): points(node) for node in found if node.tag.endswith("path")}


def stepped() -> Setup:
    """Return a setup with two levels, four passes each."""

    def level(number: int, depths: tuple[float, ...]) -> Step:
        moves = tuple(Move("outside", z, 5.0, ((0.0, 0.0), (9.0, 0.0))) for z in depths)
        return step(number, f"level {number}", END_MILL, moves=moves, z_shown=tuple(reading(z) for z in depths))

    return replace(setup(1), steps=(level(1, (-1.0, -2.0, -2.5)), level(2, (-1.0, -2.0, -3.0, -3.5))))


def test_bars_of_a_fit_are_to_scale() -> None:
    """Both ends of each bar lie where one straight scale puts the limits."""
    bars = marked(fit_chart(FIT, "/fits/0").svg, "data-band")
    ends = {key: (min(x for x, _ in bars[key]), max(x for x, _ in bars[key])) for key in ("required", "result", "mate")}
    (x0, x1), low, high = ends["required"], FIT.required_lower_mm, FIT.required_upper_mm
    per_mm = (x1 - x0) / (high - low)
    limits = {"result": (FIT.result_lower_mm, FIT.result_upper_mm), "mate": (FIT.mate_lower_mm, FIT.mate_upper_mm)}
    for key, wanted in limits.items():
        assert ends[key] == pytest.approx([x0 + (value - low) * per_mm for value in wanted if value], abs=1e-3)
    nominal = x0 + (FIT.nominal_mm - low) * per_mm
    assert [x for x, _ in bars["nominal"]] == pytest.approx([nominal, nominal], abs=1e-3)


def test_a_mate_without_limits_has_no_bar() -> None:
    """A mate in words alone is not drawn."""
    bars = marked(fit_chart(replace(FIT, mate_lower_mm=None, mate_upper_mm=None), "/fits/0").svg, "data-band")
    assert "mate" not in bars
    assert "result" in bars


def test_heights_of_the_stair_are_to_scale() -> None:
    """Every pass, the raw metal and the jaws' tops lie on one straight scale."""
    made = stepped()
    chart = level_chart(made, "/setups/0")
    assert chart is not None
    lines = marked(chart.svg, "data-level")
    heights = {
        f"/setups/0/steps/{s}/z_shown/{i}": z
        for s, one in enumerate(made.steps)
        for i, z in enumerate(sorted({move.z for move in one.moves}, reverse=True))
    }
    heights |= {"raw": made.hold.jaw_top_z + made.hold.proud_before_mm}
    at = {key: {y for _, y in lines[key]} for key in heights}
    assert all(len(ys) == 1 for ys in at.values())
    (low, y_low), (high, y_high) = [
        (heights[key], at[key].copy().pop()) for key in ("/setups/0/steps/1/z_shown/3", "raw")
    ]
    for key, z in heights.items():
        assert at[key].copy().pop() == pytest.approx(y_low + (z - low) / (high - low) * (y_high - y_low), abs=1e-3)


def boxes(svg: str) -> list[Rect]:
    """Return the boxes of all texts, in the SVG's units; letters are as high as their capitals."""
    found = []
    for node in ElementTree.fromstring(svg).iter():
        if node.tag.endswith("text"):
            x, y, size = (float(node.get(key, "")) for key in ("x", "y", "font-size"))
            high = size / lettering.EM_PER_CAP
            wide = lettering.width(node.text or "", high, node.get("font-weight") == "bold")
            left = x - wide if node.get("text-anchor") == "end" else x
            found.append(((left, y - high), (left + wide, y)))
    return found


@pytest.mark.parametrize("sides", [0, 4, 9])
def test_no_reading_of_the_stair_meets_another(sides: int) -> None:
    """Many sides of two passes make narrow columns: they are left out before their readings run into each other."""
    moves = tuple(Move("outside", z, 5.0, ((0.0, 0.0), (9.0, 0.0))) for z in (-1.25, -2.25))
    side = step(3, "side", END_MILL, moves=moves, z_shown=("-1.250", "-2.250"))
    made = stepped()
    chart = level_chart(replace(made, steps=(*made.steps, *([side] * sides))), "/setups/0")
    assert chart is not None
    assert chart.svg.count('data-level="side"') == 2 * (2 + (sides if sides < 9 else 0))
    for (a, b), (c, d) in combinations(boxes(chart.svg), 2):
        assert b[0] <= c[0] or d[0] <= a[0] or b[1] <= c[1] or d[1] <= a[1]


def test_no_stair_where_its_readings_would_meet() -> None:
    """So many levels that their columns are narrower than a reading are told by the steps alone."""
    made = stepped()
    assert level_chart(replace(made, steps=made.steps * 8), "/setups/0") is None


def test_no_stair_where_there_is_one_level() -> None:
    """One level, or passes that are few, is told well enough by the readings."""
    assert level_chart(replace(stepped(), steps=stepped().steps[:1]), "/setups/0") is None
    assert level_chart(setup(1), "/setups/0") is None


def test_every_text_with_a_digit_has_its_place_in_the_plan() -> None:
    """The pointers resolve, and the texts are the plan's."""
    made = replace(plan(), setups=(stepped(),))
    document = as_json(made)
    stair = level_chart(made.setups[0], "/setups/0")
    assert stair is not None
    texts = [
        node
        for svg in (fit_chart(FIT, "/fits/0").svg, stair.svg)
        for node in ElementTree.fromstring(svg).iter()
        if node.tag.endswith("text")
    ]
    assert len(texts) > 12
    for node in texts:
        pointer, text = node.get("data-path", ""), node.text or ""
        assert pointer or not re.search(r"\d", text), text
        assert not pointer or shown_at(document, pointer) == text


def test_texts_that_look_like_markup_or_formulae_stay_texts() -> None:
    """A mate's words may hold anything."""
    svg = fit_chart(replace(FIT, mate='<b>"$x^2$" & \\frac 5 m6'), "/fits/0").svg
    assert '<b>"$x^2$" & \\frac 5 m6' in [node.text for node in ElementTree.fromstring(svg).iter()]
    assert "<b>" not in svg


def test_svg_has_plain_attributes_only() -> None:
    """No style that the content policy forbids, no name that could meet twice, nothing referred to, no date."""
    svg = fit_chart(FIT, "/fits/0").svg
    assert not re.search(r"style|\bid=|<use|<defs|href|url\(|<metadata|\d{4}-\d\d-\d\d", svg)
    assert svg == fit_chart(FIT, "/fits/0").svg


def test_plotting_library_is_loaded_only_for_a_chart() -> None:
    """Importing the pages costs no plotting library."""
    code = "import sys, setupsheet.papers.html; sys.exit('matplotlib' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
