"""The words of ``mate:`` cut into their parts: 'bush 12 r6, pressed, bore 8 H7', 'worm-bracket.yaml boss, M4x12'.

Commas part them. One part names the mate by a size with a shaft's or hole's letter, with its own limits, with a
word for what the fit shall do (``press``, ``locate``, ``slide``, ``run``), or by another spec and its feature.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from setupsheet.tables import mating

_OTHER = re.compile(r"^(?P<file>\S+\.ya?ml)\s+(?P<feature>[A-Za-z][\w-]*)$")
_SCREW = re.compile(r"^(?P<thread>\S.*?\S)\s*x\s*(?P<length>\d+(?:\.\d+)?|\d+/\d+|\d+-\d+/\d+)$")
_SIZED = re.compile(r"^(?:(?P<words>[A-Za-z][A-Za-z -]*?)\s+)?(?P<size>(?:\d|\.\d).*)$")


@dataclass(frozen=True, slots=True)
class MateWords:
    """The parts of the words; '' where one is not there. ``size`` has its tolerance behind it ('12 r6')."""

    what: str = ""
    size: str = ""
    intent: str = ""
    pressed: bool = False
    bore: str = ""
    file: str = ""
    feature: str = ""
    screw: str = ""
    screw_length: str = ""


def cut(text: str) -> MateWords:
    """Return the parts of a mate's words; what has no meaning here stays plain words (``what``)."""
    found: dict[str, str] = {}
    for part in (piece.strip() for piece in text.split(",")):
        for key, value in _part(part).items():
            found.setdefault(key, value)
    pressed = found.pop("pressed", "") or found.get("intent", "") == "press"
    return MateWords(pressed=bool(pressed), **found)


def _part(text: str) -> dict[str, str]:
    """Return what one part between commas says."""
    if text.lower() in ("press", "pressed", "pressed in"):
        return {"pressed": "yes"}
    if text.lower() in mating.intent_words():
        return {"intent": text.lower()}
    if text.startswith("bore "):
        return {"bore": text.removeprefix("bore ").strip()}
    if other := _OTHER.match(text):
        return {"file": other["file"], "feature": other["feature"]}
    if screw := _SCREW.match(text):
        return {"screw": screw["thread"], "screw_length": screw["length"]}
    sized = _SIZED.match(text)
    return _sized(sized["words"] or "", sized["size"]) if sized else {"what": text}


def _sized(what: str, size: str) -> dict[str, str]:
    """Return a size, or a size with the word for what its fit shall do."""
    nominal, _, last = size.rpartition(" ")
    if nominal and last.lower() in mating.intent_words():
        return {"what": what, "size": nominal.strip(), "intent": last.lower()}
    return {"what": what, "size": size}
