"""Bytes of a file -> text, or the finding that says why they are none."""

from __future__ import annotations

from setupsheet.finding import Findings, Place, error, note

MAX_BYTES = 1_000_000


def decoded(raw: bytes, file: str, findings: Findings) -> str | None:
    """Return the bytes as text, None when they are not the text of a spec."""
    if len(raw) > MAX_BYTES:
        findings.append(
            error(
                "file-too-large",
                f"{len(raw)} bytes; a spec may have {MAX_BYTES}",
                Place(file),
                found=f"{len(raw)} bytes",
                allowed=f"up to {MAX_BYTES} bytes",
                try_="share what repeats by a pattern or by include:",
            )
        )
        return None
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as problem:
        line = raw.count(b"\n", 0, problem.start) + 1
        column = problem.start - raw.rfind(b"\n", 0, problem.start)
        findings.append(
            error(
                "not-utf-8",
                f"byte {raw[problem.start]:#04x} is not UTF-8",
                Place(file, line, column),
                found=f"{raw[problem.start]:#04x}",
                allowed="text in UTF-8",
                try_="save the file as UTF-8 in the editor",
            )
        )
        return None
    if text.startswith("\ufeff"):
        findings.append(
            note("byte-order-mark", "an invisible byte order mark starts the file; it was left out", Place(file, 1, 1))
        )
        text = text[1:]
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    return text if _clean(text, file, findings) else None


def _clean(text: str, file: str, findings: Findings) -> bool:
    """Look for control characters and for tabs that indent; False when the text cannot be read."""
    clean = True
    for number, line in enumerate(text.split("\n"), 1):
        indent = line[: len(line) - len(line.lstrip())]
        if "\t" in indent and line.strip():
            clean = False
            findings.append(
                error(
                    "tab",
                    "a tab stands in the indent",
                    Place(file, number, indent.index("\t") + 1),
                    found="a tab",
                    allowed="spaces",
                    try_="indent by two spaces",
                    because="how far in a line stands decides what it belongs to, and tabs have no fixed width",
                )
            )
        bad = next((column for column, sign in enumerate(line) if not printable(sign)), None)
        if bad is not None:
            clean = False
            findings.append(
                error(
                    "control-character",
                    f"an invisible character (U+{ord(line[bad]):04X}) stands here",
                    Place(file, number, bad + 1),
                    found=f"U+{ord(line[bad]):04X}",
                    allowed="printable text",
                    try_="delete it and type the line again",
                )
            )
    return clean


_UNSEEN = frozenset("\u061c\u200b\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""Direction marks and a blank without width: they can make a line look other than it reads."""


def printable(sign: str) -> bool:
    """Tell whether a sign may stand in a spec: one that a reader can see, or a tab."""
    if " " <= sign <= "~" or sign == "\t":
        return True
    code = ord(sign)
    if 0xD800 <= code <= 0xDFFF or 0xE0000 <= code <= 0xE007F:  # half of a sign; tags that nobody sees
        return False
    return code >= 0xA0 and code not in (0x2028, 0x2029, 0xFEFF, 0xFFFE, 0xFFFF) and sign not in _UNSEEN
