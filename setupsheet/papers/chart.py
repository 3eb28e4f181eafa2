"""Charts as inline SVG, to scale: the bands of a fit, and the stair of levels with its passes.

The only file that imports the plotting library, and only when a chart is drawn. Its picture is written anew
with presentation attributes alone: no style, no names that could meet twice on a page, nothing to fetch. Data
units are paper mm; every value's text carries the pointer of its value in plan.json.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from itertools import pairwise
from typing import TYPE_CHECKING, Any
from xml.etree import ElementTree

from setupsheet.drawing import lettering
from setupsheet.papers.said import Said, shown
from setupsheet.plan.record import FitBand, Setup, Step

if TYPE_CHECKING:
    from matplotlib.axes import Axes

_WIDE = 188.0
_PT = 72 / 25.4
_CAP_MM, _SMALL_MM = 2.5, 1.9
_BAR_FROM, _BAR_TO, _ROW, _BAR = 68.0, 142.0, 6.2, 3.6
"""Where the bars of a fit stand on the paper, the pitch of their rows, their height."""
_STAIR_HIGH, _STAIR_WIDE, _STAIR_FOOT, _STAIR_FROM, _COLUMN_MOST = 38.0, 122.0, 9.0, 18.0, 40.0
"""Narrow enough to stand beside one group of points."""
_TEXT_IN = 0.8
"""How far a column's text stands in from its side."""
_STAIR_LEAST = 2
"""So many steps with passes to different levels make a stair worth drawing."""
_PASSES_LEAST = 3
_KEPT = ("fill", "stroke", "stroke-width", "stroke-dasharray", "stroke-linejoin", "stroke-linecap")


@dataclass(frozen=True, slots=True)
class Chart:
    """A chart as SVG, and what it shows, in words for those who do not see it."""

    name: str
    svg: str


@dataclass(frozen=True, slots=True)
class Band:
    """One bar of a fit: its key in ``shown``, a word, whose it is, its ends in mm, its grey."""

    key: str
    word: str
    name: Said
    low: float
    high: float
    fill: str


@dataclass(frozen=True, slots=True)
class Ruler:
    """A straight scale: ``low`` and ``high`` of the values lie at ``start`` and ``end`` on the paper."""

    low: float
    high: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """Return where a value lies on the paper, mm."""
        return self.start + (value - self.low) / (self.high - self.low) * (self.end - self.start)


def fit_chart(band: FitBand, path: str) -> Chart:
    """Return the bands of one diameter under each other; ``path`` is the band's pointer."""
    rows = _bands(band, path)
    values = [value for row in rows for value in (row.low, row.high)]
    room = (max(values) - min(values)) * 0.04
    ruler = Ruler(min(values) - room, max(values) + room, _BAR_FROM, _BAR_TO)
    high = _ROW * len(rows) + 1.0
    figure, axes = _canvas(high)
    for number, row in enumerate(rows):
        y, start, end = high - _ROW * (number + 0.5), ruler.at(row.low), ruler.at(row.high)
        bar = axes.barh([y], [end - start], left=start, height=_BAR, color=row.fill)[0]
        bar.set(edgecolor="black", linewidth=0.5 * _PT, clip_on=False, gid=f"data-band {row.key}")
        _text(axes, (0.0, y), Said(row.word), _SMALL_MM)
        _text(axes, (15.0, y), row.name, _CAP_MM)
        _text(axes, (_BAR_TO + 3.0, y), shown(band.shown, row.key, f"{path}/shown"), _CAP_MM, bold=True)
    if ruler.low < band.nominal_mm < ruler.high:
        x = ruler.at(band.nominal_mm)
        axes.plot([x, x], [0.0, high], color="black", linewidth=0.25 * _PT, clip_on=False, gid="data-band nominal")
    return Chart(f"bands of {band.feature}", _svg(figure, high, f"bands of {band.feature}, to scale"))


def _bands(band: FitBand, path: str) -> list[Band]:
    """Return the bands that are drawn: asked for, what comes out, and the mate where it names limits."""
    asked, given = Said(band.callout, f"{path}/callout"), Said(band.by, f"{path}/by")
    rows = [
        Band("required", "asked for", asked, band.required_lower_mm, band.required_upper_mm, "white"),
        Band("result", "comes out", given, band.result_lower_mm, band.result_upper_mm, "black"),
    ]
    if band.mate_lower_mm is not None and band.mate_upper_mm is not None:
        mate = Said(band.mate, f"{path}/mate")
        rows.append(Band("mate", "mate", mate, band.mate_lower_mm, band.mate_upper_mm, "#999999"))
    return rows


def level_chart(setup: Setup, path: str) -> Chart | None:
    """Return the stair of a setup's levels with the passes down to each, or None where there is no stair."""
    stairs = _columns(setup)
    if len({_heights(step)[-1] for _, step in stairs if _has_passes(step)}) < _STAIR_LEAST:
        return None
    raw = setup.hold.jaw_top_z + setup.hold.proud_before_mm
    faced = min([raw, *(_heights(step)[-1] for _, step in stairs if step.operation == "face")])
    ruler = Ruler(min(_heights(step)[-1] for _, step in stairs), raw, _STAIR_FOOT, _STAIR_HIGH - 3.0)
    figure, axes = _canvas(_STAIR_HIGH, _STAIR_WIDE)
    wide = _wide(stairs)
    ends = (_STAIR_FROM, _STAIR_FROM + wide * len(stairs) - 3.0)
    _held(axes, ruler, setup, (ends, f"{path}/hold/shown"))
    _line(axes, ends, ruler.at(raw), "data-level raw", dashed=True)
    _text(axes, (0.0, ruler.at(raw)), Said("raw metal"), _SMALL_MM)
    for place, (index, step) in enumerate(stairs):
        top = raw if step.operation == "face" else faced
        _column(axes, ruler, (_STAIR_FROM + place * wide, wide), top, (step, f"{path}/steps/{index}"))
    return Chart("levels and passes", _svg(figure, _STAIR_HIGH, "levels and passes, heights to scale", _STAIR_WIDE))


def _columns(setup: Setup) -> list[tuple[int, Step]]:
    """Return the steps of the stair: all that mill; without sides of few passes, or none, where readings would meet."""
    milled = [(index, step) for index, step in enumerate(setup.steps) if _milled(step)]
    levels = [(index, step) for index, step in milled if step.operation == "face" or _has_passes(step)]
    return next((steps for steps in (milled, levels) if steps and _have_room(steps)), [])


def _have_room(steps: Sequence[tuple[int, Step]]) -> bool:
    """Tell whether the reading at each step's floor, the widest text of a column, ends before the next column."""
    readings = (lettering.drawable(step.z_shown[-1]) for _, step in steps)
    return max(lettering.width(text, _CAP_MM, True) for text in readings) + 2 * _TEXT_IN <= _wide(steps)


def _wide(steps: Sequence[tuple[int, Step]]) -> float:
    return min(_COLUMN_MOST, (_STAIR_WIDE - _STAIR_FROM) / len(steps))


def _has_passes(step: Step) -> bool:
    return step.operation != "face" and len(step.z_shown) >= _PASSES_LEAST


def _held(axes: Axes, ruler: Ruler, setup: Setup, line: tuple[tuple[float, float], str]) -> None:
    """Draw where the jaws end, where that lies among the levels."""
    ends, path = line
    if not ruler.low <= setup.hold.jaw_top_z <= ruler.high or not setup.hold.shown.get("jaw_top"):
        return
    y = ruler.at(setup.hold.jaw_top_z)
    _line(axes, ends, y, "data-level jaws", dashed=True)
    _text(axes, (0.0, y + 1.6), Said("jaw tops"), _SMALL_MM)
    _text(axes, (0.0, y - 1.6), shown(setup.hold.shown, "jaw_top", path), _SMALL_MM)


def _milled(step: Step) -> bool:
    return bool(step.moves) and step.method == "table" and not step.points and len(_heights(step)) == len(step.z_shown)


def _heights(step: Step) -> list[float]:
    """Return the heights of a step's passes, from the top down."""
    return sorted({move.z for move in step.moves}, reverse=True)


def _column(axes: Axes, ruler: Ruler, span: tuple[float, float], top: float, made: tuple[Step, str]) -> None:
    """Draw one step: sides, its passes, its floor, the readings where they have room, number and title."""
    (x, wide), (step, path) = span, made
    heights = _heights(step)
    right, floor = x + wide - 3.0, ruler.at(heights[-1])
    for side in (x, right):
        ends = [floor, ruler.at(top)]
        axes.plot([side, side], ends, color="black", linewidth=0.25 * _PT, clip_on=False, gid="data-level side")
    ys = [ruler.at(z) for z in heights]
    gaps = [a - b for a, b in pairwise([*ys, ys[-1] - 9.0])]
    for i, y in enumerate(ys[:-1]):
        _line(axes, (x, right), y, f"data-level {path}/z_shown/{i}")
        if gaps[i] >= _SMALL_MM + 0.7:
            said = Said(step.z_shown[i], f"{path}/z_shown/{i}")
            behind = lettering.width(lettering.drawable(said.text), _SMALL_MM, False) + 1.0
            _halo(axes, (right - 0.5 - behind, y - 0.5 * gaps[i]), (behind, _SMALL_MM))
            _text(axes, (right - 0.8, y - 0.5 * gaps[i]), said, _SMALL_MM, right=True)
    last = len(heights) - 1
    _line(axes, (x, right), floor, f"data-level {path}/z_shown/{last}", width=0.9)
    reading = Said(step.z_shown[last], f"{path}/z_shown/{last}")
    behind = lettering.width(lettering.drawable(reading.text), _CAP_MM, True) + 1.0
    _halo(axes, (x + 0.3, floor - 2.2), (behind, _CAP_MM + 0.8))
    _text(axes, (x + _TEXT_IN, floor - 2.2), reading, _CAP_MM, bold=True)
    _text(axes, (x, 1.6), Said(str(step.number), f"{path}/number"), _CAP_MM, bold=True)
    if lettering.width(lettering.drawable(step.title), _SMALL_MM, False) < wide - 9.0:
        _text(axes, (x + 5.5, 1.6), Said(step.title, f"{path}/title"), _SMALL_MM)


def _halo(axes: Axes, at: tuple[float, float], size: tuple[float, float]) -> None:
    """Put white behind a text that a line may cross; ``at`` is the middle of its left side."""
    white = axes.barh([at[1]], [size[0]], left=at[0], height=size[1], color="white")[0]
    white.set(zorder=3, clip_on=False, gid="data-level halo")


def _canvas(high: float, wide: float = _WIDE) -> tuple[Any, Axes]:
    """Return an empty picture whose data units are paper mm."""
    from matplotlib.backends.backend_svg import FigureCanvasSVG  # noqa: PLC0415 - slow, only where a chart is drawn
    from matplotlib.figure import Figure  # noqa: PLC0415

    figure = Figure(figsize=(wide / 25.4, high / 25.4))
    FigureCanvasSVG(figure)
    axes = figure.add_axes((0, 0, 1, 1))
    axes.set_axis_off()
    axes.set(xlim=(0.0, wide), ylim=(0.0, high))
    axes.set_autoscale_on(False)
    return figure, axes


def _line(
    axes: Axes, ends: tuple[float, float], y: float, name: str, *, width: float = 0.25, dashed: bool = False
) -> None:
    style = (0, (8.0, 4.0)) if dashed else "-"
    axes.plot(list(ends), [y, y], color="black", linewidth=width * _PT, linestyle=style, clip_on=False, gid=name)


def _text(
    axes: Axes, at: tuple[float, float], said: Said, high: float, *, bold: bool = False, right: bool = False
) -> None:
    """Write a text; its pointer travels as the name of its group. Letters are measured by nobody here."""
    if not said:
        return
    text = lettering.drawable(said.text)
    size = high * lettering.EM_PER_CAP * _PT
    made = axes.text(at[0], at[1] - high / 2, text, fontsize=size, ha="right" if right else "left", va="baseline")
    made.set(fontweight="bold" if bold else "normal", parse_math=False, clip_on=False, gid=f"data-path {said.path}")


def _svg(figure: Any, high: float, name: str, wide: float = _WIDE) -> str:
    """Return the picture written anew: paths and texts with plain attributes, sized in mm."""
    from matplotlib import rc_context  # noqa: PLC0415 - loaded by now

    raw = io.StringIO()
    with rc_context({"svg.fonttype": "none", "svg.hashsalt": "setupsheet", "path.simplify": False}):
        figure.savefig(raw, format="svg", metadata={"Date": None, "Creator": None, "Format": None, "Type": None})
    root = ElementTree.fromstring(raw.getvalue())
    body = "".join(_pieces(root, ""))
    box = f"0 0 {_number(wide * _PT)} {_number(high * _PT)}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide:g}mm" height="{high:g}mm" viewBox="{box}" role="img"'
        f' aria-label="{escape(lettering.drawable(name))}" font-family="{lettering.FAMILY}">{body}</svg>'
    )


def _number(value: float) -> str:
    """Return a number with at most three decimals and no trailing zeros."""
    return f"{value:.3f}".rstrip("0").rstrip(".")


def _pieces(node: ElementTree.Element, name: str) -> Iterator[str]:
    """Give the shapes under a node, each with the attribute that its group is named by."""
    for child in node:
        kind = child.tag.rpartition("}")[2]
        if kind == "g":
            own = child.get("id", "")
            yield from _pieces(child, own if own.startswith("data-") else name)
        elif kind == "path" and name:
            yield f'<path {_named(name)}{_plain(child)} d="{" ".join(child.get("d", "").split())}"/>'
        elif kind == "text":
            yield _written(child, name)


def _named(name: str) -> str:
    key, _, value = name.partition(" ")
    return f'{key}="{escape(value)}"' if value else ""


def _styles(node: ElementTree.Element) -> dict[str, str]:
    pairs = (part.partition(":") for part in node.get("style", "").split(";") if part)
    return {key.strip(): value.strip() for key, _, value in pairs}


def _plain(node: ElementTree.Element) -> str:
    found = _styles(node)
    return "".join(f' {key}="{escape(found[key])}"' for key in _KEPT if key in found)


def _written(node: ElementTree.Element, name: str) -> str:
    found = _styles(node)
    size = _number(float(found.get("font-size", "8px").removesuffix("px")))
    bold = ' font-weight="bold"' if found.get("font-weight") in ("700", "bold") else ""
    anchor = f' text-anchor="{found["text-anchor"]}"' if "text-anchor" in found else ""
    x, y = (_number(float(node.get(key, "0"))) for key in "xy")
    text = escape(node.text or "", quote=False)
    return f'<text {_named(name)} x="{x}" y="{y}" font-size="{size}"{bold}{anchor}>{text}</text>'


def fit_charts(bands: Sequence[FitBand]) -> tuple[Chart, ...]:
    """Return a chart for each fit of a plan."""
    return tuple(fit_chart(band, f"/fits/{i}") for i, band in enumerate(bands))
