"""The blocks that the replay's tests work on: a drilled plate, a boss, an end cut, a part turned over."""

from __future__ import annotations

import math

from tests.plan.replay_blocks import (
    DRO,
    Block,
    Json,
    Machine,
    block,
    drill,
    end_mill,
    feature,
    limit,
    mesh,
    move,
    page_turned,
    plan,
    position,
    reamer,
    rod,
    setup,
    shifted,
    step,
)

_HOLES = {"H1": (10.0, 8.0), "H2": (50.0, 8.0), "H3": (12.0, 32.0)}
_BORE = (34.0, 22.0)


def plate(machine: Machine = DRO) -> Block:
    """Return a 60 x 40 x 10 plate, 0.5 faced off its top, three 6 mm holes and one reamed 8 mm bore right through."""
    m = machine
    holes = [*_HOLES.items()]
    face = end_mill(20.0)
    rows = [m.at(y) for y in (0.0, 18.0, 36.0, 42.0)]
    facing = [move("outside", 0.0, [(m.at(-15.0), y), (m.at(75.0), y)]) for y in rows]
    deep = m.at(-13.0)
    chain = [
        step(1, "face", ["top"], face, method="table", moves=facing, z_shown=[m.text(0.0, "z")]),
        step(
            2,
            "spot",
            ["H"],
            drill(5.0, 90.0, "spot drill"),
            positions=[position(m, k, p, (1.0, m.at(-1.5))) for k, p in holes],
        ),
        step(
            3, "drill", ["H"], drill(6.0), positions=[position(m, k, p, (1.0, deep)) for k, p in holes], depends_on=[2]
        ),
        step(4, "drill", ["B"], drill(7.7), positions=[position(m, "B1", _BORE, (1.0, deep))]),
        step(5, "ream", ["B"], reamer(8.0), positions=[position(m, "B1", _BORE, (1.0, m.at(-12.0)))], depends_on=[4]),
    ]
    touch = {"x": m.at(25.0), "y": m.at(30.0), "z": 0.0, "feeler_mm": 0.1, "key_in": "", "surface": "top", "shown": {}}
    for told in chain[1:]:
        told["touch_off"] = dict(touch)
    volume = 60 * 40 * 10 - 3 * math.pi * 9 * 10 - math.pi * 16 * 10
    lying = setup(m, 1, ("top", "back"), shifted(0, 0, 10), steps=chain)
    least, most = block((0, 0, 0), (60, 40, 10)), block((0, 0, 0), (60, 40, 10))
    for x, y in _HOLES.values():
        least, most = least - rod(x, y, 6.1, -1, 11), most - rod(x, y, 6.0, -1, 11)
    least, most = least - rod(*_BORE, 8.015, -1, 11), most - rod(*_BORE, 8.0, -1, 11)
    told = plan(((0, 0, 0), (60, 40, 10.5)), [lying], [volume])
    return Block(told, mesh(least), mesh(most))


def _corner_points(m: Machine, radius: float, count: int) -> list[tuple[float, float]]:
    """Return cutter centres on a quarter circle, each rounded away from the boss."""
    angles = [90 * (k + 0.5) / count for k in range(count)]
    at = [(radius * math.cos(math.radians(a)), radius * math.sin(math.radians(a))) for a in angles]
    return [(m.clear_of(x, 0.0), m.clear_of(y, 0.0)) for x, y in at]


def boss(machine: Machine = DRO) -> Block:
    """Return a 60 x 60 block with a round boss 24 -0.05/-0.15, the level about it 8 below its top."""
    m = machine
    mill, low = end_mill(12.0), m.at(-8.0)
    stop = m.clear_of(18.25, 0.0)
    far = m.at(40.0)
    lanes = [m.at(v) for v in (19.0, 27.0)]
    square = [stop, *lanes]
    around = [
        move("outside", z, [(-far, -s), (s, -s), (s, s), (-s, s), (-s, -far)])
        for z in (m.at(-4.0), low)
        for s in reversed(square)
    ]
    points = _corner_points(m, 18.25, 5)
    corners = []
    for x, y in points:
        for sx, sy in ((1, 1), (-1, 1), (-1, -1), (1, -1)):
            corners.append(move("outside", low, [(sx * far, sy * y), (sx * x, sy * y)]))
    ring = {
        "centre": [0.0, 0.0],
        "radius_inner": 11.95,
        "radius_outer": 14.0,
        "z_from": 1.0,
        "z_to": low,
        "edge": "in",
        "shown": "25.2, 24.4, then 23.900 twice",
    }
    head = {**end_mill(10.0), "kind": "boring head", "profile": [], "label": "boring head"}
    stops = [limit(m, axis, sign * stop) for axis in "xy" for sign in (-1, 1)]
    heights = [m.text(m.at(-4.0), "z"), m.text(low, "z")]
    chain = [
        step(1, "clear", ["level"], mill, method="table", moves=around, limits=stops, z_shown=heights),
        step(2, "corners", ["boss"], mill, method="by_points", moves=corners, z_shown=[heights[1]], depends_on=[1]),
        step(3, "round boss", ["boss"], head, method="boring_head", rings=[ring], z_shown=[heights[1]], depends_on=[2]),
    ]
    lying = setup(m, 1, ("top", "back"), shifted(0, 0, 20), steps=chain)
    slab = block((-30, -30, 0), (30, 30, 12))
    least, most = slab + rod(0, 0, 23.85, 11, 20), slab + rod(0, 0, 23.95, 11, 20)
    volume = 60 * 60 * 12 + math.pi * 11.95**2 * 8
    return Block(plan(((-30, -30, 0), (30, 30, 20)), [lying], [volume]), mesh(least), mesh(most))


def end_cut(machine: Machine = DRO) -> Block:
    """Return a bar whose left end is cut to 34 ±0.05 from a reamed bore, in two passes over its full height."""
    m = machine
    mill = end_mill(12.0)
    last = m.at(-40.0)
    outer = m.at(-40.2)
    ends = (m.at(-40.0), m.at(40.0))
    passes = [move("outside", m.at(-16.0), [(x, ends[1]), (x, ends[0])]) for x in (outer, last)]
    chain = [
        step(1, "drill", ["B"], drill(11.7), positions=[position(m, "B1", (0, 0), (1.0, m.at(-20.0)))]),
        step(2, "ream", ["B"], reamer(12.0), positions=[position(m, "B1", (0, 0), (1.0, m.at(-17.0)))], depends_on=[1]),
        step(
            3,
            "left end",
            ["left-end"],
            mill,
            method="table",
            moves=passes,
            limits=[limit(m, "x", last)],
            z_shown=[m.text(m.at(-16.0), "z")],
            depends_on=[2],
        ),
    ]
    lying = setup(m, 1, ("top", "back"), shifted(34, 15, 15), steps=chain)
    least = block((0.05, 0, 0), (70, 30, 15)) - rod(34, 15, 12.018, -1, 16)
    most = block((-0.05, 0, 0), (70, 30, 15)) - rod(34, 15, 12.0, -1, 16)
    volume = 70 * 30 * 15 - math.pi * 36 * 15
    told = plan(((-2, 0, 0), (70, 30, 15)), [lying], [volume])
    return Block(told, mesh(least), mesh(most))


def turned_over(machine: Machine = DRO) -> Block:
    """Return a part drilled from below, then turned like a page and stepped down from the top on one side."""
    m, over = machine, Machine(machine.kind, machine.step, 1)
    places = {"P1": (8.0, 9.0), "P2": (42.0, 9.0), "P3": (30.0, 24.0)}
    under = [
        step(
            1,
            "drill",
            ["P"],
            drill(5.0),
            positions=[position(m, k, (25 - x, y - 15), (1.0, m.at(-14.0))) for k, (x, y) in places.items()],
        ),
        step(
            2,
            "relief",
            ["relief"],
            end_mill(10.0),
            method="table",
            moves=[
                move("outside", m.at(-1.5), [(m.at(x), m.at(-25.0)), (m.at(x), m.at(25.0))])
                for x in (-13.0, -9.0, -5.0)
            ],
            limits=[limit(m, "x", m.at(-13.0)), limit(m, "x", m.at(-5.0))],
            z_shown=[m.text(m.at(-1.5), "z")],
        ),
    ]
    top = [
        step(
            1,
            "step",
            ["step"],
            end_mill(16.0),
            method="table",
            moves=[
                move("outside", m.at(6.0), [(m.at(x), m.at(-30.0)), (m.at(x), m.at(30.0))])
                for x in (-28.0, -16.0, -8.0)
            ],
            limits=[limit(over, "x", m.at(-8.0))],
            z_shown=[over.text(m.at(6.0), "z")],
        )
    ]
    first = setup(m, 1, ("bottom", "back"), page_turned(25, 15, 0), steps=under)
    witness = {
        "feature": "P",
        "label": "P2",
        "x": m.at(17.0),
        "y": m.at(-6.0),
        "pin_mm": 4.9,
        "shown": {},
        "sentence": "",
    }
    second = setup(over, 2, ("top", "back"), shifted(25, 15, 0), steps=top, witness=witness)
    second["turn"] = {"axis": "y", "angle_deg": 180.0, "sentence": "left over right", "moves": [["y", 180]]}
    least, most = _stepped(places, 5.1), _stepped(places, 5.0)
    drilled = 50 * 30 * 12 - 3 * math.pi * 6.25 * 12 - 18 * 30 * 1.5 + 2 * 0
    relief_hole = math.pi * 6.25 * 1.5
    after_one = drilled + relief_hole
    after_two = after_one - 25 * 30 * 6 + math.pi * 6.25 * 6
    told = plan(((0, 0, 0), (50, 30, 12)), [first, second], [after_one, after_two])
    return Block(told, mesh(least), mesh(most))


def _stepped(places: dict[str, tuple[float, float]], diameter: float) -> object:
    body = block((0, 0, 0), (50, 30, 12)) - block((-1, -1, 6), (25, 31, 13)) - block((25, -1, -1), (43, 31, 1.5))
    for x, y in places.values():
        body -= rod(x, y, diameter, -1, 13)
    return body


def named_feature(block_: Block, **fields: object) -> Json:
    """Return a copy of a block's plan whose features hold one more."""
    told = block_.copy()
    told["features"].append({**feature("spare", [[0, 0, 0]], 1.0), **fields})
    return told
