"""A feature is made in no setup, and its metal is still there at the end.

What: every feature that no step works on, against the metal that stands when all setups are done.
Why at the machine: the part is taken out of the vise unfinished, and nobody has a zero for it any more.
What to do: name it in the do: of a setup in which its face is up, or add such a setup.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.feature import Hole
from setupsheet.plan.checks import openings
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "feature-in-no-setup"


def check(case: Case) -> Iterator[Bite]:
    """Yield an error for each feature (holes have a finding of their own) that nothing makes."""
    made = {id_ for _, step in case.steps() for id_ in step.features}
    for feature in case.part.features:
        if feature.id in made or isinstance(feature, Hole) or not openings.still_there(case, feature):
            continue
        yield At(case, feature=feature.id).error(
            CODE,
            f"{feature.id} is made in no setup",
            found="in no do:",
            allowed=f"a setup with the {feature.face.value} face up",
            because="the part would be taken out of the vise unfinished",
            try_=f"add {feature.id} to the do: of a setup with the {feature.face.value} face up, or add one",
        )
