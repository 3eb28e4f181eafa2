"""Pages to one HTML file: no request, no outside file, the same bytes each time.

The only file that imports the template library. The font is embedded; style and script are inline and
named by their hashes in a strict content policy, so that a text from a spec can neither run nor fetch.
"""

from __future__ import annotations

import base64
import hashlib
import re
from functools import cache
from importlib import resources

from jinja2 import DictLoader, Environment, StrictUndefined
from markupsafe import Markup, escape

from setupsheet.drawing import lettering, svg
from setupsheet.drawing.ink import Group
from setupsheet.papers.chart import Chart
from setupsheet.papers.setup_sheet import Sheets

_FOLDER = "templates"
_READING = re.compile(r"((?:[XYZ] )?[+-]?\d[\d.]* \+ \.?\d+|[XYZ] [+-]?\d[\d.]*)")


def page_html(sheets: Sheets) -> str:
    """Return the complete HTML document of all pages."""
    style = _style(sheets.foot)
    script = _file("bench.js")
    policy = (
        "default-src 'none'; font-src data:; img-src data:; base-uri 'none'; form-action 'none'; "
        f"style-src {_hash(style)}; script-src {_hash(script)}"
    )
    template = _environment().get_template("setups.html.j2")
    return template.render(sheets=sheets, style=Markup(style), script=Markup(script), policy=policy)


def css_string(text: str) -> str:
    """Return a text for a CSS string: letters, digits and blanks as they are, all else as escapes."""
    return "".join(
        sign if sign.isascii() and (sign.isalnum() or sign == " ") else f"\\{ord(sign):06x}" for sign in text
    )


def _style(foot: str) -> str:
    """Return the whole style sheet: font, what both have, paper, screen."""
    printed = _file("print.css").replace("@FOOT@", css_string(lettering.drawable(foot)))
    return f"{font_faces()}{_file('sheet.css')}{printed}{_file('screen.css')}"


def font_faces() -> str:
    """Return the style rules that embed the bundled font."""
    return "".join(_face(bold) for bold in (False, True))


@cache
def _face(bold: bool) -> str:
    data = base64.b64encode(lettering.font_file(bold).read_bytes()).decode("ascii")
    weight = "bold" if bold else "normal"
    return (
        f'@font-face{{font-family:"{lettering.FAMILY}";font-weight:{weight};'
        f'src:url("data:font/otf;base64,{data}") format("opentype")}}'
    )


@cache
def _file(name: str) -> str:
    return resources.files("setupsheet.papers").joinpath(_FOLDER, name).read_text(encoding="utf-8")


def _hash(text: str) -> str:
    digest = base64.b64encode(hashlib.sha256(text.encode("utf-8")).digest()).decode("ascii")
    return f"'sha256-{digest}'"


@cache
def _environment() -> Environment:
    folder = resources.files("setupsheet.papers").joinpath(_FOLDER)
    sources = {
        entry.name: entry.read_text(encoding="utf-8") for entry in folder.iterdir() if entry.name.endswith(".j2")
    }
    environment = Environment(loader=DictLoader(sources), autoescape=True, undefined=StrictUndefined, trim_blocks=True)
    environment.filters["ink"] = _ink
    environment.filters["whole"] = whole
    environment.filters["drawn"] = _drawn
    return environment


def whole(text: str) -> Markup:
    """Return a text in which a reading (X +28.000, 22 + .034) is not broken at the end of a line."""
    return Markup(_READING.sub(r'<span class="whole">\1</span>', str(escape(text))))


def _ink(group: Group) -> Markup:
    """Return a picture as inline SVG."""
    return Markup(svg.group_svg(group, 0.5))


def _drawn(chart: Chart) -> Markup:
    """Return a chart, whose texts are escaped already."""
    return Markup(chart.svg)
