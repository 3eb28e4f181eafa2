"""What authors write for a material, and what is made of it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.tables import loader, material
from setupsheet.tables.unknown import NotInTables


@pytest.mark.parametrize(
    ("text", "name", "group"),
    [
        ("aluminium 6082", "aluminium alloy 6082", "aluminium"),
        ("6061-T6", "aluminium alloy 6061", "aluminium"),
        ("Aluminum 6061 T651 plate", "aluminium alloy 6061", "aluminium"),
        ("EN AW-6082 T6", "aluminium alloy 6082", "aluminium"),
        ("aluminium", "aluminium", "aluminium"),
        ("brass CZ121", "free-machining brass", "free-machining brass"),
        ("CW614N", "free-machining brass", "free-machining brass"),
        ("mild steel", "mild steel", "mild steel"),
        ("steel", "mild steel", "mild steel"),
        ("steel S275JR", "mild steel", "mild steel"),
        ("EN1A", "free-cutting steel", "mild steel"),
        ("EN 1A", "free-cutting steel", "mild steel"),
        ("EN8", "medium carbon steel", "tool steel (annealed)"),
        ("stainless steel 303", "stainless steel", "stainless (austenitic)"),
        ("steel 304", "stainless steel", "stainless (austenitic)"),
        ("cast iron", "grey cast iron", "cast iron (grey)"),
        ("cast-iron", "grey cast iron", "cast iron (grey)"),
        ("EN-GJL-250", "grey cast iron", "cast iron (grey)"),
        ("aluminium bronze", "aluminium bronze", "bronze"),
        ("phosphor bronze PB1", "phosphor bronze", "bronze"),
        ("gauge plate O1", "tool steel", "tool steel (annealed)"),
        ("acetal", "acetal", "acetal"),
        ("POM-C", "acetal", "acetal"),
        ("nylon 66", "nylon", "nylon"),
        ("PETG", "PETG", "PETG"),
    ],
)
def test_usual_words(text: str, name: str, group: str) -> None:
    """Family, grade, temper and form in any order (common practice, no source)."""
    found = material.find(text)
    assert (found.name, found.group, found.note) == (name, group, "")


@pytest.mark.parametrize(
    ("text", "density"),
    [
        ("6061", 2700),  # mechanics-of-materials textbook 5th ed., table 3a
        ("mild steel", 7850),  # density list, steel rolled
        ("phosphor bronze", 8850),  # density list
        ("cast iron", 7200),  # density table of metals: 6600 to 7400
    ],
)
def test_printed_densities(text: str, density: float) -> None:
    """Densities in kg/m3 agree with the print."""
    assert material.find(text).density_kg_m3 == density


def test_an_unknown_grade_of_a_known_family_is_named() -> None:
    """The family's values stand in, and the note says so."""
    found = material.find("aluminium 7020")
    assert found.name == "aluminium"
    assert "7020" in found.note


@pytest.mark.parametrize(
    ("text", "near"),
    [("aluminum6082", "aluminum"), ("bras", "brass"), ("6028", "6082"), ("mildsteel", "mild steel"), ("", "")],
)
def test_unknown_words_offer_the_nearest(text: str, near: str) -> None:
    """Nothing is guessed."""
    with pytest.raises(NotInTables, match="names no material") as caught:
        material.find(text)
    assert caught.value.nearest == near


@pytest.mark.parametrize("text", ["titanium", "unobtainium", "wood", "silver"])
def test_no_other_metal_is_offered_for_one_without_speeds(text: str) -> None:
    """Titanium at the speeds of aluminium burns the drill: what there are speeds for is told, nothing is offered."""
    with pytest.raises(NotInTables, match="there are some for aluminium") as caught:
        material.find(text)
    assert caught.value.nearest == ""


@pytest.mark.parametrize("text", ["brass 6082", "aluminium steel 304", "6061 7075", "brass aluminium"])
def test_two_materials_in_one_line_are_refused(text: str) -> None:
    """A grade of one and the family of another cannot both be meant."""
    with pytest.raises(NotInTables, match="names two materials"):
        material.find(text)


def test_names_and_materials_fit_together() -> None:
    """Every alias leads to a material with a group; no alias stands twice; each alias is found."""
    names = [row["name"] for row in loader.rows("materials")]
    aliases = [row["alias"] for row in loader.rows("material_names")]
    assert len(set(names)) == len(names)
    assert len(set(aliases)) == len(aliases)
    for row in loader.rows("material_names"):
        if row["material"]:
            assert material.find(row["alias"]).name == row["material"]


@given(st.text(max_size=20))
def test_any_text_is_found_or_refused(text: str) -> None:
    """No other exception leaves the look-up, and what it finds has a weight."""
    try:
        found = material.find(text)
    except NotInTables:
        return
    assert found.density_kg_m3 > 900
