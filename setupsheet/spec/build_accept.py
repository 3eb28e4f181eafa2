"""Cautions that the author accepts, each with the reason that is printed beside it."""

from __future__ import annotations

from setupsheet.part.part import Accepted
from setupsheet.spec.desk import Desk
from setupsheet.spec.tree import Mapping, Node


def read_accept(desk: Desk, node: Node | None) -> tuple[Accepted, ...]:
    """Return the cautions accepted: for the whole part (a reason), or feature by feature (reasons by id)."""
    rows: list[Accepted] = []
    for code, entry in desk.mapping(node).entries.items() if node is not None else ():
        if isinstance(entry.value, Mapping):
            for id_, inner in entry.value.entries.items():
                rows.append(_row(desk, code, id_, inner.value))
        else:
            rows.append(_row(desk, code, "", entry.value))
    return tuple(row for row in rows if row.reason)


def _row(desk: Desk, code: str, feature: str, node: Node) -> Accepted:
    reason = desk.text(node)
    if not reason:
        desk.wrong(
            "accepted-without-reason",
            f"{code} is accepted without a reason",
            node.place,
            found=f"{code}:",
            allowed=f"{code}: why it does not matter here",
            try_="write the reason: it is printed beside the caution",
        )
    return Accepted(code, feature, reason, node.place)
