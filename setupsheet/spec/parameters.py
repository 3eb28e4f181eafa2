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
    desk.broken = False


def _resolve(desk: Desk, node: Mapping, name: str, chain: list[str]) -> None:
    """Work out one parameter and those that it needs; ``chain`` holds the names on the way."""
    if name in desk.values or name not in node.entries:
        return
    entry = node.entries[name]
    if not _sound_name(desk, entry):
        return
    scalar = entry.value
    if not isinstance(scalar, Scalar) or scalar.empty:
        _stand_in(desk, name)
        return
    text = scalar.text.strip()
    if not text.startswith("="):
        _plain(desk, name, scalar)
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
            _stand_in(desk, name)
            return
        if len(chain) >= arithmetic.MAX_CHAIN and needed in node.entries and needed not in desk.values:
            _too_long(desk, entry, chain)
            return
        _resolve(desk, node, needed, [*chain, name])
    if name not in desk.values:
        _work_out(desk, name, scalar)


def _work_out(desk: Desk, name: str, scalar: Scalar) -> None:
    """Put the value of an expression on the desk; one that counts with a faulty parameter is as faulty."""
    desk.broken = False
    value = desk.expression(scalar.text.strip(), scalar)
    if value is None or desk.broken:
        _stand_in(desk, name)
    else:
        desk.values[name] = Value(value, "")


def _stand_in(desk: Desk, name: str) -> None:
    desk.values[name] = Value(Fraction(1), "")
    desk.stand_ins.add(name)


def _too_long(desk: Desk, entry: Entry, chain: list[str]) -> None:
    most = arithmetic.MAX_CHAIN
    desk.wrong(
        "parameters-in-a-long-row",
        f"{chain[0]} needs more than {most} other parameters, one after the other",
        entry.key.place,
        found=f"{chain[0]} -> {chain[1]} -> ... -> {entry.key.text}",
        allowed=f"up to {most} parameters in a row",
        try_="write one of them as a number",
    )
    _stand_in(desk, entry.key.text)


def _plain(desk: Desk, name: str, scalar: Scalar) -> None:
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
        _stand_in(desk, name)
        return
    desk.values[name] = Value(length.exact_mm / desk.unit.mm, bare if length.unit is desk.unit else "")


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
