"""Whatever somebody types into a spec: findings, never a traceback, and nothing is lost silently."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from setupsheet.finding import has_errors
from setupsheet.spec.reader import read_part

from .conftest import SHOP

EVERY = (Path(__file__).parent / "every_kind.yaml").read_text(encoding="utf-8")
WORDS = ["", "0", "-1", "1e9", "=1/0", "=max(1", "#7", "[]", "{}", "[1, 2]", "{x: 1}", "no", "true", "~", '"', "99999"]
WORDS += [
    "M5",
    "12 H7",
    "12 +0.1/-0.1",
    "±0.3",
    "all",
    "top",
    "left",
    "*x",
    "&x",
    "- a",
    "1/0",
    "3/8 in",
    "as-bought",
    "Ø12",
]

Change = tuple[int, int, str]
changes = st.lists(st.tuples(st.integers(0, 10_000), st.integers(0, 5), st.sampled_from(WORDS)), min_size=1, max_size=4)


def changed(text: str, edits: list[Change]) -> str:
    """Return the text with lines deleted, doubled, cut short, or words put in the place of others."""
    lines = text.split("\n")
    for where, kind, word in edits:
        index = where % len(lines)
        line = lines[index]
        if kind == 0 and len(lines) > 1:
            del lines[index]
        elif kind == 1:
            lines.insert(index, lines[(where * 7) % len(lines)])
        elif kind == 2:
            lines[index] = line[: where % (len(line) + 1)]
        elif kind == 3:
            key, colon, _ = line.partition(":")
            lines[index] = f"{key}{colon} {word}"
        else:
            spans = [match.span() for match in re.finditer(r"[^\s{}\[\],:]+", line)]
            if spans:
                start, end = spans[where % len(spans)]
                lines[index] = line[:start] + word + line[end:]
    return "\n".join(lines)


def test_every_kind_is_sound(tmp_path: Path) -> None:
    """The part of every kind has no finding."""
    (tmp_path / "shop.yaml").write_text(SHOP, encoding="utf-8")
    spec = tmp_path / "every.yaml"
    spec.write_text(EVERY, encoding="utf-8")
    part, shop, found = read_part(spec)
    assert found == []
    assert part is not None
    assert shop is not None
    assert part.stock.as_bought.keys() == {"bottom"}


@pytest.mark.parametrize("target", ["every.yaml", "shop.yaml"])
@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(edits=changes)
def test_any_change(tmp_path: Path, target: str, edits: list[Change]) -> None:
    """After any change there is a part, or an error that says why not; each at a place in a file."""
    texts = {"every.yaml": EVERY, "shop.yaml": SHOP}
    texts[target] = changed(texts[target], edits)
    for name, text in texts.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    part, shop, found = read_part(tmp_path / "every.yaml")
    assert (part is not None and shop is not None) or found
    if part is None:
        assert has_errors(found)
    for finding in found:
        assert finding.message
        assert finding.as_json()["code"] == finding.code
