"""``12 H7``, ``24 -0.05/-0.15``, ``34 ±0.05``, ``=pcd/2 to 2 places``: a written size cut into its parts.

Nothing is worked out here; the parts go to ``setupsheet.length``, ``arithmetic`` and the tables.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

_NUMBER = r"(?:\d+\.\d*|\.\d+|\d+(?:/\d+)?)"
_UNIT = r"(?:\s*(?:mm|inch|in|\"))?"
_EQUAL = re.compile(rf"^(?P<nominal>.*?)\s*(?:±|\+/-|\+-)\s*(?P<amount>{_NUMBER}{_UNIT})\s*$")
_TWO = re.compile(
    rf"^(?P<nominal>.*?)\s+(?P<upper>[+-]\s?{_NUMBER}{_UNIT}|0)\s*/\s*(?P<lower>[+-]?\s?{_NUMBER}{_UNIT})\s*$"
)
_FIT = re.compile(
    rf"^(?P<nominal>{_NUMBER}{_UNIT}|=.*?)\s+(?P<fit>[A-Za-z]{{1,2}}\s?\d{{1,2}})\s*$|^(?P<tight>{_NUMBER})(?P<tight_fit>[A-Za-z]{{1,2}}\d{{1,2}})\s*$"
)
_PLACES = re.compile(r"^(?P<nominal>=.*?)\s+to\s+(?P<places>\d)\s+places?\s*$")


@dataclass(frozen=True, slots=True)
class SizeText:
    """The parts of a size: ``nominal`` as written, then one of the kinds of tolerance or none.

    ``upper`` and ``lower`` are signed deviations as written ('+0.02', '-0'); ``fit`` a symbol ('H7');
    ``places`` the decimals that an expression is meant to have, None where not said.
    """

    nominal: str
    upper: str = ""
    lower: str = ""
    fit: str = ""
    places: int | None = None


def split(text: str) -> SizeText:
    """Cut a size into nominal and tolerance; what fits no form comes back as nominal alone."""
    text = text.strip()
    if match := _EQUAL.match(text):
        amount = match["amount"]
        return _with_places(match["nominal"], "+" + amount, "-" + amount)
    if match := _TWO.match(text):
        return _with_places(match["nominal"], _signed(match["upper"]), _signed(match["lower"]))
    if match := _FIT.match(text):
        nominal, fit = match["nominal"] or match["tight"], match["fit"] or match["tight_fit"]
        return SizeText(nominal, fit=fit.replace(" ", ""))
    return _with_places(text, "", "")


def decimals(text: str) -> int:
    """Return the decimal places that a number is written with, -1 for a fraction."""
    number = re.match(r"\s*[+-]?\s*([\d.\-/ ]*\d\.?)", text)
    written = number.group(1) if number else ""
    if "/" in written:
        return -1
    return len(written.partition(".")[2])


def _with_places(nominal: str, upper: str, lower: str) -> SizeText:
    match = _PLACES.match(nominal)
    if match:
        return SizeText(match["nominal"], upper, lower, places=int(match["places"]))
    return SizeText(nominal, upper, lower)


def _signed(text: str) -> str:
    text = text.replace(" ", "", 1) if text[:1] in "+-" else text
    return text if text[:1] in "+-" else "+" + text
