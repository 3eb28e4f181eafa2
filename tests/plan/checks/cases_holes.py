"""Trials of the checks on holes, threads, floors and walls."""

from __future__ import annotations

from tests.plan.checks.trial import Case, Setup, Spec

BESIDE_SLOT = (
    "h: {kind: hole, at: [25, 30], drill: 5, through: true}\n"
    "s: {kind: slot, centres: [[15, %s], [40, %s]], width: 6, through: true}"
)
CROSSED = (
    "a: {kind: hole, from: front, at: {x: 20, z: 10}, drill: 6, through: true}\n"
    "h: {kind: hole, at: [%s, 20], drill: 5, through: true}"
)
TAPPED = (
    "s: {kind: slot, centres: [[15, 17], [40, 17]], width: 6, depth: 9}\n"
    "t: {kind: hole, at: [25, %s], tap: M5, through: true}"
)
HALVES = (
    "a: {kind: level, area: {box: {x: [0, 30], y: [0, 40]}}, to: 8}\n"
    "b: {kind: level, area: {box: {x: [30, 60], y: [0, 40]}}, to: 8}\n"
    "h: {kind: hole, at: [30, 20], drill: 5, through: true}"
)
BELOW = (
    "a: {kind: level, from: bottom, area: {box: {x: [0, 30], y: [0, 40]}}, to: 2}\n"
    "b: {kind: level, from: bottom, area: {box: {x: [30, 60], y: [0, 40]}}, to: 2}\n"
    "h: {kind: hole, at: [%s, 20], drill: 5, through: true}"
)


def _hole(at: str, rest: str = "drill: 5, through: true") -> Spec:
    return Spec(f"h: {{kind: hole, at: [{at}], {rest}}}")


def _crossed(x: str) -> Spec:
    setups = (Setup("a", up="front", back="bottom", grip=12), Setup("h", grip=10))
    return Spec(CROSSED % x, setups, size=(60, 40, 20))


def _beside(y: float) -> Spec:
    return Spec(BESIDE_SLOT % (y, y), (Setup("h, s"),))


def _pocket(front: float, floor: float) -> Spec:
    feature = f"p: {{kind: pocket, area: {{box: {{x: [10, 50], y: [{front}, 30]}}}}, corner-radius: 4, to: {floor}}}"
    return Spec(feature, (Setup("p"),))


def _reamed(chamfer: str) -> Spec:
    features = (
        f"h: {{kind: hole, at: [20, 20], fit: 6 H7, through: true, chamfer: {chamfer}}}\n"
        "k: {kind: hole, at: [45, 25], from: bottom, drill: 4, depth: 4}"
    )
    return Spec(features, (Setup("h"), Setup("k", up="bottom")))


def _from_below(x: int) -> Spec:
    return Spec(BELOW % x, (Setup("a", up="bottom"), Setup("h"), Setup("b", up="bottom")))


CASES = {
    "chamfered-after-reaming": Case(_reamed("0.5 both ends"), _reamed("0.5")),
    "hole-breaks-out-at-edge": Case(_hole("20, 37"), _hole("20, 36")),
    "wall-beside-hole-thin": Case(_beside(24), _beside(23.3)),
    "holes-cross": Case(_crossed("25"), _crossed("26")),
    "tap-breaks-into-opening": Case(Spec(TAPPED % 22.2, (Setup("s, t"),)), Spec(TAPPED % 22.2, (Setup("t, s"),))),
    "drill-starts-on-an-edge": Case(Spec(HALVES, (Setup("a, h, b"),)), Spec(HALVES, (Setup("a, b, h"),))),
    "drill-comes-out-on-an-edge": Case(_from_below(30), _from_below(34)),
    "hole-floor-thin": Case(_hole("20, 20", "drill: 5, depth: 9.8"), _hole("20, 20", "drill: 5, depth: 9.4")),
    "milled-floor-thin": Case(_pocket(10, 0.8), _pocket(10, 1.0)),
    "wall-thin": Case(_pocket(1.8, 6), _pocket(2, 6)),
    "thread-too-short": Case(
        _hole("20, 20", "tap: M5, depth: 5, drill-depth: 9"), _hole("20, 20", "tap: M5, depth: 8, drill-depth: 10")
    ),
    "tap-hits-bottom": Case(
        _hole("20, 20", "tap: M5, depth: 6, drill-depth: 9"), _hole("20, 20", "tap: M5, depth: 6, drill-depth: 9.5")
    ),
}
