"""Mates: what ``mate:`` names, with its limits from the tables, from the words, or from the other part's spec."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from setupsheet.part.feature import Feature, Hole, Pocket, RoundBoss, Size, Slot
from setupsheet.part.mate import HOLE, SHAFT, Mate
from setupsheet.part.part import Part
from setupsheet.spec.desk import Desk
from setupsheet.spec.mate_pattern import Pair, meet
from setupsheet.spec.mate_words import MateWords, cut
from setupsheet.spec.shape import nearest
from setupsheet.spec.size_text import split
from setupsheet.spec.sizes import size_of
from setupsheet.spec.tree import Mapping, Scalar, child
from setupsheet.tables import fits, inch_fits, mating
from setupsheet.tables.unknown import NotInTables

Fitted = Hole | RoundBoss | Pocket | Slot
"""Features that a mate can go into or over."""

_SAME_MM = 1e-6


@dataclass(frozen=True, slots=True)
class Others:
    """How other specs are read: by the file's name as written; None (with a finding) where one cannot be."""

    read: Callable[[Scalar, str], Part | None]


def read_mates(desk: Desk, part: Part, tree: Mapping, others: Others) -> tuple[Mate, ...]:
    """Return the mates of a part in the order of its features; what makes no sense is a finding."""
    found = []
    for feature in part.features:
        node = child(tree, "features", feature.id, "mate")
        if isinstance(node, Scalar) and not node.empty and isinstance(feature, Fitted):
            desk.feature = feature.id
            found.append(_Reader(desk, part, feature, node, others).mate())
    desk.feature = ""
    return tuple(found)


def fitted_size(feature: Feature) -> Size | None:
    """Return the size that a mate meets: a diameter, or the width of a slot or a pocket."""
    if isinstance(feature, Hole | RoundBoss):
        return feature.diameter
    return feature.width if isinstance(feature, Pocket | Slot) else None


@dataclass(frozen=True, slots=True)
class _Reader:
    """Reads one ``mate:``."""

    desk: Desk
    part: Part
    feature: Fitted
    node: Scalar
    others: Others

    def mate(self) -> Mate:
        """Return the mate; without limits where the words name none."""
        words = cut(self.node.text)
        side = HOLE if isinstance(self.feature, RoundBoss) else SHAFT
        plain = Mate(
            self.feature.id, self.node.text.strip(), side, pressed=words.pressed, intent=words.intent, bore=words.bore
        )
        if words.file:
            return self._of_other(plain, words)
        if words.intent:
            return self._by_intent(plain, words)
        return self._by_size(plain, words) if words.size else plain

    def _by_size(self, plain: Mate, words: MateWords) -> Mate:
        """Return a mate with a letter and grade, an inch class, or limits of its own."""
        if inch_fits.looks_like_inch_fit(words.size):
            return self._inch(plain, words.size)
        parts = split(words.size)
        if parts.fit:
            nominal = self.desk.length_of(parts.nominal, self.node).mm
            return self._lettered(plain, nominal, parts.fit)
        if not parts.upper:
            return plain
        size = size_of(self.desk, words.size, self.node)
        return replace(
            plain, nominal_mm=size.nominal_mm, lower_mm=size.lower_mm, upper_mm=size.upper_mm, source="as written"
        )

    def _lettered(self, plain: Mate, nominal_mm: float, symbol: str) -> Mate:
        wrong_side = symbol[0].isupper() is (plain.side == SHAFT)
        if wrong_side:
            is_a, letter = ("shaft", "small") if plain.side == SHAFT else ("hole", "capital")
            self.wrong("mate-wrong-side", f"{symbol}: the mate here is a {is_a}, which takes a {letter} letter", symbol)
            return plain
        try:
            limits = fits.limits(nominal_mm, symbol)
        except NotInTables as problem:
            self.desk.not_in_tables(problem, self.node)
            return plain
        self._same_nominal(nominal_mm)
        lower, upper, source = limits.lower_mm, limits.upper_mm, limits.source
        return replace(plain, nominal_mm=nominal_mm, lower_mm=lower, upper_mm=upper, symbol=symbol, source=source)

    def _same_nominal(self, nominal_mm: float) -> None:
        """Say so when hole and mate of a fit have different nominal sizes: the letters mean nothing then."""
        size = fitted_size(self.feature)
        if size and size.kind == "fit" and abs(size.nominal_mm - nominal_mm) > _SAME_MM:
            self.wrong(
                "mate-size-differs", f"the mate is {nominal_mm:g}, {size.written} is what it fits", f"{nominal_mm:g}"
            )

    def _inch(self, plain: Mate, text: str) -> Mate:
        try:
            found = inch_fits.inch_fit(text)
        except NotInTables as problem:
            self.desk.not_in_tables(problem, self.node)
            return plain
        is_shaft = plain.side == SHAFT
        low = found.shaft_lower_in if is_shaft else found.hole_lower_in
        high = found.shaft_upper_in if is_shaft else found.hole_upper_in
        lower, upper = (round((found.nominal_in + by) * 25.4, 6) for by in (low, high))
        self._same_nominal(found.nominal_in * 25.4)
        return replace(
            plain,
            nominal_mm=found.nominal_in * 25.4,
            lower_mm=lower,
            upper_mm=upper,
            symbol=found.fit_class,
            source=found.source,
        )

    def _by_intent(self, plain: Mate, words: MateWords) -> Mate:
        """Return the mate of the preferred fit that a word stands for; what it came to is recorded."""
        meant = mating.intent(words.intent)
        size = fitted_size(self.feature)
        nominal = self.desk.length_of(words.size, self.node).mm if words.size else size.nominal_mm if size else None
        if nominal is None:
            return plain
        symbol = meant.shaft if plain.side == SHAFT else meant.hole
        self.desk.opened("mate", f"{nominal:g} {symbol}", f"{meant.word}: {meant.hole}/{meant.shaft}, {meant.meaning}")
        return self._lettered(plain, nominal, symbol)

    def _of_other(self, plain: Mate, words: MateWords) -> Mate:
        """Return the mate that stands in another spec; patterns of holes are held against each other."""
        other = self.others.read(self.node, words.file)
        if other is None:
            return plain
        there = next((feature for feature in other.features if feature.id == words.feature), None)
        if there is None:
            ids = [feature.id for feature in other.features]
            near = nearest(words.feature, ids)
            self.desk.wrong(
                "mate-unknown",
                f"{words.file} has no feature {words.feature}",
                self.node.place,
                found=words.feature,
                allowed=", ".join(ids),
                try_=f"did you mean {near}?" if near else "",
            )
            return plain
        named = replace(plain, other=f"{other.number} {there.id}")
        if isinstance(self.feature, Hole) and isinstance(there, Hole):
            pair = Pair(self.part, self.feature, other, there)
            return replace(named, said=meet(self.desk, pair, words, self.node))
        return self._limits_there(named, there)

    def _limits_there(self, named: Mate, there: Feature) -> Mate:
        size = fitted_size(there)
        if size is None or isinstance(there, RoundBoss) is isinstance(self.feature, RoundBoss):
            self.wrong("mate-no-pair", f"{there.id} is a {there.kind}: it cannot go with {self.feature.id}", there.kind)
            return named
        return replace(
            named,
            nominal_mm=size.nominal_mm,
            lower_mm=size.lower_mm,
            upper_mm=size.upper_mm,
            symbol=size.fit,
            source=f"{named.other}: {size.written}",
        )

    def wrong(self, code: str, message: str, found: str) -> None:
        """Write down an error at the mate's words."""
        self.desk.wrong(
            code, message, self.node.place, found=found, allowed="a mate of the same size on the other side"
        )
