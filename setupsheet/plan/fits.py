"""The fits between a part and its mates: least and greatest clearance, the kind of fit, what it is for, what to do.

Pressing in makes a bush's own bore smaller by about what it was too large (common practice, no source for how much):
where the fit squeezes it, the words say to ream that bore afterwards.
"""

from __future__ import annotations

from setupsheet.length import Unit, fixed
from setupsheet.part.feature import Size
from setupsheet.part.mate import HOLE, Mate
from setupsheet.part.part import Part
from setupsheet.plan.record import FitPlan
from setupsheet.plan.sizes import between
from setupsheet.spec.build_mate import fitted_size
from setupsheet.tables import mating
from setupsheet.tables.fits import Limits

_PLAIN_USE = {
    mating.CLEARANCE: "goes together by hand",
    mating.TRANSITION: "between a little room and a little squeeze: tap it in",
    mating.INTERFERENCE: "pressed together; stays by itself",
}
"""What a fit that is not on the preferred list is good for, by its kind."""

_PLACES = {Unit.MM: 3, Unit.INCH: 4}


def fit_plans(part: Part) -> tuple[FitPlan, ...]:
    """Return the fit of every mate, in the order of the features; without limits only its words."""
    return tuple(_plan(part, mate) for mate in part.mates)


def _plan(part: Part, mate: Mate) -> FitPlan:
    size = fitted_size(part.feature(mate.feature))
    theirs = _limits(mate)
    words = list(mate.said)
    if size is None or theirs is None:
        return FitPlan(mate.feature, size.written if size else "", mate.written, mate.other, words=tuple(words))
    ours = _of_size(size)
    hole, shaft = (theirs, ours) if mate.side == HOLE else (ours, theirs)
    fit = mating.mate(hole, shaft)
    use = fit.use or _PLAIN_USE[fit.kind]
    words = [*_by_word(mate, fit), *_pressing(mate, fit), *words]
    return FitPlan(
        mate.feature,
        size.written,
        mate.written,
        mate.other,
        round(fit.clearance_min_um / 1000, 7),
        round(fit.clearance_max_um / 1000, 7),
        fit.kind,
        use,
        _shown(fit, part.unit),
        tuple(words),
    )


def _limits(mate: Mate) -> Limits | None:
    """Return the mate's limits as the tables hold limits, None where it has none."""
    if mate.nominal_mm is None or mate.lower_mm is None or mate.upper_mm is None:
        return None
    lower, upper = ((value - mate.nominal_mm) * 1000 for value in (mate.lower_mm, mate.upper_mm))
    return Limits(mate.nominal_mm, mate.symbol, round(lower, 4), round(upper, 4), mate.source, "")


def _of_size(size: Size) -> Limits:
    lower, upper = ((value - size.nominal_mm) * 1000 for value in (size.lower_mm, size.upper_mm))
    return Limits(size.nominal_mm, size.fit, round(lower, 4), round(upper, 4), size.source, "")


def _shown(fit: mating.Fit, unit: Unit) -> dict[str, str]:
    """Return the texts of both sides' limits and of the clearance, in the part's unit."""
    scale, places = float(unit.mm) * 1000, _PLACES[unit]
    least, most = (fixed(value / scale, places, sign=True) for value in (fit.clearance_min_um, fit.clearance_max_um))
    return {
        "hole": between(fit.hole.lower_mm, fit.hole.upper_mm, unit),
        "shaft": between(fit.shaft.lower_mm, fit.shaft.upper_mm, unit),
        "clearance": f"{least} to {most}",
    }


def _by_word(mate: Mate, fit: mating.Fit) -> tuple[str, ...]:
    """Return what the word for the fit stands for, and whether this hole is the one that it wants."""
    if not mate.intent:
        return ()
    meant = mating.intent(mate.intent)
    said = f"{meant.word} is {meant.hole}/{meant.shaft}: {meant.meaning}."
    wanted = meant.shaft if mate.side == HOLE else meant.hole
    mine = fit.shaft.symbol if mate.side == HOLE else fit.hole.symbol
    return (said,) if mine == wanted else (said, f"This one is {mine or 'made to its own limits'}, not {wanted}.")


def _pressing(mate: Mate, fit: mating.Fit) -> tuple[str, ...]:
    """Return what pressing asks for: force that is really there, and a bush's own bore reamed afterwards."""
    words = mate.written.lower()
    said = []
    if mate.pressed and fit.kind != mating.INTERFERENCE:
        said.append("It is to be pressed, but these limits may leave room: measure both, or glue it in.")
    if "bush" in words and fit.clearance_min_um < 0:
        bore = f"its bore to {mate.bore}" if mate.bore else "its own bore"
        said.append(f"The bush closes in when it is pressed: ream {bore} afterwards.")
    return tuple(said)
