"""The expression language: exact, small, and never executed."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.length import Unit
from setupsheet.spec.arithmetic import FUNCTIONS, ExpressionError, evaluate, is_name, names

VALUES = {"pcd": Fraction(42), "ring-start": Fraction(15), "wall": Fraction(5, 2)}


def work_out(text: str, unit: Unit = Unit.MM) -> Fraction:
    """Return the value of an expression over the test's parameters."""
    return evaluate(text, unit, VALUES.__getitem__)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("pcd/2 + 3", 24),
        ("2*(1 + 3)*-1", -8),
        ("10 - 2 - 3", 5),
        ("12/2/3", 2),
        ("-(-3)", 3),
        ("pcd-2", 40),
        ("ring-start + 1", 16),
        ("3/8 in", Fraction(381, 40)),
        ("1/3", Fraction(1, 3)),
        (".5 + 5.", Fraction(11, 2)),
        ("max(1, wall, 2)", Fraction(5, 2)),
        ("min(pcd, wall)*2", 5),
        ("sqrt(9/4)", Fraction(3, 2)),
        ("sin(30)", Fraction(1, 2)),
        ("cos(60)", Fraction(1, 2)),
        ("cos(90)", 0),
        ("sin(-30)", Fraction(-1, 2)),
        ("tan(45)", 1),
        ("atan2(1, 1)", 45),
        ("atan2(0, -1)", 180),
        ("atan2(-1, -1)", -135),
    ],
)
def test_value(text: str, value: Fraction | int) -> None:
    """What can be exact is exact."""
    assert work_out(text) == value


def test_unit_of_number() -> None:
    """A number with its own unit is turned into the spec's unit exactly."""
    assert work_out("25.4 mm", Unit.INCH) == 1
    assert work_out("1 in + 1", Unit.MM) == Fraction(264, 10)


@pytest.mark.parametrize(
    ("text", "offset", "word"),
    [
        ("", 0, "ends"),
        ("1 +", 3, "ends"),
        ("(1", 0, "not closed"),
        ("1)", 1, "not expected"),
        ("2 pcd", 2, "not expected"),
        ("pcd/0", 3, "divided by 0"),
        ("pitch + 1", 0, "no parameter"),
        ("pcd-wall", 0, "no parameter"),
        ("sin 30", 0, "brackets"),
        ("sin(1, 2)", 0, "one value"),
        ("atan2(1)", 0, "two values"),
        ("sqrt(0-1)", 0, "negative"),
        ("tan(90)", 0, "90"),
        ("atan2(0, 0)", 0, "direction"),
        ("1e3", 1, "not expected"),
        ("2**3", 2, "number or a name"),
        ("a; b", 1, "means nothing"),
        ("__import__('os')", 0, "means nothing"),
        ("pcd.real", 3, "means nothing"),
        ("1-1/2", 0, "mixed number"),
        ("(" * 31 + "1" + ")" * 31, 30, "inside each other"),
        ("1" + "+1" * 200, 0, "longer"),
        ("99999999*99999999", 8, "beyond all measure"),
    ],
)
def test_fault(text: str, offset: int, word: str) -> None:
    """A fault names its letter and says what it is."""
    with pytest.raises(ExpressionError) as caught:
        work_out(text)
    assert word in caught.value.message
    assert caught.value.offset == offset


def test_minus_between_names_hint() -> None:
    """A minus without spaces makes one name of two; the finding says how to write a difference."""
    with pytest.raises(ExpressionError) as caught:
        work_out("pcd-wall")
    assert "pcd - wall" in caught.value.try_


def test_names() -> None:
    """The names of an expression come once each, functions and units left out."""
    assert names("max(pcd, 2 in) + pcd - ring-start") == ("pcd", "ring-start")
    assert is_name("ring-start")
    assert not is_name("ring-2")
    assert not is_name("2pcd")


Tree = tuple[str, Fraction]


def _combine(children: st.SearchStrategy[Tree]) -> st.SearchStrategy[Tree]:
    def join(parts: tuple[Tree, str, Tree]) -> Tree:
        (left, a), sign, (right, b) = parts
        value = {"+": a + b, "-": a - b, "*": a * b}[sign]
        return f"({left}) {sign} ({right})", value

    return st.tuples(children, st.sampled_from("+-*"), children).map(join)


numbers = st.integers(0, 500).map(lambda n: (str(n), Fraction(n))) | st.integers(0, 5000).map(
    lambda n: (f"{n / 100:.2f}", Fraction(n, 100))
)


@given(st.recursive(numbers, _combine, max_leaves=5))
def test_agrees_with_fractions(tree: Tree) -> None:
    """Sums and products agree with exact fractions, whatever the nesting."""
    text, value = tree
    if abs(value) < 10**6:
        assert work_out(text) == value


def fault_of(text: str) -> ExpressionError | None:
    """Return the fault of an expression, None if it has a value."""
    try:
        work_out(text)
    except ExpressionError as problem:
        return problem
    return None


@given(st.text(max_size=40))
def test_any_text(text: str) -> None:
    """Any text gives a number or an ExpressionError, never another exception."""
    fault = fault_of(text)
    assert fault is None or 0 <= fault.offset <= len(text)


@given(st.text("0123456789.+-*/()pcdwallsinmax, ", max_size=30))
def test_any_expression_like_text(text: str) -> None:
    """The same for texts that look like expressions."""
    fault = fault_of(text)
    assert fault is None or fault.message


@given(st.integers(-720, 720))
def test_angles(angle: int) -> None:
    """Sine and cosine are the library's to 15 decimals, and exact at the quarter turns."""
    sine, cosine = work_out(f"sin({angle})"), work_out(f"cos({angle})")
    assert float(sine) == pytest.approx(math.sin(math.radians(angle)), abs=1e-14)
    assert float(cosine) == pytest.approx(math.cos(math.radians(angle)), abs=1e-14)
    if angle % 90 == 0:
        assert sine.denominator == cosine.denominator == 1


def test_every_function_has_a_count() -> None:
    """Each function says how many values it takes."""
    assert all(1 <= least <= most for least, most, _ in FUNCTIONS.values())
