"""``=pcd/2 + 3``: a small expression language over named values. Nothing is ever executed.

Numbers are exact fractions; they count in the spec's unit, and one that carries its own unit
(``3/8 in``, ``6.5 mm``) is turned into it exactly. Angles are degrees. ``+ - * / ( )`` and the
functions ``sin cos tan sqrt atan2 min max`` are all there is. A name may hold hyphens
(``ring-start``), so a minus between names needs spaces.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from setupsheet.length import Unit

MAX_LETTERS = 300
MAX_NESTED = 30
MAX_CHAIN = 100
MAX_SIZE = Fraction(10) ** 9
_MAX_BITS = 400

Lookup = Callable[[str], Fraction]
"""Returns a name's value; raises KeyError when there is none."""


class ExpressionError(ValueError):
    """What is wrong with an expression and at which letter of it (counted from 0)."""

    def __init__(self, message: str, offset: int, try_: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.offset = offset
        self.try_ = try_


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of an expression: kind ``number``, ``unit``, ``name``, ``sign`` or ``end``."""

    kind: str
    text: str
    offset: int


_NAME = r"[A-Za-z][A-Za-z0-9_]*(?:-[A-Za-z_][A-Za-z0-9_]*)*"
_TOKEN = re.compile(rf"\s*(?:(?P<number>\d+\.\d*|\.\d+|\d+)|(?P<name>{_NAME})|(?P<sign>[-+*/(),]))")
_MIXED = re.compile(r"(?<![\w.])\d+-\d+/\d+(?![\w.])")
_UNITS = {"mm": Unit.MM, "in": Unit.INCH, "inch": Unit.INCH}


def evaluate(text: str, unit: Unit, lookup: Lookup) -> Fraction:
    """Return the value of an expression (without its ``=``) in ``unit``; raises ExpressionError."""
    if len(text) > MAX_LETTERS:
        raise ExpressionError(f"longer than {MAX_LETTERS} letters", 0, "give parts of it names under parameters:")
    return _Parser(tokens(text), unit, lookup).whole()


def names(text: str) -> tuple[str, ...]:
    """Return the names that an expression uses, functions left out, in order; raises ExpressionError."""
    found = [token.text for token in tokens(text) if token.kind == "name" and token.text not in FUNCTIONS]
    return tuple(dict.fromkeys(found))


def is_name(text: str) -> bool:
    """Tell whether a text can be the name of a parameter."""
    return re.fullmatch(_NAME, text) is not None


def tokens(text: str) -> list[Token]:
    """Cut an expression into its pieces."""
    mixed = _MIXED.search(text)
    if mixed:
        whole, part = mixed.group().split("-", 1)
        raise ExpressionError(
            f"{mixed.group()} can be a mixed number or a difference",
            mixed.start(),
            f"write {whole} + {part} or {whole} - {part}",
        )
    pieces: list[Token] = []
    offset = 0
    end = len(text.rstrip())
    while offset < end:
        match = _TOKEN.match(text, offset)
        if not match:
            start = offset + len(text[offset:]) - len(text[offset:].lstrip())
            raise ExpressionError(f"'{text[start]}' means nothing here", start, "use + - * / ( ) and names")
        kind = match.lastgroup or ""
        word = match.group(kind)
        if kind == "name" and word in _UNITS and pieces and pieces[-1].kind == "number":
            kind = "unit"
        pieces.append(Token(kind, word, match.start(match.lastgroup or "")))
        offset = match.end()
    pieces.append(Token("end", "", end))
    return pieces


class _Parser:
    """Reads an expression from left to right and works it out on the way."""

    def __init__(self, pieces: list[Token], unit: Unit, lookup: Lookup) -> None:
        self.pieces = pieces
        self.unit = unit
        self.lookup = lookup
        self.next = 0
        self.nested = 0

    @property
    def token(self) -> Token:
        return self.pieces[self.next]

    def take(self) -> Token:
        """Return the next piece and step over it."""
        token = self.token
        self.next += 1
        return token

    def sign(self, *signs: str) -> Token | None:
        """Step over one of ``signs`` if it comes next."""
        return self.take() if self.token.kind == "sign" and self.token.text in signs else None

    def whole(self) -> Fraction:
        """Return the value of the whole text."""
        value = self.sum()
        if self.token.kind != "end":
            raise ExpressionError(
                f"'{self.token.text}' is not expected here", self.token.offset, "put * between factors"
            )
        return value

    def sum(self) -> Fraction:
        """Return the value of terms with + and - between them."""
        self.nested += 1
        if self.nested > MAX_NESTED:
            raise ExpressionError(f"more than {MAX_NESTED} brackets inside each other", self.token.offset)
        value = self.product()
        while sign := self.sign("+", "-"):
            term = self.product()
            value = _bounded(value + term if sign.text == "+" else value - term, sign)
        self.nested -= 1
        return value

    def product(self) -> Fraction:
        """Return the value of factors with * and / between them."""
        value = self.signed()
        while sign := self.sign("*", "/"):
            factor = self.signed()
            if sign.text == "/" and factor == 0:
                raise ExpressionError("divided by 0", sign.offset)
            value = _bounded(value * factor if sign.text == "*" else value / factor, sign)
        return value

    def signed(self) -> Fraction:
        """Return the value of a factor with any signs before it."""
        negative = False
        while sign := self.sign("+", "-"):
            negative ^= sign.text == "-"
        value = self.factor()
        return -value if negative else value

    def factor(self) -> Fraction:
        """Return the value of a number, a name, a function or a bracket."""
        token = self.take()
        if token.kind == "number":
            return self.number(token)
        if token.kind == "name":
            return self.call(token) if token.text in FUNCTIONS else self.name(token)
        if token.text == "(":
            value = self.sum()
            self.close(token)
            return value
        what = f"'{token.text}' stands where" if token.text else "it ends where"
        raise ExpressionError(f"{what} a number or a name has to stand", token.offset)

    def close(self, opened: Token) -> None:
        """Step over the bracket that closes ``opened``."""
        if not self.sign(")"):
            raise ExpressionError("this bracket is not closed", opened.offset)

    def number(self, token: Token) -> Fraction:
        """Return a number, turned into the spec's unit if it carries its own."""
        value = Fraction(token.text + "0" if token.text.endswith(".") else token.text)
        if self.written_fraction(token):
            self.take()
            value /= int(self.take().text)
        if self.token.kind == "unit":
            value = value * _UNITS[self.take().text].mm / self.unit.mm
        return _bounded(value, token)

    def written_fraction(self, token: Token) -> bool:
        """Tell whether ``3/8 in`` starts here: the unit belongs to the whole fraction."""
        ahead = self.pieces[self.next : self.next + 3]
        return (
            token.text.isdigit()
            and [piece.kind for piece in ahead] == ["sign", "number", "unit"]
            and ahead[0].text == "/"
            and ahead[1].text.isdigit()
            and int(ahead[1].text) != 0
        )

    def name(self, token: Token) -> Fraction:
        """Return a parameter's value."""
        try:
            return self.lookup(token.text)
        except KeyError:
            spaced = token.text.replace("-", " - ")
            hint = f"if you mean a difference, write {spaced}" if "-" in token.text else ""
            raise ExpressionError(f"'{token.text}' is no parameter", token.offset, hint) from None

    def call(self, token: Token) -> Fraction:
        """Return the value of a function."""
        opened = self.sign("(")
        if not opened:
            raise ExpressionError(f"{token.text} needs its value in brackets", token.offset, f"{token.text}(...)")
        values = [self.sum()]
        while self.sign(","):
            values.append(self.sum())
        self.close(opened)
        least, most, function = FUNCTIONS[token.text]
        if not least <= len(values) <= most:
            count = "one value" if most == 1 else "two values" if most == 2 else "at least one value"
            raise ExpressionError(f"{token.text} takes {count}, {len(values)} found", token.offset)
        try:
            return _bounded(function(*values), token)
        except ArithmeticError as problem:
            raise ExpressionError(str(problem), token.offset) from None


def _bounded(value: Fraction, token: Token) -> Fraction:
    """Return the value; refuse huge ones and shorten fractions that would grow without end."""
    if abs(value) > MAX_SIZE:
        raise ExpressionError("the value grows beyond all measure", token.offset)
    if value.denominator.bit_length() > _MAX_BITS:
        return Fraction(float(value))
    return value


_HALVES = {0: (0, 1), 30: (1, 2), 90: (1, 1), 150: (1, 2), 180: (0, 1), 210: (-1, 2), 270: (-1, 1), 330: (-1, 2)}


def sin(angle: Fraction) -> Fraction:
    """Return the sine of an angle in degrees; exact where it is a half or a whole."""
    turned = angle % 360
    if turned in _HALVES:
        return Fraction(*_HALVES[int(turned)])
    return _from_float(math.sin(math.radians(turned)))


def cos(angle: Fraction) -> Fraction:
    """Return the cosine of an angle in degrees; exact where it is a half or a whole."""
    return sin(angle + 90)


def _tan(angle: Fraction) -> Fraction:
    turned = angle % 180
    if turned == 90:
        raise ArithmeticError("the tangent of 90 degrees has no value")
    exact = {0: 0, 45: 1, 135: -1}
    if turned in exact:
        return Fraction(exact[int(turned)])
    return _from_float(math.tan(math.radians(turned)))


def _sqrt(value: Fraction) -> Fraction:
    if value < 0:
        raise ArithmeticError(f"the root of a negative number ({float(value):g})")
    over, under = math.isqrt(value.numerator), math.isqrt(value.denominator)
    if over * over == value.numerator and under * under == value.denominator:
        return Fraction(over, under)
    return _from_float(math.sqrt(value))


def _atan2(y: Fraction, x: Fraction) -> Fraction:
    if x == 0 and y == 0:
        raise ArithmeticError("atan2(0, 0) has no direction")
    if y == 0:
        return Fraction(0 if x > 0 else 180)
    if x == 0:
        return Fraction(90 if y > 0 else -90)
    if abs(x) == abs(y):
        return Fraction((45 if x > 0 else 135) * (1 if y > 0 else -1))
    return _from_float(math.degrees(math.atan2(y, x)))


def _from_float(value: float) -> Fraction:
    """Return a float to 15 decimals, so that the noise of the last bit does not print."""
    return Fraction(f"{value:.15f}")


FUNCTIONS: dict[str, tuple[int, int, Callable[..., Fraction]]] = {
    "sin": (1, 1, sin),
    "cos": (1, 1, cos),
    "tan": (1, 1, _tan),
    "sqrt": (1, 1, _sqrt),
    "atan2": (2, 2, _atan2),
    "min": (1, 20, lambda *values: min(values)),
    "max": (1, 20, lambda *values: max(values)),
}
"""Function -> least and most values, and how it is worked out."""
