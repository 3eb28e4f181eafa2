"""The HTML file: every number has its place in the plan, nothing is fetched, hostile texts stay texts."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from setupsheet.papers.html import css_string, page_html
from setupsheet.papers.setup_sheet import sheets
from setupsheet.plan.record import Plan, as_json
from tests.papers.reading_html import page, shown_at
from tests.papers.small_plan import PLACES, plan, views

COUNTS = {"count", "in", "note", "screen", "h2", "h3", "title", "order", "style", "script"}
"""Where a number without a place in the plan may stand: counts of pages, setups and steps, and notes."""

HOSTILE = [
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "</style><style>*{display:none}",
    "{{ sheets }} {% raw %}",
    "W" * 300,
    "\u202egnp.exe",
    "nut \U0001f529 & bolt",
]


def html_of(made: Plan) -> str:
    """Return the HTML of a plan."""
    return page_html(sheets(made, views()))


def test_every_value_stands_in_the_plan_as_it_is_printed() -> None:
    """Each pointer resolves in plan.json, and the text beside it is the one printed."""
    made = plan()
    document = as_json(made)
    found = page(html_of(made)).values
    assert len(found) > 150
    wrong = [(pointer, text) for pointer, text in found if shown_at(document, pointer) != text]
    assert wrong == []


def test_numbers_without_a_place_are_counts() -> None:
    """A digit outside of a value stands only in a count of pages, setups or steps, or in a note."""
    loose = page(html_of(plan())).loose
    assert [(text, where) for text, where in loose if re.search(r"\d", text) and not COUNTS & set(where)] == []


def test_every_reading_of_the_plan_is_printed() -> None:
    """All positions, stops, points, depths, zeros and limits of the plan stand on the pages."""
    made = plan()
    printed = {pointer for pointer, _ in page(html_of(made)).values}
    for s, setup in enumerate(made.setups):
        at = f"/setups/{s}"
        wanted = {f"{at}/zero/{i}/key_in" for i in range(3)}
        wanted |= {f"{at}/steps/3/positions/{i}/{axis}" for i in range(len(PLACES)) for axis in "xy"}
        wanted |= {f"{at}/steps/1/limits/0/shown", f"{at}/steps/1/z_shown/0", f"{at}/steps/1/z_shown/1"}
        wanted |= {f"{at}/steps/2/points/{i}/{key}" for i in range(5) for key in ("shown_step", "shown_stop")}
        wanted |= {f"{at}/steps/{i}/number" for i in range(len(setup.steps))}
        wanted |= {f"{at}/edges/{i}/shown" for i in range(len(setup.edges))}
        assert wanted <= printed
    assert {f"/measure/{i}/shown" for i in range(len(made.measure))} <= printed


def test_html_makes_no_request() -> None:
    """No address leads out of the file, and the content policy forbids any."""
    html = html_of(plan())
    found = page(html)
    assert not {"link", "img", "iframe", "object", "embed", "base", "form", "use"} & set(found.tags)
    outward = [a for a in found.attributes if a[1] in ("src", "href", "srcset", "action", "data", "poster", "style")]
    assert [a for a in outward if not a[2].startswith("#")] == []
    assert set(re.findall(r"url\(\s*[\"']?([a-z]+):", html)) == {"data"}
    assert "@import" not in html
    assert "fetch(" not in html
    assert "XMLHttpRequest" not in html
    policy = next(value for tag, name, value in found.attributes if tag == "meta" and value.startswith("default-src"))
    assert policy.startswith("default-src 'none'")
    assert "unsafe" not in policy


def test_links_lead_to_places_on_the_page() -> None:
    """Each link's target exists, and no name is given twice."""
    found = page(html_of(plan()))
    names = [value for _, name, value in found.attributes if name == "id"]
    assert len(names) == len(set(names))
    assert {value[1:] for tag, name, value in found.attributes if tag == "a" and name == "href"} <= set(names)


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_text_is_shown_as_text(text: str) -> None:
    """A name, a note, a label or a title that looks like markup neither adds an element nor an attribute."""
    made = plan()
    first = made.setups[0]
    step = replace(first.steps[0], title=text, words=(text,))
    spoiled = replace(first, name=text, mark=text, steps=(step, *first.steps[1:]), mark_label=text, cautions=(text,))
    bad = replace(made, part=text, number=text, notes=(text,), setups=(spoiled, made.setups[1]))
    found, clean = page(html_of(bad)), page(html_of(made))
    assert sorted(set(found.tags)) == sorted(set(clean.tags))
    assert {name for _, name, _ in found.attributes} == {name for _, name, _ in clean.attributes}
    assert ("/part", text) in found.values


VERDICTS = [
    ("Proved", True, (), True),
    ("Proved, but for hand work", True, ("edges by hand",), True),
    ("Not proved", False, (), True),
    ("not tried by cutting", False, (), False),
]
"""What the front page says about the proof: proved, what is left to hand work, whether it was tried."""


@pytest.mark.parametrize(("words", "proved", "by_hand", "tried"), VERDICTS)
def test_front_page_says_how_far_it_is_proved(words: str, proved: bool, by_hand: tuple[str, ...], tried: bool) -> None:
    """All states of the verdict: proved, proved but for hand work (which is named), not proved, not tried."""
    made = plan()
    assert made.replay is not None
    verdict = replace(made.replay, proved=proved, words=("a gouge of 2 mm3 in setup 1",))
    html = html_of(replace(made, not_proved=by_hand, replay=verdict if tried else None))
    box = html[html.index('<div class="verdict') : html.index("</header>")]
    assert words in box
    assert ("unproved" in box) == (not proved)
    assert ("Hand work, not proved:" in html) == bool(by_hand)
    assert ("a gouge of 2 mm3" in html) == tried


def test_css_string_lets_nothing_end_the_string() -> None:
    """Quotes, backslashes, braces and line ends are escapes."""
    assert css_string('a"}\n\\ b') == "a\\000022\\00007d\\00000a\\00005c b"


def test_equal_plans_give_equal_bytes() -> None:
    """The file depends on the plan alone."""
    assert html_of(plan()) == html_of(plan())


def test_pages_have_landmarks_and_headings() -> None:
    """A reader that hears the page finds its parts: main, nav, one h1, a heading for each section."""
    found = page(html_of(plan()))
    assert found.tags.count("main") == found.tags.count("nav") == found.tags.count("h1") == 1
    named = {value for _, name, value in found.attributes if name == "aria-labelledby"}
    assert named <= {value for _, name, value in found.attributes if name == "id"}
    assert "th" in found.tags


def test_each_part_of_a_set_has_its_own_places() -> None:
    """Three parts: each size has three numbered places, the front page asks for numbers; one part has one place."""
    one, three = html_of(plan()), html_of(replace(plan(), quantity=3))
    sizes = len(plan().measure)
    assert one.count('data-blank="') == sizes
    assert three.count('data-blank="') == 3 * sizes
    assert [f'data-blank="m1-{number}"' in three for number in (1, 2, 3, 4)] == [True, True, True, False]
    assert "stamp each with a number of its own" in three
    assert "stamp each with a number of its own" not in one


def test_setups_with_the_same_face_up_are_told_apart() -> None:
    """Setups that lie alike have their names in their headings; where the faces up differ, none has."""
    made = plan()
    ups = [html for html in _headings(made) if "," not in html]
    assert len(ups) == len({*ups}) == len(made.setups) > 1
    alike = tuple(
        replace(s, up=made.setups[0].up, name=f"{word} end") for s, word in zip(made.setups, "ab", strict=True)
    )
    assert _headings(replace(made, setups=alike)) == [f"{ups[0]}, a end", f"{ups[0]}, b end"]


def _headings(made: Plan) -> list[str]:
    """Return the headings of the setups as they are read."""
    return [re.sub(r"<[^>]*>", "", head) for head in re.findall(r'<h2 id="setup-\d-title">(.*?)</h2>', html_of(made))]
