"""A level, pocket or cut finds no metal to take.

What: every feature that no step works on and whose metal is gone all the same when all setups are done.
Why at the machine: a height or a place in the spec is wrong, or another feature takes the metal: somebody looks on the
sheets in vain for the step that makes it.
What to do: look at its height and place, or leave the feature out.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.feature import Hole, Mark
from setupsheet.plan.checks import openings
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "feature-cuts-nothing"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each milled feature without a step, none of whose metal stands."""
    made = {id_ for _, step in case.steps() for id_ in step.features}
    for feature in case.part.features:
        if feature.id in made or isinstance(feature, Hole | Mark) or openings.still_there(case, feature):
            continue
        yield At(case, feature=feature.id).caution(
            CODE,
            f"{feature.id} cuts nothing",
            found="no metal where it is cut",
            allowed="metal to take",
            because="its height or place is wrong, or another feature takes its metal",
            try_=f"look at the height and place of {feature.id}, or leave it out",
        )
