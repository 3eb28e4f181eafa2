"""The desk on which a part is put together: what is known so far, and every finding.

A reading method that cannot make sense of a value says so and hands back a stand-in, so that all
faults of a spec come out in one run; ``broken`` then tells the caller not to trust what it built.
Values of the wrong form are reported by ``shape`` already and only mark the feature as broken here.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass, field
from fractions import Fraction

from setupsheet.finding import Findings, Place, error
from setupsheet.length import Length, Unit, fixed, parse
from setupsheet.part.part import Default, GeneralTolerance, Written
from setupsheet.spec import arithmetic
from setupsheet.spec.tree import Mapping, Node, Scalar, Sequence
from setupsheet.tables.unknown import NotInTables

STAND_IN = Length(Fraction(1), "", Unit.MM)
"""What a length is taken for when it could not be read."""


@dataclass(frozen=True, slots=True)
class Value:
    """A parameter: its number in the spec's unit, and the text it was written as ('' if worked out)."""

    number: Fraction
    written: str


@dataclass
class Desk:
    """What every builder shares; one object a spec."""

    unit: Unit
    findings: Findings = field(default_factory=list)
    values: dict[str, Value] = field(default_factory=dict)
    stand_ins: set[str] = field(default_factory=set)
    """Parameters with a fault, which is reported: what counts with their stand-in value is not to be trusted."""
    used: set[str] = field(default_factory=set)
    general: GeneralTolerance | None = None
    defaults: list[Default] = field(default_factory=list)
    told: frozenset[Place] = frozenset()
    """Places about which ``shape`` has said something already: one finding a value is enough."""
    misspelt: frozenset[str] = frozenset()
    """Features with an unknown key: what seems to be missing there is mostly that key."""
    feature: str = ""
    broken: bool = False
    written: list[Written] = field(default_factory=list)
    """Every length that stands in the spec as a number or as a parameter that is one, in the order of reading."""

    def wrong(self, code: str, message: str, place: Place | None, **more: str) -> None:
        """Write down an error of the feature in hand and mark it as broken."""
        self.broken = True
        if place in self.told:
            return
        self.findings.append(error(code, message, place, feature=self.feature, **more))

    def missing(self, code: str, message: str, place: Place | None, **more: str) -> None:
        """Write down that something is not there, unless an unknown key of the feature may be meant for it."""
        self.broken = True
        if self.feature not in self.misspelt:
            self.wrong(code, message, place, **more)

    def not_in_tables(self, problem: NotInTables, node: Scalar) -> None:
        """Write down that a callout names nothing in the tables."""
        self.wrong(
            "not-in-tables",
            problem.message,
            node.place,
            found=problem.found or node.text,
            allowed=f"nearest: {problem.nearest}" if problem.nearest else problem.examples or "what the tables hold",
            try_=f"write {problem.nearest.split(',')[0].strip()}"
            if problem.nearest
            else "write it as one of these"
            if problem.examples
            else "look at the spelling: a letter or a sign may be missing, or too many",
        )

    def default(self, path: str, value: str, reason: str) -> None:
        """Record a value that the spec left open."""
        self.defaults.append(Default(path, value, reason))

    def opened(self, key: str, value: str, reason: str) -> None:
        """Record a default of the feature in hand."""
        self.default(f"features/{self.feature}/{key}", value, reason)

    def scalar(self, node: Node | None) -> Scalar | None:
        """Return the node if it is a written value; anything else has been reported by ``shape``."""
        if isinstance(node, Scalar) and not node.empty:
            return node
        self.broken = True
        return None

    def text(self, node: Node | None, default: str = "") -> str:
        """Return a text, ``default`` if there is none."""
        if node is None:
            return default
        scalar = self.scalar(node)
        return scalar.text.strip() if scalar else default

    def choice(self, node: Node | None, known: dict[str, str] | tuple[str, ...], default: str) -> str:
        """Return one of a few words; ``shape`` reports any other."""
        word = self.text(node, default)
        if word in known:
            return word
        self.broken = True
        return default

    def mapping(self, node: Node | None) -> Mapping:
        """Return a mapping; an empty one in the place of anything else."""
        if isinstance(node, Mapping):
            return node
        if node is not None:
            self.broken = True
        return Mapping(node.place if node else Place(""))

    def items(self, node: Node | None) -> tuple[Node, ...]:
        """Return the items of a list; a single value counts as a list of one."""
        if isinstance(node, Sequence):
            return node.items
        return () if node is None else (node,)

    def flag(self, node: Node | None) -> bool:
        """Return a yes or no written as true or false."""
        return self.choice(node, ("true", "false"), "false") == "true"

    def expression(self, text: str, node: Scalar, unit: Unit | None = None) -> Fraction | None:
        """Return the value of ``=...`` in the spec's unit, None if it has a fault (then reported)."""
        offset = node.text.find("=") + 1
        try:
            return arithmetic.evaluate(text.lstrip()[1:], unit or self.unit, self._lookup)
        except arithmetic.ExpressionError as problem:
            self.wrong(
                "expression",
                f"{text.strip()}: {problem.message}",
                node.at(offset + problem.offset),
                found=text.strip(),
                allowed="numbers, parameters, + - * / ( ), " + " ".join(arithmetic.FUNCTIONS),
                try_=problem.try_ or self._known_names(problem.message),
            )
            return None

    def _known_names(self, message: str) -> str:
        """Return what helps where a name is not known; for other faults, where to look."""
        if not message.endswith("is no parameter"):
            return "look at the sign under the place, and at the values behind the names"
        names = list(self.values)
        if not names:
            return "define it under parameters:, or write the number"
        return "parameters: " + ", ".join(names[:12]) + (" ..." if len(names) > 12 else "")

    def _lookup(self, name: str) -> Fraction:
        value = self.values[name].number
        self.broken |= name in self.stand_ins
        self.used.add(name)
        return value

    def length(self, node: Node | None, places: int | None = None) -> Length:
        """Return a length written as a number, a fraction or an expression."""
        scalar = self.scalar(node)
        return self.length_of(scalar.text, scalar, places) if scalar else STAND_IN

    def length_of(self, text: str, node: Scalar, places: int | None = None) -> Length:
        """Return the length that ``text``, a part of ``node``, stands for."""
        if text.lstrip().startswith("="):
            return self._worked_out(text, node, places)
        try:
            length = parse(text, self.unit)
        except ValueError as problem:
            self.wrong(
                "not-a-length",
                str(problem),
                node.place,
                found=text.strip(),
                allowed="12.5, 12.5 mm, 3/8 in, 1-1/2, =expression",
                try_=_length_hint(text),
            )
            return STAND_IN
        if length.unit is self.unit:
            self.written.append(Written(self.feature, length.mm, length.written))
        return length

    def _worked_out(self, text: str, node: Scalar, places: int | None) -> Length:
        value = self.expression(text, node)
        if value is None:
            return STAND_IN
        alone = self.values.get(text.strip()[1:].strip())
        exact = value * self.unit.mm
        if places is not None:
            return Length(exact, fixed(value, places), self.unit)
        if alone and alone.written:
            self.written.append(Written(self.feature, float(exact), alone.written))
        return Length(exact, alone.written if alone else "", self.unit)

    def mm(self, node: Node | None) -> float:
        """Return a length in mm as a float."""
        return self.length(node).mm

    def number(self, node: Node | None, default: float | None = None) -> float:
        """Return a plain number or an angle in degrees (``15``, ``15°``, ``=start``)."""
        if node is None and default is not None:
            return default
        scalar = self.scalar(node)
        return float(self.exact(scalar)) if scalar else 1.0

    def exact(self, node: Scalar) -> Fraction:
        """Return a plain number exactly."""
        text = node.text.strip()
        if text.startswith("="):
            return self.expression(text, node) or Fraction(0)
        bare = text.removesuffix("°").removesuffix("deg").strip()
        try:
            return parse(bare, Unit.MM).exact_mm if bare[-1:].isdigit() or bare[-1:] == "." else _refuse(text)
        except ValueError:
            self.wrong(
                "not-a-number",
                f"{text!r} is not a number",
                node.place,
                found=text,
                allowed="15, 22.5, =expression",
                try_="write digits with a point, without a unit",
            )
            return Fraction(1)

    def count(self, node: Node | None, default: int | None = None, most: int = 2000) -> int:
        """Return a whole number from 1 to ``most``."""
        if node is None and default is not None:
            return default
        scalar = self.scalar(node)
        if not scalar:
            return 1
        value = self.exact(scalar)
        if value.denominator != 1 or not 1 <= value <= most:
            self.wrong(
                "not-a-count",
                f"{scalar.text} is not a count",
                scalar.place,
                found=scalar.text,
                allowed=f"a whole number from 1 to {most}",
                try_="count again; for more, write several patterns",
            )
            return 1
        return int(value)


_DASHES = {ord(sign): "-" for sign in "\u2010\u2011\u2012\u2013\u2212"}
"""Signs that look like a minus and are copied from papers and web pages."""


def _refuse(text: str) -> Fraction:
    raise ValueError(text)


def _length_hint(text: str) -> str:
    plain = unicodedata.normalize("NFKC", text.strip()).translate(_DASHES)
    if plain != text.strip() and plain.isascii():
        return f"write {plain}, with the signs of the keyboard"
    if "," in text:
        return f"write {text.strip().replace(',', '.', 1)}: the decimal sign is a point"
    return (
        "in quotes if it holds a # or a comma"
        if "#" in text
        else "write a number, with its unit if it is not the spec's"
    )
