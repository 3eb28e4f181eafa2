"""``parameters:``: named values, each worked out once; a circle of names is a finding."""

from __future__ import annotations

from fractions import Fraction

from setupsheet.length import parse
from setupsheet.spec import arithmetic
from setupsheet.spec.desk import Desk, Value
from setupsheet.spec.tree import Entry, Mapping, Node, Scalar


def read_parameters(desk: Desk, node: Node | None) -> None:
    """Put every parameter's value on the desk."""
    if not isinstance(node, Mapping):
        return
    for name in node.entries:
        _resolve(desk, node, name, [])
    desk.used.clear()


def _resolve(desk: Desk, node: Mapping, name: str, chain: list[str]) -> None:
    """Work out one parameter and those that it needs; ``chain`` holds the names on the way."""
    if name in desk.values or name not in node.entries:
        return
    entry = node.entries[name]
    if not _sound_name(desk, entry):
        return
    scalar = entry.value
    if not isinstance(scalar, Scalar) or scalar.empty:
        desk.values[name] = Value(Fraction(1), "")
        return
    text = scalar.text.strip()
    if not text.startswith("="):
        desk.values[name] = _plain(desk, scalar)
        return
    for needed in _names(text):
        if needed in (*chain, name):
            circle = " -> ".join((*chain[chain.index(needed) if needed in chain else len(chain) :], name, needed))
            told = "it needs itself" if needed == name else "each needs the other"
            desk.wrong(
                "parameters-in-a-circle",
                f"{circle}: {told}",
                entry.key.place,
                found=circle,
                allowed="parameters that need only such as can be worked out before them",
                try_="write one of them as a number",
            )
            desk.values[name] = Value(Fraction(1), "")
            return
        if len(chain) < arithmetic.MAX_CHAIN:
            _resolve(desk, node, needed, [*chain, name])
    if name not in desk.values:
        value = desk.expression(text, scalar)
        desk.values[name] = Value(Fraction(1) if value is None else value, "")


def _plain(desk: Desk, scalar: Scalar) -> Value:
    bare = scalar.text.strip().removesuffix("°").strip()
    try:
        length = parse(bare, desk.unit)
    except ValueError:
        desk.wrong(
            "not-a-number",
            f"a parameter is a number, {scalar.text!r} is not",
            scalar.place,
            found=scalar.text,
            allowed="42, 3/8 in, 6.5 mm, =other/2",
            try_="write limits and fits where the size stands, not with the parameter",
        )
        return Value(Fraction(1), "")
    return Value(length.exact_mm / desk.unit.mm, bare if length.unit is desk.unit else "")


def _sound_name(desk: Desk, entry: Entry) -> bool:
    name = entry.key.text
    if name in arithmetic.FUNCTIONS or name in ("mm", "in", "inch"):
        desk.wrong(
            "name-taken",
            f"{name} means something else in expressions",
            entry.key.place,
            found=name,
            allowed="another name",
        )
        return False
    if not arithmetic.is_name(name):
        desk.wrong(
            "not-a-name",
            f"{name!r} cannot be the name of a parameter",
            entry.key.place,
            found=name,
            allowed="letters, digits, and hyphens before a letter: ring-start, pcd2",
        )
        return False
    return True


def _names(text: str) -> tuple[str, ...]:
    try:
        return arithmetic.names(text[1:])
    except arithmetic.ExpressionError:
        return ()
