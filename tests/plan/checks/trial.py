"""Small specs for trying one check at a time: a plate as bought, changed by a few words, planned without its proof."""

from __future__ import annotations

import functools
import tempfile
from dataclasses import dataclass
from pathlib import Path
from types import SimpleNamespace
from typing import Any, cast

from setupsheet.finding import Finding
from setupsheet.plan.make import Planned, make_plan
from setupsheet.solid.solids import Solids
from setupsheet.spec.reader import read_part
from tests.house import PROJECT

CORPUS = PROJECT / "tests" / "corpus"
FACES = ("left", "right", "front", "back", "bottom", "top")


@dataclass(frozen=True)
class Setup:
    """A setup of a trial: ``do`` and how the part lies and is held. ``zero`` overrules what it is found from."""

    do: str
    up: str = "top"
    back: str = "back"
    grip: float = 4
    on: str = "parallels"
    zero: tuple[tuple[str, str], ...] = ()
    more: str = ""
    hold: str = "vise"
    check_first: str = ""

    def text(self, number: int) -> str:
        """Return the setup as YAML."""
        sides = {"top": ("left", "front"), "bottom": ("right", "front"), "front": ("left", "bottom")}
        x, y = sides.get(self.up, ("front", "bottom"))
        found = {"x": (x, f"stock {x}"), "y": (y, f"stock {y}"), "z": (self.up, "faced")}
        zero = {axis: f"{{at: {at}, found: {how}}}" for axis, (at, how) in found.items()} | dict(self.zero)
        jaw = "fixed-jaw" if self.hold == "vise" else "back"
        held = f"{{in: vise, grip: {self.grip:g}, on: {self.on}{self.more}}}" if jaw == "fixed-jaw" else "{in: table}"
        lines = [f"  - name: number {number}", f"    up: {self.up}", f"    {jaw}: {self.back}", f"    hold: {held}"]
        lines += ["    zero: {" + ", ".join(f"{axis}: {text}" for axis, text in zero.items() if text) + "}"]
        lines += [f"    check-first: {self.check_first}"] if self.check_first else []
        return "\n".join([*lines, f"    do: [{self.do}]"])


@dataclass(frozen=True)
class Spec:
    """A part of a trial: features as YAML flow, setups, finished size, and what comes off faces."""

    features: str = "h: {kind: hole, at: [20, 20], drill: 5, through: true}"
    setups: tuple[Setup, ...] = (Setup("all holes"),)
    size: tuple[float, float, float] = (60, 40, 12)
    remove: tuple[tuple[str, float | str], ...] = ()
    form: str = "flat bar"
    material: str = "aluminium 6082"
    datums: str = "A: bottom, B: left, C: front"
    shop: tuple[tuple[str, str], ...] = ()
    shop_file: str = "shop.yaml"
    more: str = ""

    def text(self) -> str:
        """Return the spec as YAML."""
        off = dict.fromkeys(FACES, 0.0) | {face: how for face, how in self.remove if not isinstance(how, str)}
        stock = [
            self.size[i] + off[low] + off[high]
            for i, (low, high) in enumerate(zip(FACES[::2], FACES[1::2], strict=True))
        ]
        remove = dict.fromkeys(FACES, "as-bought ±0.2") | {face: f"{how}" for face, how in self.remove}
        return "\n".join(
            [
                "format: 1\npart: Trial\nnumber: T-1\nrevision: A\nunits: mm",
                f"material: {self.material}\ntolerances: ISO 2768-1 m\nshop: shop.yaml",
                "title_block: {owner: us, drawn_by: me, approved_by: you, date: 2026-11-02}",
                f"stock: {{form: {self.form}, size: {_row(stock)}, remove: {{{_pairs(remove)}}}}}",
                f"size: {_row(self.size)}\norigin: left front bottom\ndatums: {{{self.datums}}}\nfeatures:",
                *(f"  {line.strip()}" for line in self.features.splitlines() if line.strip()),
                "setups:",
                *(setup.text(number) for number, setup in enumerate(self.setups, 1)),
                self.more,
            ]
        )

    def shop_text(self) -> str:
        """Return the shop file with its changes; each must change something."""
        text = (CORPUS / self.shop_file).read_text(encoding="utf-8")
        for old, new in self.shop:
            assert old in text, old
            text = text.replace(old, new)
        return text


def _row(values: Any) -> str:
    return "[" + ", ".join(f"{value:g}" for value in values) + "]"


def _pairs(words: dict[str, str]) -> str:
    return ", ".join(f"{key}: {value}" for key, value in words.items())


@dataclass(frozen=True)
class Case:
    """A spec that has the fault, and one that nearly has it."""

    fires: Spec
    near: Spec


@functools.cache
def planned(spec: Spec) -> Planned:
    """Return the plan of a trial with its findings; the finished solid is not made, since no check asks for it."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "trial.yaml"
        path.write_text(spec.text(), encoding="utf-8")
        (Path(folder) / "shop.yaml").write_text(spec.shop_text(), encoding="utf-8")
        part, shop, findings = read_part(path)
    assert part is not None, [finding.message for finding in findings]
    assert shop is not None, [finding.message for finding in findings]
    solids = cast(Solids, SimpleNamespace(volume_mm3=1.0, box_mm=(part.box.low, part.box.high)))
    return make_plan(part, shop, solids)


def found(spec: Spec, code: str) -> list[Finding]:
    """Return the findings of one check in a trial."""
    return [finding for finding in planned(spec).findings if finding.code == code]
