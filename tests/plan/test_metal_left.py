"""Metal that a plan leaves: the error names the feature and says what to do."""

from __future__ import annotations

from pathlib import Path

from setupsheet.finding import Finding, Severity
from setupsheet.plan.make import Planned, make_plan, prove
from setupsheet.solid.solids import make_solids
from setupsheet.spec.reader import read_part

LEVER = """\
format: 1
part: Lever
number: T-03
revision: A
units: mm
material: steel S235JR
tolerances: ISO 2768-1 m
shop: shop.yaml
stock:
  form: flat bar
  size: [60, 24, 10]
  remove:
    {left: as-bought ±0.2, right: as-bought ±0.2, front: as-bought ±0.1, back: as-bought ±0.1,
     bottom: as-bought ±0.1, top: as-bought ±0.1}
size: [60, 24, 10]
datums: {A: bottom, B: left, C: front}
features:
  nose: {kind: rounded end, at: [48, 12], radius: 12, side: right}
setups:
  - name: top
    up: top
    fixed-jaw: back
    hold: {in: vise, grip: 5, on: parallels under A}
    zero: {x: {at: B, found: stock left}, y: {at: C, found: stock front}, z: {at: A, found: height of A}}
"""

TWO_LEVELS = """\
  peg: {kind: round boss, at: [30, 12], diameter: 12, top: 10}
  low: {kind: level, area: {box: {x: [0, 30], y: [0, 24]}}, to: 6}
  high: {kind: level, area: {box: {x: [30, 60], y: [0, 24]}}, to: 8}
"""


def test_a_side_left_behind_the_jaws_is_an_error(tmp_path: Path) -> None:
    """The replay alone would only say that metal stands; the end between the jaws is named, with the way out."""
    hidden = [finding for finding in errors_of(LEVER, tmp_path) if finding.code == "side-hidden-by-jaws"]
    assert [finding.feature for finding in hidden] == ["nose"]
    assert "overhang:" in hidden[0].try_


def test_a_boss_between_two_levels_is_an_error(tmp_path: Path) -> None:
    """Its corners would stay over the lower level."""
    text = LEVER.replace("  nose: {kind: rounded end, at: [48, 12], radius: 12, side: right}\n", TWO_LEVELS)
    told = [finding for finding in errors_of(text, tmp_path) if finding.code == "boss-on-two-floors"]
    assert [finding.feature for finding in told] == ["peg"]


def test_a_side_that_another_step_takes_is_not_called_uncut(tmp_path: Path) -> None:
    """A ring on a plate: what the jaws hide of its sides was cut from below; nothing is said, on no page either."""
    text = LEVER[: LEVER.index("stock:")] + RING_ON_PLATE
    planned = proved(text, tmp_path)
    assert planned.plan.replay is not None
    assert planned.plan.replay.proved
    assert "side-hidden-by-jaws" not in [finding.code for finding in planned.findings]
    assert not [words for setup in planned.plan.setups for words in setup.cautions if "stays uncut" in words]


RING_ON_PLATE = """\
stock: {form: plate, size: [74, 64, 20]}
size: [70, 60, 18]
datums: {A: bottom, B: left, C: front}
features:
  ring: {kind: round boss, at: [34, 28], diameter: 36 +0/-0.1, top: 18}
  plate: {kind: level, area: all, to: 6, leave: [ring]}
"""


def errors_of(text: str, tmp_path: Path) -> list[Finding]:
    """Return the errors of a part that is planned and proved."""
    return [finding for finding in proved(text, tmp_path).findings if finding.severity is Severity.ERROR]


def proved(text: str, tmp_path: Path) -> Planned:
    """Return a part planned and proved."""
    spec = tmp_path / "lever.yaml"
    spec.write_text(text, encoding="utf-8")
    shop_text = (Path(__file__).parents[1] / "corpus" / "shop.yaml").read_text(encoding="utf-8")
    (tmp_path / "shop.yaml").write_text(shop_text, encoding="utf-8")
    part, shop, _ = read_part(spec)
    assert part is not None
    assert shop is not None
    solids, _ = make_solids(part)
    return prove(make_plan(part, shop, solids), solids)
