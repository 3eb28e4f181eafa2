"""Mates: what the words name, what the tables say to it, and whether two parts go together."""

from __future__ import annotations

import pytest

from setupsheet.finding import Findings
from setupsheet.part.mate import Mate
from setupsheet.spec.mate_words import MateWords, cut

from .conftest import PLATE, Read

OTHER = """
  new:
    kind: hole
    pattern: {list: [[40, 10], [40, 30], [50, 20]]}
    clearance: M4 medium
    through: true
    position: 0.2 to A
"""
TAPPED = """  new:
    kind: hole
    pattern: {list: [[42, 10], [42, 30], [52, 20]]}
    tap: M4
    depth: 8
    position: 0.2 to A
    mate: other.yaml new
"""


def mate(read: Read, words: str, *changes: tuple[str, str], **files: str) -> Mate:
    """Return the mate of the plate's bore."""
    part, _, found = read(*changes, more=f"    mate: {words}\n", **files)
    assert part is not None, found
    return part.mates[0]


def codes(found: Findings) -> list[str]:
    """Return the codes of findings."""
    return [finding.code for finding in found]


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("bush 12 r6, pressed", MateWords(what="bush", size="12 r6", pressed=True)),
        ("bush 12 +0.028/+0.018, bore 8 H7", MateWords(what="bush", size="12 +0.028/+0.018", bore="8 H7")),
        ("pin 6 slide", MateWords(what="pin", size="6", intent="slide")),
        ("slide", MateWords(intent="slide")),
        ("press", MateWords(pressed=True)),
        ("12 press", MateWords(size="12", intent="press", pressed=True)),
        ("cover.yaml screws, M4x12", MateWords(file="cover.yaml", feature="screws", screw="M4", screw_length="12")),
        ("a.yaml b, 10-32 x 1/2", MateWords(file="a.yaml", feature="b", screw="10-32", screw_length="1/2")),
        ("M8x1x20", MateWords(screw="M8x1", screw_length="20")),
        ("ball bearing 22 +0/-0.009", MateWords(what="ball bearing", size="22 +0/-0.009")),
        ("the cable", MateWords(what="the cable")),
    ],
)
def test_words(text: str, parts: MateWords) -> None:
    """Each kind of words is told from the others."""
    assert cut(text) == parts


@pytest.mark.parametrize(
    ("words", "lower", "upper"),
    [
        ("shaft 10 g6", 9.986, 9.995),  # ISO 286-2: g6 over 6 to 10 is -5 to -14 µm
        ("dowel 10 m6", 10.006, 10.015),  # ISO 286-2: m6 over 6 to 10 is +6 to +15 µm
        ("bush 10 r6, pressed", 10.019, 10.028),  # ISO 286-2: r6 over 6 to 10 is +19 to +28 µm
        ("bush 10 +0.028/+0.018", 10.018, 10.028),
        ("10 slide", 9.986, 9.995),  # ANSI B4.2: sliding is H7/g6
        ("slide", 9.986, 9.995),
        ("run", 9.972, 9.987),  # ISO 286-2: f7 over 6 to 10 is -13 to -28 µm
    ],
)
def test_limits(read: Read, words: str, lower: float, upper: float) -> None:
    """The mate's limits come from the standard, from the words, or from the preferred fit of a word."""
    found = mate(read, words)
    assert (found.lower_mm, found.upper_mm) == pytest.approx((lower, upper))


def test_intent_is_recorded(read: Read) -> None:
    """What a word came to stands among the defaults."""
    part = read(more="    mate: pin 10 slide\n")[0]
    assert part is not None
    said = {default.path: default.value for default in part.defaults}
    assert said["features/bore/mate"] == "10 g6"


def test_free_words_have_no_limits(read: Read) -> None:
    """Words that name no size stay words."""
    assert mate(read, "the cable").lower_mm is None


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ("bush 10 rr6", "not-in-tables"),
        ("shaft 10 t6", "not-in-tables"),
        ("shaft 10 H7", "mate-wrong-side"),
        ("bush 12 r6", "mate-size-differs"),
        ("nowhere.yaml boss", "mate-not-read"),
        ("plate.yaml boss", "mate-unknown"),
        ("../plate.yaml boss", "path-outside-project"),
        ("10 +0.01/+0.02", "limits-crossed"),
    ],
)
def test_bad_mates(read: Read, words: str, code: str) -> None:
    """A fit that is not defined, the wrong side, another size, a part or a feature that is not there."""
    part, _, found = read(more=f"    mate: {words}\n")
    assert part is None
    assert codes(found) == [code]


def test_boss_of_another_part(read: Read) -> None:
    """A recess takes the limits of the boss that stands in the other spec."""
    boss = PLATE + "  stand: {kind: round boss, at: [40, 20], diameter: 10 -0.05/-0.15, top: 12}\n"
    found = mate(read, "other.yaml stand", other=boss)
    assert (found.other, found.lower_mm, found.upper_mm) == ("T-01 stand", 9.85, 9.95)


def test_hole_is_no_mate_of_a_slot(read: Read) -> None:
    """A hole and the width of a slot are both holes."""
    slot = PLATE + "  gap: {kind: slot, centres: [[30, 30], [40, 30]], width: 10, through: true}\n"
    assert codes(read(more="    mate: other.yaml gap\n", other=slot)[2]) == ["mate-no-pair"]


def test_patterns_meet(read: Read) -> None:
    """The same three holes elsewhere on the part; M4 in 4.5 (ISO 273 medium) has 0.5 of room."""
    part = read(more=TAPPED, other=PLATE + OTHER)[0]
    assert part is not None
    assert part.mates[0].said == (
        "All 3 holes meet T-01 new.",
        "A screw M4 has 0.5 of room; positions of 0.2 and 0.2 are within it.",
    )


def test_patterns_meet_turned(read: Read) -> None:
    """Mirrored left over right, the holes meet when a part is turned over."""
    part = read(more=TAPPED.replace("[52, 20]", "[32, 20]"), other=PLATE + OTHER)[0]
    assert part is not None
    assert part.mates[0].said[0] == "All 3 holes meet T-01 new with one of the parts turned left over right."


@pytest.mark.parametrize("moved", ["[52, 20.1]", "[53, 20]"])
def test_patterns_that_differ(read: Read, moved: str) -> None:
    """A tenth of a millimetre of one hole is an error of both parts."""
    part, _, found = read(more=TAPPED.replace("[52, 20]", moved), other=PLATE + OTHER)
    assert part is None
    assert codes(found) == ["mate-pattern-differs"]


def test_other_count_differs(read: Read) -> None:
    """Two holes do not meet three."""
    found = read(more=TAPPED.replace(", [52, 20]", ""), other=PLATE + OTHER)[2]
    assert "mate-pattern-differs" in codes(found)


@pytest.mark.parametrize(
    ("change", "screw", "code"),
    [
        ("tap: M4", "M4x18", ""),  # 12 of plate leave 6: 1.5 x 4
        ("tap: M4", "M4x16", "mate-screw-too-short"),
        ("tap: M4", "M4x22", "mate-screw-bottoms"),
        ("tap: M4", "M3x16", "mate-screw-differs"),
        ("tap: M5", "M5x20", "mate-screw-too-thick"),
    ],
)
def test_screws(read: Read, change: str, screw: str, code: str) -> None:
    """A screw holds by one and a half diameters in aluminium, and does not reach the end of the thread."""
    text = TAPPED.replace("tap: M4", change).replace("other.yaml new", f"other.yaml new, {screw}")
    part, _, found = read(more=text, other=PLATE + OTHER)
    assert part is not None
    assert (code in codes(found)) if code else (codes(found) == [])
    if not code:
        assert part.mates[0].said[-1] == "M4x18 reaches 6 into its thread; 6 is enough, the thread is 8 deep."


def test_positions_too_wide(read: Read) -> None:
    """Two zones of 0.2 and 0.4 are more than the 0.5 between M4 and 4.5: fixed fastener, ASME Y14.5."""
    found = read(more=TAPPED.replace("0.2 to A", "0.4 to A"), other=PLATE + OTHER)[2]
    assert codes(found) == ["mate-position-too-wide"]


def test_other_part_with_errors(read: Read) -> None:
    """A spec that has errors itself is told by one finding at the mate."""
    found = read(more="    mate: other.yaml new\n", other=PLATE.replace("through: true", "through: maybe"))[2]
    assert codes(found) == ["mate-not-read"]


def test_two_specs_may_name_each_other(read: Read) -> None:
    """The other spec is read without its own mates, so a circle ends."""
    part, _, found = read(more=TAPPED, other=PLATE + OTHER + "    mate: plate.yaml new\n")
    assert part is not None, found


@pytest.mark.parametrize(
    ("feature", "words", "lower", "upper"),
    [
        ("round boss, at: [40, 20], diameter: 20 h9, top: 12", "ring 20 H8", 20.0, 20.033),  # ISO 286-2: H8 over 18
        ("slot, centres: [[40, 20], [50, 20]], width: 10 H9, through: true", "leaf 10 h9", 9.964, 10.0),  # h9 over 6
        ("hole, at: [40, 20], fit: 0.3937 RC4, through: true", "shaft 0.3937 RC4", None, None),
    ],
)
def test_mates_of_every_kind(read: Read, feature: str, words: str, lower: float | None, upper: float | None) -> None:
    """A boss takes a hole, a slot's width a leaf, an inch fit the shaft of its class, always smaller than the hole."""
    kind, _, rest = feature.partition(", ")
    part, _, found = read(more=f"  new: {{kind: {kind}, {rest}, mate: {words}}}\n")
    assert part is not None, found
    mate_ = part.mates[0]
    assert mate_.lower_mm is not None
    assert mate_.upper_mm is not None
    if lower is None:
        assert mate_.symbol == "RC4"
        assert mate_.lower_mm < mate_.upper_mm < 0.3937 * 25.4
    else:
        assert (mate_.lower_mm, mate_.upper_mm) == pytest.approx((lower, upper))
    assert mate_.side == ("hole" if kind == "round boss" else "shaft")


def test_bearing_with_its_own_limits(read: Read) -> None:
    """A bought bearing of 10 +0/-0.008 in 10 H7: its limits stand as they are written."""
    found = mate(read, "bearing 10 +0/-0.008")
    assert (found.lower_mm, found.upper_mm) == pytest.approx((9.992, 10.0))
    assert found.symbol == ""
