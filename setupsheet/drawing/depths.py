"""Heights that no view shows as a line: they are said as depths at the feature's own leader."""

from __future__ import annotations

from collections.abc import Sequence

from setupsheet.drawing.assign import ViewWants
from setupsheet.drawing.dimensions import depth_words, with_depth
from setupsheet.drawing.needs import Need, feature_of
from setupsheet.drawing.wanted import Place, Want
from setupsheet.drawing.words import Words
from setupsheet.part.feature import Pocket, Slot
from setupsheet.part.part import Part


def give_depths(homeless: Sequence[Want], taken: dict[str, ViewWants], part: Part, words: Words) -> None:
    """Add a depth to the callouts of pockets and slots whose floor no view and no section shows."""
    for want in homeless:
        if isinstance(want, Place):
            for need in want.needs:
                _give(need, taken, part, words)


def _give(need: Need, taken: dict[str, ViewWants], part: Part, words: Words) -> None:
    feature = feature_of(part, need.feature)
    if not isinstance(feature, Pocket | Slot) or need.what != "xyz"[feature.face.axis]:
        return
    text = depth_words(feature, words)
    for view in taken.values():
        for k, callout in enumerate(view.callouts):
            if callout.needs[0].feature == need.feature:
                view.callouts[k] = with_depth(callout, text, (need,))
                return
