"""Trials of the checks on datums, zeros, order, stock and measuring."""

from __future__ import annotations

from dataclasses import replace

from tests.plan.checks.trial import Case, Setup, Spec

PLATE = Spec()
TO_FRONT = "h: {kind: hole, at: [20, 20], drill: 5, through: true, position: 0.2 to C}"
FRONT = Setup("face C", up="front", back="bottom", grip=12)
BORE = "bore: {kind: hole, at: [30, 20], fit: 6 H7, through: true}"
INDICATED = (("x", "{at: bore, found: indicate bore}"), ("y", "{at: bore, found: indicate bore}"))
HOLE_AND_SLOT = (
    "h: {kind: hole, at: [20, 20], drill: 5, through: true}\n"
    "s: {kind: slot, centres: [[30, 20], [45, 20]], width: 6, depth: 3}"
)
_BESIDE = (("h", 10, 20), ("k", 50, 20))
FACED = (("bottom", 1), ("top", 1))


def _to_bore(zone: float) -> Spec:
    features = f"{BORE}\nh: {{kind: hole, at: [12, 9], drill: 5, through: true, position: {zone} to D}}"
    setups = (Setup("bore"), Setup("h", up="bottom"))
    return Spec(features, setups, datums="A: bottom, B: left, C: front, D: bore")


def _on_dials(at: str) -> Spec:
    features = "".join(
        f"{name}: {{kind: hole, at: [{x}, {y}], drill: 5, through: true}}\n" for name, x, y in (("m", 30, 20), *_BESIDE)
    )
    zero = (("x", f"{{at: {at}, found: stock left}}"),)
    return Spec(features, (Setup("all holes", zero=zero),), shop_file="dial-shop.yaml")


def _noted(note: str) -> Spec:
    row = "{line: {from: [10, 20], dx: 10, count: 4}}"
    return Spec(f'h: {{kind: hole, pattern: {row}, drill: 5, through: true, note: "{note}"}}')


def _towards(depth: float) -> Spec:
    one = "h: {kind: hole, at: [20, 20], drill: 5, depth: 6}"
    other = f"z: {{kind: hole, at: [20, 20], from: bottom, drill: 5, depth: {depth:g}}}"
    return Spec(f"{one}\n{other}", (Setup("h"), Setup("z", up="bottom")))


def _pair(y: float) -> Spec:
    pair = f"h: {{kind: hole, pattern: {{list: [[10, {y}], [50, {y}]]}}, drill: 5, through: true}}"
    features = f"{pair}\nz: {{kind: hole, at: [33, 20], from: bottom, drill: 3, depth: 4}}"
    return Spec(features, (Setup("h"), Setup("z", up="bottom", check_first="h")))


def _both_sides(datum: str) -> Spec:
    features = f"h: {{kind: hole, at: [20, 20], drill: 5, through: true, position: 0.2 to {datum}}}"
    sides = (("left", 2), ("right", 2), ("front", 2), ("back", 2), *FACED)
    setups = (Setup("face A, outline", up="bottom"), Setup("face top, outline, h"))
    return Spec(features, setups, remove=sides, form="plate")


def _level_after(height: float) -> Spec:
    feature = f"a: {{kind: level, area: all, to: {height}}}"
    return Spec(feature, (Setup("face A", up="bottom"), Setup("face top, a")), remove=FACED, form="plate")


def _late(bore: str, first: str) -> Spec:
    features = (
        f"{BORE}\nh: {{kind: hole, at: [12, 9], drill: 5, depth: 5}}\n"
        "k: {kind: hole, at: [45, 30], from: bottom, drill: 3, depth: 4}\n"
        "m: {kind: hole, at: [50, 12], drill: 3, depth: 4}"
    )
    return Spec(features, (Setup(first), Setup(bore, up="bottom"), Setup("m", zero=INDICATED)))


CASES = {
    "count-told-otherwise": Case(_noted("five holes for the hinge"), _noted("4 holes, 2 of them for the hinge")),
    "zero-amid-places": Case(_on_dials("m"), _on_dials("h")),
    "datum-removed": Case(
        Spec("a: {kind: level, area: all, to: 8}", (Setup("a"),), datums="A: bottom, B: left, C: front, D: top"),
        Spec(
            "a: {kind: level, area: {box: {x: [0, 55], y: [0, 40]}}, to: 8}",
            (Setup("a"),),
            datums="A: bottom, B: left, C: front, D: top",
        ),
    ),
    "edge-not-touchable": Case(
        replace(PLATE, size=(60, 40, 5.5), setups=(Setup("h", grip=4),)),
        replace(PLATE, size=(60, 40, 6), setups=(Setup("h", grip=4),)),
    ),
    "datum-made-after-use": Case(
        Spec(TO_FRONT, (Setup("h"), FRONT), remove=(("front", 2),)),
        Spec(TO_FRONT, (FRONT, Setup("h")), remove=(("front", 2),)),
    ),
    "position-chain-too-long": Case(_to_bore(0.2), _to_bore(0.3)),
    "position-finer-than-process": Case(
        Spec("h: {kind: hole, at: [20, 20], drill: 5, through: true, position: 0.08 to B}"),
        Spec("h: {kind: hole, at: [20, 20], drill: 5, through: true, position: 0.1 to B}"),
    ),
    "feature-cuts-nothing": Case(_level_after(12), _level_after(11.9)),
    "feature-in-no-setup": Case(
        Spec(HOLE_AND_SLOT, (Setup("h"),)),
        Spec(HOLE_AND_SLOT, (Setup("h, s"),)),
    ),
    "face-never-cut": Case(
        replace(PLATE, remove=(("top", 1),)), replace(PLATE, remove=(("top", 1),), setups=(Setup("face top, h"),))
    ),
    "no-gauge": Case(
        Spec(BORE, shop=(("  - {kind: pins, name: gauge pins 1 to 13 by 0.01, range: [1, 13], reads: 0.01}\n", ""),)),
        Spec(BORE),
    ),
    "zero-not-found-again": Case(
        replace(_pair(12), setups=(Setup("h"), Setup("z", up="bottom", zero=(("x", ""),)))), _pair(12)
    ),
    "zero-from-raw-edge": Case(
        Spec(remove=(("left", 2), ("bottom", 1)), setups=(Setup("face A", up="bottom"), Setup("h"))),
        Spec(remove=(("bottom", 1),), setups=(Setup("face A", up="bottom"), Setup("h"))),
    ),
    "faced-after-holes": Case(
        Spec(remove=(("top", 1),), setups=(Setup("h, face top"),)),
        Spec(remove=(("top", 1),), setups=(Setup("face top, h"),)),
    ),
    "holes-met-halfway": Case(_towards(6), _towards(5)),
    "witness-proves-nothing": Case(_pair(20), _pair(12)),
    "side-cut-in-two-setups": Case(_both_sides("C"), _both_sides("A")),
    "finished-before-roughing": Case(_level_after(8), _level_after(9)),
    "no-place-to-touch-off": Case(
        Spec("h: {kind: hole, at: [20, 1.25], drill: 1, through: true}", size=(60, 2.5, 12)),
        Spec("h: {kind: hole, at: [20, 4], drill: 1, through: true}", size=(60, 8, 12)),
    ),
    "allowance-too-small": Case(
        Spec(remove=(("top", 0.15),), setups=(Setup("face top, h"),)),
        Spec(remove=(("top", 0.2),), setups=(Setup("face top, h"),)),
    ),
    "readout-in-other-unit": Case(
        replace(PLATE, shop=(("{readout: 0.005, counts", "{readout: 0.0002 in, counts"),)), PLATE
    ),
    "pick-up-hole-made-late": Case(_late("bore, k", "h"), _late("k", "h, bore")),
    "as-bought-too-coarse": Case(
        replace(PLATE, remove=(("left", "as-bought ±0.4"),)), replace(PLATE, remove=(("left", "as-bought ±0.3"),))
    ),
    "setup-cuts-nothing": Case(
        replace(PLATE, setups=(Setup("h"), Setup("face bottom", up="bottom"))),
        replace(PLATE, remove=(("bottom", 1),), setups=(Setup("h"), Setup("face bottom", up="bottom"))),
    ),
}
