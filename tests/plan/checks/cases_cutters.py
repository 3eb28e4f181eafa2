"""Trials of the checks on cutters: length, flutes, holder, speed, kind of machine."""

from __future__ import annotations

from dataclasses import replace

from tests.plan.checks.trial import Case, Setup, Spec

MILL_12 = "  - {diameter: 12, flutes: 4, flute: 26, length: 83, shank: 12}"
DRILLS = "  - 1 to 13 by 0.1"
DEEP_LEVELS = Spec(
    "a: {kind: level, area: {box: {x: [0, 40], y: [0, 40]}}, to: 16}\n"
    "b: {kind: level, area: {box: {x: [10, 40], y: [0, 40]}}, to: 4}",
    (Setup("a, b", grip=4),),
    size=(60, 40, 30),
)
TALL_LEVEL = Spec(
    "a: {kind: level, area: {box: {x: [0, 30], y: [0, 40]}}, to: 14.5}", (Setup("a", grip=10),), size=(60, 40, 40)
)


def _mill_12(spec: Spec, flute: int, length: int, shank: int) -> Spec:
    return replace(
        spec, shop=((MILL_12, f"  - {{diameter: 12, flutes: 4, flute: {flute}, length: {length}, shank: {shank}}}"),)
    )


def _drill_5(flute: int, length: int) -> Spec:
    return Spec(shop=((DRILLS, f"  - 1 to 4 by 0.1\n  - {{size: 5, flute: {flute}, length: {length}}}"),))


def _drilled(size: float, **more: object) -> Spec:
    return Spec(f"h: {{kind: hole, at: [20, 20], drill: {size}, through: true}}", **more)  # type: ignore[arg-type]


def _bored(thick: float) -> Spec:
    feature = "h: {kind: hole, at: [26, 21], diameter: 23.7 +0.021/-0, through: true}"
    return Spec(feature, (Setup("h", grip=14),), size=(60, 44, thick))


def _boss(wide: float, grip: float = 10) -> Spec:
    boss = f"b: {{kind: round boss, at: [30, 20], diameter: {wide}, top: 30}}"
    features = f"{boss}\na: {{kind: level, area: all, to: 8, leave: [b]}}"
    return Spec(features, (Setup("a, b", grip=grip),), size=(60, 40, 30), shop_file="plain-shop.yaml")


def _turned(grip: float) -> Spec:
    boss = "b: {kind: round boss, at: [24, 18], diameter: 18 -0.05/-0.15, top: 12}"
    features = f"{boss}\na: {{kind: level, area: all, to: 7, leave: [b]}}"
    return Spec(features, (Setup("a, b", grip=grip),))


def _pocket(radius: float) -> Spec:
    return Spec(
        f"p: {{kind: pocket, area: {{box: {{x: [10, 42], y: [9, 29]}}}}, corner-radius: {radius}, depth: 5}}",
        (Setup("p"),),
    )


def _slot(wide: float, deep: float) -> Spec:
    feature = f"s: {{kind: slot, centres: [[20, 20], [40, 20]], width: {wide}, depth: {deep}}}"
    return Spec(feature, (Setup("s", grip=10),), size=(60, 40, 30))


SUNK = (
    "a: {kind: level, area: {box: {x: [0, 30], y: [0, 40]}}, to: 10}\n"
    "h: {kind: hole, at: [%s, 20], clearance: M4 medium, through: true, countersink: {for: M4, from: top}}"
)


CASES = {
    "holder-hits-work": Case(_mill_12(TALL_LEVEL, 26, 50, 12), _mill_12(TALL_LEVEL, 26, 51, 12)),
    "chuck-hits-work": Case(_drill_5(30, 38), _drill_5(30, 40)),
    "flute-too-short": Case(_mill_12(DEEP_LEVELS, 25, 83, 12), _mill_12(DEEP_LEVELS, 26, 83, 12)),
    "shank-rubs-wall": Case(_mill_12(DEEP_LEVELS, 25, 83, 16), _mill_12(DEEP_LEVELS, 26, 83, 16)),
    "drill-too-short": Case(_drill_5(13, 86), _drill_5(15, 86)),
    "cutter-too-fast": Case(
        _drilled(
            13,
            material="steel S235JR",
            shop=(
                ("[100, 200, 350, 600, 1000, 1800]", "[1000, 1800]"),
                ("greatest-speed: 400", "greatest-speed: 1000"),
            ),
        ),
        _drilled(13, material="steel S235JR"),
    ),
    "boring-head-hits-jaw": Case(_turned(10), _turned(4)),
    "boring-bar-too-long": Case(_bored(42), _bored(39)),
    "cutter-hangs-out": Case(_slot(4, 20), _slot(6, 20)),
    "opening-without-cutter": Case(_slot(6, 20), _slot(6, 12)),
    "mouth-cutter-hits-wall": Case(
        Spec(SUNK % 23, (Setup("a, h", grip=10),), size=(60, 40, 20)),
        Spec(SUNK % 21, (Setup("a, h", grip=10),), size=(60, 40, 20)),
    ),
    "milling-on-drill-press": Case(
        Spec(
            "s: {kind: slot, centres: [[20, 20], [40, 20]], width: 6, depth: 3}",
            (Setup("s"),),
            shop_file="drill-press.yaml",
        ),
        Spec(shop_file="drill-press.yaml"),
    ),
    "boss-slender": Case(_boss(7), _boss(8)),
}
