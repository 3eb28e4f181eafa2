"""The bench look-up ``fit`` as the JSON of the contract; loads nothing but the CSV tables."""

from __future__ import annotations

from setupsheet.tables.fits import Limits, limits, number, parse_fit
from setupsheet.tables.inch_fits import InchFit, inch_fit, looks_like_inch_fit
from setupsheet.tables.mating import Fit, intent, intent_words, mate


def fit_as_json(text: str) -> dict[str, object]:
    """Return the limits of '25 H7/g6', '25 H7', '25 g6', '1.0000 RC4' or '25 slide'; raises NotInTables."""
    if looks_like_inch_fit(text):
        return _inch(inch_fit(text))
    size, _, word = text.strip().rpartition(" ")
    if size and word.lower() in intent_words():
        meant = intent(word)
        found = fit_as_json(f"{size} {meant.hole}/{meant.shaft}")
        return {**found, "intent": meant.word, "intent_source": meant.source}
    nominal, hole, shaft = parse_fit(text)
    sides = {name: limits(nominal, symbol) for name, symbol in (("hole", hole), ("shaft", shaft)) if symbol}
    whole = "/".join(symbol for symbol in (hole, shaft) if symbol)
    head: dict[str, object] = {"designation": f"{number(nominal)} {whole}", "nominal_mm": nominal}
    if len(sides) == 2:
        return _both(head, mate(sides["hole"], sides["shaft"]))
    (name, side), *_ = sides.items()
    return {**head, name: _side(side), "source": side.source, "status": side.status}


def _side(side: Limits) -> dict[str, object]:
    """Return one part's limits, as deviations and as sizes."""
    return {
        "symbol": side.symbol,
        "lower_um": side.lower_um,
        "upper_um": side.upper_um,
        "lower_mm": side.lower_mm,
        "upper_mm": side.upper_mm,
    }


def _both(head: dict[str, object], fit: Fit) -> dict[str, object]:
    return {
        **head,
        "hole": _side(fit.hole),
        "shaft": _side(fit.shaft),
        "clearance_um": {"min": fit.clearance_min_um, "max": fit.clearance_max_um},
        "kind": fit.kind,
        "name": fit.name,
        "use": fit.use,
        "source": "; ".join(part for part in (fit.hole.source, fit.shaft.source, fit.source) if part),
        "status": f"hole: {fit.hole.status}; shaft: {fit.shaft.status}",
    }


def _inch(fit: InchFit) -> dict[str, object]:
    return {
        "designation": f"{fit.nominal_in:.4f} {fit.fit_class}",
        "nominal_in": fit.nominal_in,
        "hole": {"lower_in": fit.hole_lower_in, "upper_in": fit.hole_upper_in},
        "shaft": {"lower_in": fit.shaft_lower_in, "upper_in": fit.shaft_upper_in},
        "clearance_in": {"min": fit.clearance_min_in, "max": fit.clearance_max_in},
        "kind": fit.kind,
        "name": fit.name,
        "use": fit.use,
        "source": fit.source,
        "status": fit.status,
    }
