"""The chain of cutters: what is taken, in which order, and the truth about what comes out."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setupsheet.length import Unit
from setupsheet.part.shop import Cutter, Shop
from setupsheet.plan.chain.chain import OPERATIONS, Chain, HoleNeed, pick_chain
from setupsheet.plan.chain.record import VERDICTS
from setupsheet.tables import drills as drill_table
from setupsheet.tables import loader, reaming, threads
from tests.plan import hole_cases as case

BENCH = case.shop(
    *case.drills(10, 130),
    case.spot_drill(8.0),
    case.countersink(16.0),
    case.reamer(12.0),
    case.tap("M5"),
    Cutter("end mill", "end mill 10", 10.0),
    head=case.HEAD,
)


def steps_of(chain: Chain) -> list[tuple[str, str]]:
    """Return operation and cutter of each step."""
    return [(step.operation, step.cutter.label) for step in chain.steps]


def test_the_bearing_bore_of_a_bracket() -> None:
    """12 H7 in aluminium: spot, pilot, 11.7, chamfers, ream; 0.3 left is inside the table (S55, S56)."""
    chamfers = (case.chamfer(13.0), case.chamfer(13.0, "exit"))
    need = replace(case.need("12 H7", group="aluminium"), chamfers=chamfers, mate="bush 12 r6")
    chain = pick_chain(need, BENCH)
    assert steps_of(chain) == [
        ("spot", "spot drill 8 x 90"),
        ("pilot", "drill 6"),
        ("drill", "drill 11.7"),
        ("chamfer", "countersink 16 x 90"),
        ("chamfer", "countersink 16 x 90"),
        ("ream", "reamer 12 H7"),
    ]
    assert chain.verdict == "inside"
    assert (chain.result_lower_mm, chain.result_upper_mm) == pytest.approx((12.008, 12.018))
    assert "after pressing" in chain.words[0]


@pytest.mark.parametrize(
    ("mate", "said"), [("bush 12 r6", 1), ("bush, pressed", 1), ("bush 12 g6", 0), ("pin 12 r6", 0)]
)
def test_only_a_bush_that_is_pressed_in_closes_in(mate: str, said: int) -> None:
    """A bush that slides in keeps its bore, and a pressed pin has no bore that could close in."""
    words = pick_chain(replace(case.need("12 H7", group="aluminium"), mate=mate), BENCH).words
    assert sum("after pressing" in text for text in words) == said


def test_tapped_hole_with_the_chamfer_made_by_the_spot() -> None:
    """M5: the 8 mm spot makes the mouth of 5.5, the other end gets a countersink, then the tap."""
    need = replace(case.need("M5", depth_mm=None), chamfers=(case.chamfer(5.5), case.chamfer(5.5, "exit")))
    chain = pick_chain(need, BENCH)
    assert [step.operation for step in chain.steps] == ["spot", "drill", "chamfer", "tap"]
    assert chain.steps[0].diameter_mm == 5.5
    assert (chain.steps[1].diameter_mm, chain.steps[2].end) == (4.2, "exit")
    assert chain.thread_percent == pytest.approx(77.0, abs=0.05)  # S06, S07: 77 % beside M5, 4.2


def test_a_blind_thread_drilled_from_the_mouth() -> None:
    """M6, 12 of thread: 12 turns of the tap and 4 pitches of lead for a second tap (F27, from memory)."""
    chain = pick_chain(case.need("M6", depth_mm=12.0), BENCH)
    assert chain.tap is not None
    assert (chain.tap.turns, chain.tap.kind, chain.tap.drilled_depth_mm) == (12.0, "second", 16.0)
    assert chain.tap.enough_thread is True
    assert chain.steps[-1].cutter.owned is False


def test_a_blind_thread_with_little_room_wants_a_bottoming_tap() -> None:
    """Two pitches below the full thread are too few for a second tap, one is too few for any."""
    low = replace(case.need("M6", depth_mm=10.0), drill_depth_mm=12.0)
    none = replace(low, drill_depth_mm=10.5)
    first, second = pick_chain(low, BENCH).tap, pick_chain(none, BENCH).tap
    assert first is not None
    assert second is not None
    assert first.kind == second.kind == "bottoming"
    assert any("no room" in word for word in second.words)


def test_short_thread_is_said() -> None:
    """5 mm of thread in steel is under one diameter of M6 (common practice)."""
    chain = pick_chain(case.need("M6", depth_mm=5.0), BENCH)
    assert chain.tap is not None
    assert chain.tap.enough_thread is False
    assert any("Only 5" in word for word in chain.steps[-1].words)


def test_a_nearer_owned_drill_says_its_effect() -> None:
    """Without a no. 21 a 4.1 is taken for 10-32 UNF: 70 % instead of 76 % (S06, S07)."""
    chain = pick_chain(case.need("10-32 UNF"), BENCH)
    assert chain.steps[1].diameter_mm == 4.1
    assert chain.thread_percent == pytest.approx(70.4, abs=0.1)
    assert any("no. 21 (76 %)" in word and "easier" in word for word in chain.words)


def test_the_table_s_drill_is_got_where_no_owned_one_will_do() -> None:
    """With 5.0 and 5.5 alone, 1/4-20 UNC (.196 to .207 in, S15) gets a no. 7."""
    chain = pick_chain(case.need("1/4-20 UNC"), case.shop(case.drill(4.9), case.drill(5.5)))
    assert (chain.steps[1].cutter.label, chain.steps[1].cutter.owned) == ("drill no. 7", False)


def test_clearance_takes_the_drill_at_or_just_above() -> None:
    """M4 medium is 4.5 to 4.68: a 4.6 is taken where there is no 4.5, a 4.4 never."""
    own = case.shop(case.drill(4.4), case.drill(4.6))
    assert pick_chain(case.need("M4 medium"), own).steps[-1].cutter.label == "drill 4.6"
    assert pick_chain(case.need("M4 medium"), BENCH).steps[-1].cutter.label == "drill 4.5"
    far = pick_chain(case.need("M4 medium"), case.shop(case.drill(4.4)))
    assert (far.steps[-1].cutter.label, far.steps[-1].cutter.owned) == ("drill 4.5 mm", False)


def test_a_drill_that_leaves_too_much_is_not_used_before_the_reamer() -> None:
    """11.0 leaves 1.0 where the table wants 0.2 to 0.3: the right drill is named, the papers go on."""
    own = case.shop(case.drill(11.0), case.drill(11.9), case.reamer(12.0), case.spot_drill(8.0))
    chain = pick_chain(case.need("12 H7"), own)
    drill = next(step for step in chain.steps if step.operation == "drill")
    assert (drill.diameter_mm, drill.cutter.owned) == (11.7, False)
    assert any("get this one" in word for word in drill.words)
    assert chain.verdict == "inside"


def test_a_boring_head_takes_the_drill_s_place_before_the_reamer() -> None:
    """With a boring head and no fitting drill the stock is bored, not drilled."""
    own = case.shop(case.drill(10.0), case.drill(11.0), case.reamer(12.0), head=case.HEAD)
    chain = pick_chain(case.need("12 H7"), own)
    assert [step.operation for step in chain.steps if step.cutter.kind == "boring head"] == ["bore"]
    assert all(step.cutter.owned for step in chain.steps if step.operation in ("drill", "bore", "ream"))


def test_a_measured_reamer_speaks_for_itself() -> None:
    """A 12 mm reamer that measures 12.016 cuts up to 12.022: partly outside H7."""
    chain = pick_chain(case.need("12 H7"), case.shop(case.reamer(12.0, measured_mm=12.016)))
    other = pick_chain(case.need("12 H7"), case.shop(case.reamer(12.0, measured_mm=12.009)))
    assert chain.steps[-1].cutter.owned is False
    assert other.steps[-1].cutter.owned is True
    assert other.verdict == "inside"


def test_no_tool_reaches_h5_and_the_way_is_named() -> None:
    """10 H5 is finer than reaming or boring here (IT5 = 6 µm): partly, by how much, and what would."""
    chain = pick_chain(case.need("10 H5"), BENCH)
    assert chain.verdict == "partly"
    assert "too large" in chain.how_much
    assert "reamer" in chain.what_would


def test_a_bore_far_over_the_thickest_drill_is_roughed_out() -> None:
    """400 H7 after a drill of 1 in says that something opens it in between; 26 H6 after 25 does not."""
    large, small = (pick_chain(case.need(text), None).steps[-1] for text in ("400 H7", "26 H6"))
    assert large.words[0].startswith("Rough it out from 25.4")
    assert not any("Rough" in word for word in small.words)


def test_counterbore_after_the_drill_with_the_end_mill() -> None:
    """A 10 mm counterbore is cut by the owned end mill of that size, to its depth below the mouth."""
    chain = pick_chain(replace(case.need("M5 medium"), counterbore=case.counterbore(10.0, 5.4)), BENCH)
    step = chain.steps[-1]
    assert (step.operation, step.cutter.label, step.depth_kind, step.depth_mm) == (
        "counterbore",
        "end mill 10",
        "fixed",
        5.4,
    )


def test_a_counterbore_goes_before_an_end_mill_and_its_pilot_must_enter() -> None:
    """An owned counterbore is liked best, but not one whose pilot is thicker than the hole."""
    fits = Cutter("counterbore", "counterbore 10", 10.0, pilot_mm=5.4)
    thick = Cutter("counterbore", "counterbore 10 for M6", 10.0, pilot_mm=6.4)
    need = replace(case.need("M5 medium"), counterbore=case.counterbore(10.0, 5.4))
    for cutter, label in ((fits, "counterbore 10"), (thick, "end mill 10")):
        own = case.shop(cutter, Cutter("end mill", "end mill 10", 10.0), case.drill(5.5))
        assert pick_chain(need, own).steps[-1].cutter.label == label


def test_countersink_angle_must_be_the_screw_s() -> None:
    """An 82 degree sink is not cut with a 90 degree countersink."""
    need = replace(case.need("#8 normal", Unit.INCH), countersink=case.sink(9.1, 82.0))
    step = pick_chain(need, BENCH).steps[-1]
    assert step.operation == "countersink"
    assert (step.cutter.owned, step.cutter.point_angle_deg) == (False, 82.0)


def test_an_exit_chamfer_does_not_widen_the_spot() -> None:
    """A chamfer at the far end gives the spot no leave; drilled from there it does."""
    need = replace(case.need("M5"), chamfers=(case.chamfer(5.5, "exit"),))
    assert pick_chain(need, BENCH).steps[0].diameter_mm == 4.2
    assert pick_chain(replace(need, started_from="exit"), BENCH).steps[0].diameter_mm == 5.5


def test_a_taper_pipe_thread_is_reamed_where_the_reamer_is() -> None:
    """1/4 NPT: 27/64, taper reamer, tap (S70); straight from 7/16 (S18, S20) in a shop without that reamer."""
    need = case.need("1/4 NPT")
    reamer = Cutter("taper reamer", "taper reamer 1/4-18 NPT", 11.36, thread="1/4-18 NPT")
    with_it = pick_chain(need, case.shop(reamer))
    assert steps_of(pick_chain(need, None))[2:] == steps_of(with_it)[2:]
    assert steps_of(with_it)[-3:] == [
        ("drill", "drill 27/64"),
        ("taper ream", "taper reamer 1/4-18 NPT"),
        ("tap", "tap 1/4-18 NPT"),
    ]
    assert any("7/16" in words for words in with_it.words)
    assert "4 turns by hand" in with_it.steps[-1].words[0]  # L1 = .2278 in, 18 threads an inch (ASME B1.20.1)
    straight = case.drill(11.1125)
    assert steps_of(pick_chain(need, case.shop(reamer, straight)))[-2][1] == straight.label
    without = pick_chain(need, BENCH)
    assert steps_of(without)[-2:] == [("drill", "drill 7/16"), ("tap", "tap 1/4-18 NPT")]
    assert any("27/64" in words for words in without.words)


@pytest.mark.parametrize("size", ["1/16", "1/8", "1/4", "3/8", "1/2"])
def test_a_reamed_pipe_thread_wants_a_thinner_drill(size: str) -> None:
    """With the reamer the drill is never thicker than the one to tap straight from, and lies inside the limits."""
    with_it, without = (pick_chain(case.need(f"{size} NPT"), shop) for shop in (None, BENCH))
    assert with_it.steps[-3].diameter_mm <= without.steps[-2].diameter_mm
    assert (with_it.verdict, without.verdict) == ("inside", "inside")


def test_nothing_at_all_in_the_shop() -> None:
    """Without a shop every cutter is one to get, and the limits are still reached."""
    for text in ("M5", "12 H7", "M6 medium", "6.5 mm", "1/4 NPT", "6BA"):
        chain = pick_chain(case.need(text), None)
        assert chain.verdict == "inside"
        assert not any(step.cutter.owned for step in chain.steps)


TEXTS = (
    "M5",
    "M8x1",
    "M3",
    "10-32 UNF",
    "1/4-20 UNC",
    "5/16-27 UNS",
    "1/4 NPT",
    "G1/4",
    "6BA",
    "1/4-40 ME",
    "12 H7",
    "12 H8",
    "6 H7",
    "10 H6",
    "20 H11",
    "30 H7",
    "8 N7",
    "5 G6",
    "60 H7",
    "M4 medium",
    "M6 fine",
    "#10 clearance normal",
    "M20 coarse",
    "no. 7",
    "1/4",
    "6.5 mm",
    "12.37",
    "0.9",
    "28",
)

_SIZES = st.sampled_from([tenth / 10.0 for tenth in range(9, 260, 2)] + [5.1054, 6.35, 4.0386, 11.7, 5.7, 11.9])
_CUTTERS = st.one_of(
    _SIZES.map(case.drill),
    st.builds(
        case.reamer,
        st.sampled_from([5.0, 6.0, 8.0, 10.0, 12.0, 20.0]),
        st.sampled_from(["H7", "H8", ""]),
        st.sampled_from([None, 12.006, 12.012]),
    ).map(lambda one: one if one.measured_mm is None or one.diameter_mm == 12.0 else replace(one, measured_mm=None)),
    st.sampled_from([3.0, 6.0, 8.0, 12.0]).map(case.spot_drill),
    st.sampled_from([8.0, 16.0, 25.0]).map(case.countersink),
    st.sampled_from(["M5", "M8x1", "10-32 UNF", "1/4-20 UNC"]).map(case.tap),
    st.sampled_from([6.0, 10.0, 11.0]).map(lambda size: Cutter("end mill", f"end mill {size:g}", size)),
    st.just(Cutter("counterbore", "counterbore 11", 11.0, pilot_mm=6.6)),
    st.just(Cutter("taper reamer", "taper reamer 1/4-18 NPT", 11.359, thread="1/4-18 NPT")),
    st.sampled_from([10.715625, 11.1125]).map(case.drill),
)
_SHOPS = st.builds(
    lambda cutters, head: case.shop(*cutters, head=head),
    st.lists(_CUTTERS, max_size=14),
    st.sampled_from([None, case.HEAD]),
)


@st.composite
def needs(draw: st.DrawFn) -> HoleNeed:
    """Draw a need: any callout, blind or through, with or without chamfers, counterbore, sink."""
    depth = draw(st.sampled_from([None, 3.0, 12.0, 50.0]))
    need = replace(
        case.need(draw(st.sampled_from(TEXTS)), Unit.MM, "aluminium", depth), unit=draw(st.sampled_from(Unit))
    )
    wide = need.diameter.nominal_mm
    chamfers = draw(st.sampled_from([(), (1.0,), (1.0, 1.0)]))
    ends = [case.chamfer(wide + more, end) for more, end in zip(chamfers, ("mouth", "exit"), strict=False)]
    bore = case.counterbore(wide + 4.0, 3.0) if draw(st.booleans()) else None
    sink = case.sink(wide * 2.0) if draw(st.booleans()) else None
    return replace(need, chamfers=tuple(ends), counterbore=bore, countersink=sink)


@given(needs(), _SHOPS)
@settings(deadline=None)
def test_a_pick_never_names_a_cutter_that_is_nowhere(need: HoleNeed, shop: Shop) -> None:
    """Every cutter of a chain is in the shop, or a size of the tables that is marked as not owned."""
    for step in pick_chain(need, shop).steps:
        if step.cutter.owned and step.cutter.kind != "boring head":
            assert step.cutter in shop.cutters
        elif step.cutter.owned:
            assert shop.boring_head is not None
        else:
            assert in_tables(step.cutter), step


def in_tables(cutter: Cutter) -> bool:
    """Tell whether a cutter to get is a standard one; a boring head and a tap have no size list."""
    if cutter.kind == "drill":
        return any(abs(size.diameter_mm - cutter.diameter_mm) < 1e-9 for size in drill_table.sizes())
    if cutter.kind == "reamer":
        return any(abs(size.diameter_mm - cutter.diameter_mm) < 1e-9 for size in reaming.sizes())
    if cutter.kind == "counterbore":
        return any(abs(float(row["diameter_mm"]) - cutter.diameter_mm) < 1e-9 for row in loader.rows("counterbores"))
    if cutter.kind == "tap":
        return threads.find(cutter.thread).designation == cutter.thread
    if cutter.kind in ("spot drill", "countersink"):
        rows = [row for row in loader.rows("pointed_cutters") if row["kind"] == cutter.kind]
        return any(float(row["diameter_mm"]) == cutter.diameter_mm for row in rows)
    return cutter.kind == "boring head"


@given(needs(), _SHOPS, st.lists(_CUTTERS, max_size=6), st.booleans())
@settings(deadline=None)
def test_more_tools_never_make_it_worse(need: HoleNeed, shop: Shop, more: list[Cutter], head: bool) -> None:
    """A larger shop gets the same verdict or a better one, and never reaches further out of the limits."""
    larger = replace(shop, cutters=(*shop.cutters, *more), boring_head=case.HEAD if head else shop.boring_head)
    before, after = pick_chain(need, shop), pick_chain(need, larger)
    assert VERDICTS.index(after.verdict) <= VERDICTS.index(before.verdict)
    if after.verdict == before.verdict:
        assert out(after) <= out(before) + 1e-9


def out(chain: Chain) -> float:
    """Return how far a chain's result reaches outside its limits (mm)."""
    if chain.required_lower_mm is None or chain.required_upper_mm is None:
        return 0.0
    return max(chain.required_lower_mm - chain.result_lower_mm, chain.result_upper_mm - chain.required_upper_mm, 0.0)


@given(needs(), _SHOPS)
@settings(deadline=None)
def test_chains_keep_the_order_of_work_and_their_own_word(need: HoleNeed, shop: Shop) -> None:
    """Steps follow the trade's order, the spot is never wider than hole and chamfer, the verdict is true."""
    chain = pick_chain(need, shop)
    places = [OPERATIONS.index(step.operation) for step in chain.steps]
    assert places == sorted(places)
    widest = max(
        [need.diameter.upper_mm, *(chamfer.diameter_mm for chamfer in need.chamfers if chamfer.end == "mouth")]
    )
    assert chain.steps[0].diameter_mm <= widest + 1e-9
    assert (out(chain) <= 1e-6) == (chain.verdict == "inside")
    made = {step.operation: step.diameter_mm for step in chain.steps}
    if "ream" in made:
        before = made.get("bore", made.get("drill", 0.0))
        stock = reaming.stock(made["ream"], need.material_group)
        assert stock.least_mm - 1e-6 <= made["ream"] - before <= stock.limit_mm + 1e-6


@given(needs(), _SHOPS, st.randoms(use_true_random=False))
@settings(deadline=None)
def test_the_order_of_the_drawer_does_not_matter(need: HoleNeed, shop: Shop, chance: object) -> None:
    """The same cutters in another order give the same chain."""
    mixed = list(shop.cutters)
    getattr(chance, "shuffle")(mixed)  # noqa: B009 - hypothesis gives its own kind of chance
    assert pick_chain(need, shop) == pick_chain(need, replace(shop, cutters=tuple(mixed)))
