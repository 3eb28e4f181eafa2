"""Bad input: each fault is told once, at its place, with what was found and what is allowed."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from setupsheet.finding import Severity
from setupsheet.spec.reader import read_part, read_shop

from .conftest import PLATE, SHOP, Read

HOLE = ("    fit: 10 H7\n", "    {}\n")


def hole(line: str) -> tuple[str, str]:
    """Return the change that makes the bore something else."""
    return HOLE[0], HOLE[1].format(line)


def more(text: str) -> tuple[str, str]:
    """Return the change that adds features behind the bore (they start in line 21)."""
    return "    through: true\n", "    through: true\n" + "".join(f"  {line}\n" for line in text.splitlines())


def test_sound_plate(read: Read) -> None:
    """The plate itself has no finding at all."""
    part, shop, found = read()
    assert part is not None
    assert shop is not None
    assert found == []


CASES = [
    (("units: mm", "units: metric"), "not-a-choice", 5),
    (("units: mm\n", ""), "key-missing", 1),
    (("format: 1", "format: 2"), "not-a-choice", 1),
    (("material: aluminium 6082", "material: unobtainium"), "not-in-tables", 6),
    (("tolerances: ISO 2768-1 m", "tolerances: ISO 2768-1 x"), "not-in-tables", 7),
    (("tolerances: ISO 2768-1 m", "tolerances: about right"), "not-a-general-tolerance", 7),
    (("  size: [64, 44, 13]", "  size: [59, 44, 13]"), "stock-too-small", 11),
    (("  size: [64, 44, 13]", "  size: [64, 44, 13]\n  remove: {left: 1, right: 2}"), "remove-does-not-add-up", 13),
    (("  size: [64, 44, 13]", "  size: [64 lb, 44, 13]"), "not-a-length", 12),
    (("size: [60, 40, 12]", "size: [60, 40]"), "wrong-count", 13),
    (("size: [60, 40, 12]", "size: [60, 40, 12]\norigin: left top bottom"), "no-such-corner", 14),
    (("B: left", "B: bohr"), "unknown-datum", 14),
    (("datums: {A: bottom, B: left, C: front}", "datums: [bottom]"), "wrong-form", 14),
    (("kind: hole", "kind: hoel"), "not-a-choice", 17),
    (("    through", "    throuhg"), "unknown-key", 20),
    (("at: [20, 15]", "at: [70, 15]"), "hole-outside-part", 18),
    (("at: [20, 15]", "at: [20, 15, 3]"), "wrong-count", 18),
    (("at: [20, 15]", "at: middle"), "unknown-point", 18),
    (("at: [20, 15]", "at: {x: 20, z: 3}"), "wrong-axes", 18),
    (hole("fit: 10 H77"), "not-in-tables", 19),
    (hole("fit: 20 t6"), "shaft-fit-on-hole", 19),
    (hole("fit: 20 T6"), "not-in-tables", 19),
    (hole("fit: 10"), "not-a-fit", 19),
    (hole("drill: #7"), "value-is-comment", 19),
    (hole("drill: no. 81"), "not-in-tables", 19),
    (hole("drill: 1/0"), "not-in-tables", 19),
    (hole("drill: M5"), "not-a-drill", 19),
    (hole("drill: 6.37"), "not-in-tables", 19),
    (hole("drill: 6 \u00b10.1"), "not-a-drill", 19),
    (hole("tap: M5.5"), "not-in-tables", 19),
    (hole("tap: 1/4-21 UNC"), "not-in-tables", 19),
    (hole("clearance: M4 wide"), "not-in-tables", 19),
    (hole("diameter: 12,5"), "not-a-length", 19),
    (hole("diameter: 12 mm in"), "not-a-length", 19),
    (hole("diameter: 12 -0.02/+0.01"), "limits-crossed", 19),
    (hole("diameter: 12 H7"), "fit-as-diameter", 19),
    (hole("diameter: =12/0"), "expression", 19),
    (hole("diameter: =pitch"), "expression", 19),
    (hole("fit: 10 H7\n    drill: 4"), "hole-not-clear", 20),
    (hole("note: nothing"), "hole-not-clear", 17),
    (hole("fit: 10 H7\n    depth: 4"), "depth-not-clear", 20),
    (hole("fit: 10 H7\n    fit: 10 H7"), "key-twice", 20),
    (hole("fit: 10 H7\n    position: 0.2 to D"), "unknown-datum", 20),
    (hole("fit: 10 H7\n    position: 0.2"), "position", 20),
    (hole("fit: 10 H7\n    chamfer: to 9"), "chamfer-inside-hole", 20),
    (hole("fit: 10 H7\n    chamfer: big"), "not-a-length", 20),
    (hole("fit: 10 H7\n    countersink: {for: M77}"), "not-in-tables", 20),
    (hole("fit: 10 H7\n    countersink: {for: M4}"), "mouth-smaller-than-hole", 20),
    (hole("fit: 10 H7\n    counterbore: {diameter: 14, depth: 12}"), "counterbore-too-deep", 20),
    (hole("fit: 10 H7\n    drill-depth: 3"), "drill-depth", 20),
    (("through: true", "depth: 20"), "hole-too-deep", 20),
    (("through: true", "through: yes"), "wrong-form", 20),
    (more("cap:\n  kind: level\n  area: all\n  to: 12.2"), "height-above-part", 24),
    (more("cap:\n  kind: level\n  area: all\n  to: 14"), "height-above-part", 24),
    (more("cap:\n  kind: level\n  area: all\n  to: 0 ±0.1"), "height-below-part", 24),
    (more("cap:\n  kind: level\n  area: {box: {x: [9, 3], y: [0, 40]}}\n  to: 9"), "range-backwards", 23),
    (more("cap:\n  kind: level\n  area: {box: {x: [70, 80], y: [0, 40]}}\n  to: 9"), "area-outside-part", 23),
    (more("cap:\n  kind: level\n  area: all\n  to: 9\n  leave: [bohr]"), "unknown-feature", 25),
    (more("p:\n  kind: pocket\n  area: {box: {x: [30, 50], y: [9, 30]}}\n  depth: 5"), "corner-radius-missing", 21),
    (
        more("p:\n  kind: pocket\n  area: {circle: {at: [40, 20], diameter: 9}}\n  to: 5\n  depth: 5"),
        "depth-not-clear",
        25,
    ),
    (more("s:\n  kind: hole\n  from: right\n  at: [20, 6]\n  drill: 4\n  depth: 9"), "axes-not-named", 24),
    (more("c:\n  kind: corner radius\n  radius: 5\n  corner: front"), "no-such-corner", 24),
    (more("c:\n  kind: corner radius\n  radius: 5\n  at: [6, 6]\n  corner: front left"), "radius-does-not-touch", 24),
    (more("e:\n  kind: rounded end\n  at: [40, 20]\n  radius: 19\n  side: right"), "radius-does-not-touch", 23),
    (more("e:\n  kind: edge cut\n  side: right\n  from: bore\n  distance: 39"), "edge-not-at-size", 25),
    (more("e:\n  kind: edge cut\n  line: [[55, 50], [70, 35]]\n  remove: back right"), "cuts-nothing", 23),
    (more("e:\n  kind: edge cut\n  line: [[50, 40], [60, 30]]\n  remove: top"), "no-such-side", 24),
    (more("top:\n  kind: mark\n  at: [50, 30]\n  note: stamp"), "name-taken", 21),
    (more("2nd:\n  kind: mark\n  at: [50, 30]\n  note: stamp"), "not-a-name", 21),
    (more("b:\n  kind: edge chamfer\n  sides: [top]\n  size: 1"), "no-such-side", 23),
    (("through: true", "depth: 0"), "no-amount", 20),
    (("through: true", "depth: -3"), "no-amount", 20),
    (hole("diameter: 0"), "no-amount", 19),
    (("at: [20, 15]", "pattern: {bolt-circle: -20, centre: [30, 20], count: 3}"), "no-amount", 18),
    (("at: [20, 15]", "pattern: {bolt-circle: 20, centre: [30, 20], count: 2, skip: [1, 2]}"), "pattern-empty", 18),
    (more("s:\n  kind: slot\n  centres: [[40, 10], [40, 30]]\n  width: 0\n  depth: 4"), "no-amount", 24),
    (more("b:\n  kind: round boss\n  at: [40, 20]\n  diameter: 0\n  top: 12"), "no-amount", 24),
    (more("p:\n  kind: pocket\n  area: {circle: {at: [40, 20], diameter: 0}}\n  depth: 4"), "no-amount", 23),
    (more("p:\n  kind: pocket\n  area: {polygon: [[40, 5], [45, 10], [50, 15]]}\n  depth: 4"), "no-amount", 23),
    (
        more("p:\n  kind: pocket\n  area: {polygon: [[40, 5], [50, 5], [50, 15], [40, 5]]}\n  depth: 4"),
        "corner-twice",
        23,
    ),
    (
        more("p:\n  kind: pocket\n  area: {box: {x: [40, 60], y: [20, 30]}}\n  corner-radius: 5\n  depth: 4"),
        "pocket-ends-on-edge",
        23,
    ),
    (
        more("p:\n  kind: pocket\n  area: {circle: {at: [54, 20], diameter: 12}}\n  depth: 4"),
        "pocket-ends-on-edge",
        23,
    ),
    (more("l:\n  kind: level\n  area: all\n  to: 0"), "no-amount", 24),
    (more("m:\n  kind: mark\n  at: [300, 30]\n  note: stamp"), "mark-outside-part", 23),
    (more("twin:\n  kind: hole\n  at: [20, 15]\n  fit: 10 H7\n  through: true"), "hole-twice", 23),
    (more("seat:\n  kind: hole\n  at: [20, 15]\n  fit: 14 H7\n  depth: 4"), "seat-over-hole", 23),
    (("shop: shop.yaml", "shop: shopp.yaml"), "file-not-read", 8),
    (("shop: shop.yaml", "shop: ../shop.yaml"), "path-outside-project", 8),
    (("shop: shop.yaml", 'shop: "shop\\n.yaml"'), "path-outside-project", 8),
    (("shop: shop.yaml", "shop: /etc/hostname"), "path-outside-project", 8),
    (("shop: shop.yaml", "shop: shop.yaml\ninclude: plate.yaml"), "include-circle", 9),
    (("shop: shop.yaml", "shop: shop.yaml\nparameters: {a: =b, b: =a}"), "parameters-in-a-circle", 9),
    (("shop: shop.yaml", "shop: shop.yaml\nparameters: {a: 1e3}"), "not-a-number", 9),
    (("shop: shop.yaml", "shop: shop.yaml\nparameters: {sin: 3}"), "name-taken", 9),
    (("shop: shop.yaml", "shop: shop.yaml\npoints: {a: b, b: {from: a, dx: 3}}"), "points-in-a-circle", 9),
]


@pytest.mark.parametrize(
    ("change", "code", "line"), CASES, ids=[f"{code}-{index}" for index, (_, code, _) in enumerate(CASES)]
)
def test_one_fault(read: Read, change: tuple[str, str], code: str, line: int) -> None:
    """One fault gives its one error, in its line."""
    found = [finding for finding in read(change)[2] if finding.severity is Severity.ERROR]
    assert [(finding.code, finding.place.line if finding.place else 0) for finding in found] == [(code, line)]
    assert found[0].message
    assert found[0].found or found[0].allowed


CAP = "cap:\n  kind: level\n  area: all\n  to: 14"


CAP = "cap:\n  kind: level\n  area: all\n  to: 14"


@pytest.mark.parametrize(
    ("change", "hint"),
    [
        (("kind: hole", "kind: step"), "write one of these"),
        (("kind: hole", "Kind: hole"), "write kind for Kind"),
        (("    kind: hole\n    at", "   kind: hole\n    at"), "stands 1 further in"),
        (hole("fit: '10 H7"), "close the quote that opens here"),
        (("material: aluminium 6082", "material: unobtainium"), "look at the spelling"),
    ],
)
def test_what_to_try_fits_the_slip_of_the_pen(read: Read, change: tuple[str, str], hint: str) -> None:
    """A wrong word, a capital, an indent, an open quote: what to try names that, in the line where it stands."""
    (found,) = [finding for finding in read(change)[2] if finding.severity is Severity.ERROR]
    assert hint in found.try_
    assert found.place is not None
    assert 6 <= found.place.line <= 19


def test_no_shop_names_no_option_that_does_not_exist(read: Read) -> None:
    """Check and build have no --shop: the caution says what to write instead."""
    (found,) = [finding for finding in read(("shop: shop.yaml\n", ""))[2] if finding.code == "no-shop"]
    assert "--shop" not in found.try_


def test_a_long_row_of_parameters_is_told_as_such(read: Read) -> None:
    """150 parameters that each need the next: told as a long row, not as a name that nobody defined."""
    row = "".join(f"  p{i}: =p{i + 1}\n" for i in range(150))
    found = read(("shop: shop.yaml\n", f"shop: shop.yaml\nparameters:\n{row}  p150: 15\n"), ("[20, 15]", "[20, =p0]"))[
        2
    ]
    assert [finding.code for finding in found] == ["parameters-in-a-long-row"]


def test_a_faulty_parameter_brings_no_faults_of_its_stand_in(read: Read) -> None:
    """Two parameters in a circle: nothing is said about holes that would overlap if they were 1."""
    grid = "pattern: {line: {from: [20, 15], dx: =a, count: 2}}"
    found = read(("shop: shop.yaml", "shop: shop.yaml\nparameters: {a: =b, b: =a}"), ("at: [20, 15]", grid))[2]
    assert [finding.code for finding in found] == ["parameters-in-a-circle"]


def test_a_negative_depth_is_told_once(read: Read) -> None:
    """The drill's depth that follows from a thread of depth -5 is not told beside it."""
    change = (HOLE[0] + "    through: true\n", "    tap: M5\n    depth: -5\n")
    assert [finding.code for finding in read(change)[2]] == ["no-amount"]


@pytest.mark.parametrize(
    ("line", "hint"),
    [
        ("drill: 6 \u00b10.1", "diameter: 6 \u00b10.1"),
        ("drill: 5 in", "diameter: 5 in"),
        ("drill: five", "one of these"),
        ("drill: \uff15", "write 5"),
        ("diameter: \u22125", "write -5"),
        ("diameter: =pitch", "parameters:"),
        ("diameter: =12/0", "look at the sign"),
    ],
)
def test_try_is_what_was_meant(read: Read, line: str, hint: str) -> None:
    """The one thing to try fits the slip, and no unit is said twice."""
    found = [finding for finding in read(hole(line))[2] if finding.severity is Severity.ERROR]
    assert hint in found[0].try_
    assert "in in" not in found[0].message


def test_pipe_named_as_shop_is_not_waited_for(read: Read, tmp_path: Path) -> None:
    """A name that leads to no ordinary file is refused at once; reading a pipe would never end."""
    os.mkfifo(tmp_path / "pipe.yaml")
    found = read(("shop: shop.yaml", "shop: pipe.yaml"))[2]
    assert [finding.code for finding in found] == ["file-not-read"]


def test_five_mistakes_give_five_findings(read: Read) -> None:
    """All faults come in one run, each with its place."""
    part, shop, found = read(
        ("revision: A", "revision: A\nrevison: B"),
        ("B: left", "B: bohr"),
        ("fit: 10 H7", "fit: 10 H77"),
        more("screw:\n  kind: hole\n  at: [70, 9]\n  drill: #7\n  through: true\n" + CAP),
    )
    assert part is None
    assert shop is not None
    places = sorted((finding.place.line, finding.code) for finding in found if finding.place)
    assert places == [
        (5, "unknown-key"),
        (15, "unknown-datum"),
        (20, "not-in-tables"),
        (25, "value-is-comment"),
        (30, "height-above-part"),
    ]
    assert all(finding.place and finding.place.column > 0 for finding in found)


def test_nearest_key_is_offered(read: Read) -> None:
    """An unknown key gets the nearest known one that is not taken yet."""
    found = read(("    through: true", "    throu: true"))[2]
    unknown = next(finding for finding in found if finding.code == "unknown-key")
    assert "through" in unknown.try_
    assert unknown.feature == "bore"


def test_only_the_faults_of_its_own_kind(read: Read) -> None:
    """A wrong key of a hole brings no word about pockets."""
    found = read(hole("fit: 10 H7\n    pich: 3"))[2]
    assert [finding.code for finding in found] == ["unknown-key"]


def test_hole_over_the_edge_is_a_caution(read: Read) -> None:
    """A hole that breaks through an edge can be made; it is a caution."""
    part, _, found = read(("at: [20, 15]", "at: [58, 15]"))
    assert part is not None
    assert [(finding.code, finding.severity) for finding in found] == [("hole-breaks-edge", Severity.CAUTION)]


@pytest.mark.parametrize("beside", ["", "floor:\n  kind: level\n  area: all\n  to: 8"])
def test_boss_that_stands_out_of_nothing_is_a_caution(read: Read, beside: str) -> None:
    """A boss whose top is no higher than the metal beside it makes nothing."""
    boss = "peg:\n  kind: round boss\n  at: [45, 25]\n  diameter: 8\n  top: 7\n"
    codes = [finding.code for finding in read(more(boss + beside))[2]]
    assert codes == ["boss-without-effect"]


def test_heights_of_a_mouth_are_told_in_the_unit_of_the_spec(read: Read) -> None:
    """On a round boss a cross hole meets very many heights: the first and the last say enough, and in inches."""
    boss = "peg:\n  kind: round boss\n  at: [1.5, 1]\n  diameter: 0.8\n  top: 0.5\n"
    boss += "f:\n  kind: level\n  area: all\n  to: 0.2\n"
    cross = "c:\n  kind: hole\n  from: right\n  at: {y: 1, z: 0.35}\n  drill: 3 mm\n  depth: 0.2"
    inch = (("units: mm", "units: inch"), ("[64, 44, 13]", "[3.2, 2.2, 0.6]"), ("[60, 40, 12]", "[3, 2, 0.5]"))
    found = read(*inch, ("at: [20, 15]", "at: [0.5, 0.5]"), ("fit: 10 H7", "drill: 6 mm"), more(boss + cross))[2]
    (told,) = [finding for finding in found if finding.code == "mouth-on-two-heights"]
    assert told.found.startswith("from 1.9 to 1.")
    assert told.try_.startswith("write height: 1.9,")


def test_hole_in_a_hole_is_a_stepped_bore(read: Read) -> None:
    """Two holes of one axis and two sizes are no twins."""
    step = more("step:\n  kind: hole\n  at: [20, 15]\n  drill: 13\n  depth: 4")
    assert "hole-twice" not in [finding.code for finding in read(step)[2]]


def test_wrong_unit_is_asked_about(read: Read) -> None:
    """Millimetres read as inches give a part of a metre and a half, and that is asked about."""
    assert "size-unlikely" in [finding.code for finding in read(("units: mm", "units: inch"))[2]]


def test_missing_files(tmp_path: Path) -> None:
    """A spec or shop that is not there, or is a folder, is a finding."""
    for path in (tmp_path / "nowhere.yaml", tmp_path):
        part, shop, found = read_part(path)
        assert (part, shop) == (None, None)
        assert [finding.code for finding in found] == ["file-not-read"]
        assert [finding.code for finding in read_shop(path)[1]] == ["file-not-read"]


def test_symbolic_link_out_of_the_project(tmp_path: Path) -> None:
    """A link that leads out of the project folder is not followed."""
    outside = tmp_path / "outside.yaml"
    outside.write_text("format: 1\n", encoding="utf-8")
    project = tmp_path / "project"
    project.mkdir()
    (project / "shop.yaml").symlink_to(outside)
    (project / "plate.yaml").write_text(PLATE, encoding="utf-8")
    found = read_part(project / "plate.yaml")[2]
    assert [finding.code for finding in found] == ["path-outside-project"]


def test_blank_title_block_is_a_caution(read: Read) -> None:
    """A field left out prints as a blank; that is a caution, not an error."""
    part, _, found = read((", date: 2026-01-02", ""))
    assert part is not None
    assert [(finding.code, finding.severity) for finding in found] == [("title-block-blank", Severity.NOTE)]


def test_no_shop_is_a_caution(read: Read) -> None:
    """Without a shop the part is still read."""
    part, shop, found = read(("shop: shop.yaml\n", ""))
    assert part is not None
    assert shop is None
    assert [finding.code for finding in found] == ["no-shop"]


def test_a_shop_given_as_a_part_is_told_once(tmp_path: Path) -> None:
    """Not each key of a part that a shop lacks, and each key of a shop that a part does not know."""
    (tmp_path / "shop.yaml").write_text(SHOP, encoding="utf-8")
    part, _, findings = read_part(tmp_path / "shop.yaml")
    assert part is None
    assert [finding.code for finding in findings] == ["shop-as-spec"]


def test_a_misspelt_datum_is_told_once(read: Read) -> None:
    """Where zero lies and which face is cut are named by it: neither is found fault with as well."""
    setups = (
        "setups:\n  - {name: s, up: bottom, fixed-jaw: back, zero: {z: {at: A, found: faced}}, do: [face A]}\ndatums:"
    )
    _, _, findings = read(("datums: {A: bottom,", f"{setups} {{A: bottm,"))
    assert [finding.code for finding in findings if finding.severity is Severity.ERROR] == ["unknown-datum"]
