"""The loader takes sound tables and refuses, with the place named, those that are not."""

from __future__ import annotations

from pathlib import Path

import pytest

import setupsheet.tables
from setupsheet.tables import loader
from setupsheet.tables.loader import BadTable

TABLES = sorted(path.stem for path in Path(setupsheet.tables.__file__).parent.glob("*.csv"))


def read(text: str) -> tuple[loader.Row, ...]:
    """Read CSV text as if it were a file of the table folder."""
    return loader.checked(text.splitlines(), "bad")


@pytest.mark.parametrize("name", TABLES)
def test_every_table_passes_the_checks(name: str) -> None:
    """Each CSV beside the loader has sources, units and at least one row."""
    assert loader.rows(name)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "empty"),
        ("name,value_um\na,1", "no column 'source'"),
        ("name,value_um,source\na,1,", "line 2: no source"),
        ("name,value_um,source\na,1,x\nb,2,  ", "line 3: no source"),
        ("name,value,source\na,1,x\nb,-2.5,x", "column 'value' holds numbers"),
        ("name,wide,source\na,1,x\nb,,x", "column 'wide' holds numbers"),
        ("name,name,source\na,1,x", "two columns have one name"),
        ("name,value_um,source\na,1", "2 cells under 3 columns"),
        ("name,value_um,source\na,1,x,y", "4 cells under 3 columns"),
    ],
)
def test_a_bad_table_is_refused(text: str, says: str) -> None:
    """Each broken rule is refused with a text that names it."""
    with pytest.raises(BadTable, match=says):
        read(text)


def test_words_and_mixed_columns_need_no_unit() -> None:
    """A column with a word in it is a name, not a quantity."""
    assert read("size,source\n1,x\n#2,x")[1]["size"] == "#2"


@pytest.mark.parametrize("column", ["over_mm", "start_m_min", "use_kg_m3", "feed_mm_rev", "grade", "factor", "tpi"])
def test_names_with_a_unit(column: str) -> None:
    """A unit may stand alone, at the end or as a quotient of two."""
    assert loader.has_unit(column)


@pytest.mark.parametrize("column", ["over", "value", "mmm", "min", "inside"])
def test_names_without_a_unit(column: str) -> None:
    """Letters that only contain a unit's letters are no unit."""
    assert not loader.has_unit(column)


@pytest.mark.parametrize(
    ("ranges", "says"),
    [
        ([("0", "3"), ("4", "6")], "nothing between 3 and 4 mm"),
        ([("0", "3"), ("2", "6")], "overlap"),
        ([("0", "3"), ("0", "3")], "overlap"),
        ([("4", "6"), ("0", "3")], "nothing between"),
        ([("3", "3")], "is none"),
        ([("6", "3")], "is none"),
        ([("", "3")], "needs numbers"),
    ],
)
def test_gaps_and_overlaps_are_refused(ranges: list[tuple[str, str]], says: str) -> None:
    """Ranges of one group must meet end to end."""
    table = [{"letter": "a", "over_mm": over, "upto_mm": upto} for over, upto in ranges]
    with pytest.raises(BadTable, match=says):
        loader.check_ranges(table, ("letter",))


def test_groups_are_looked_at_apart() -> None:
    """The same range in two groups is no overlap, and a group may start anywhere."""
    table = [
        {"letter": x, "over_in": o, "upto_in": u} for x, o, u in [("a", "0", "3"), ("b", "1", "3"), ("b", "3", "inf")]
    ]
    loader.check_ranges(table, ("letter",), "in")


def test_a_range_holds_its_upper_end() -> None:
    """A size on an edge belongs to the range that ends there (ISO 286-1: over 3 up to and including 6)."""
    table = [{"over_mm": "0", "upto_mm": "3", "v": "a"}, {"over_mm": "3", "upto_mm": "6", "v": "b"}]
    found = [loader.find(table, size) for size in (3.0, 3.0001, 6.0)]
    assert [row["v"] if row else None for row in found] == ["a", "b", "b"]
    assert loader.find(table, 6.01) is None
