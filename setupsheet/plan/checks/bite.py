"""A finding with the setup and step that it concerns, so that it is printed on the page where it bites."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from setupsheet import finding
from setupsheet.finding import Finding, Place
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.record import Step


@dataclass(frozen=True, slots=True)
class Bite:
    """A finding, and the setup and step that it concerns (None: the job, the setup as a whole).

    ``fault`` is what is wrong in the words of that page, ``words`` the same with what to do.
    """

    finding: Finding
    setup: int | None
    step: int | None
    fault: str
    words: str


@dataclass(frozen=True, slots=True)
class At:
    """Where a fault bites. ``feature`` is the id that is to blame, '' if none is."""

    case: Case
    held: Clamped | None = None
    step: Step | None = None
    feature: str = ""

    def caution(self, code: str, words: str, **more: str) -> Bite:
        """Return a caution; ``words`` name no setup and no step, since the page does.

        ``more``: fields of Finding, and ``page`` for shorter words where a page has little room.
        """
        return self._bite(finding.caution, code, words, more)

    def error(self, code: str, words: str, **more: str) -> Bite:
        """Return an error, which stops the papers."""
        return self._bite(finding.error, code, words, more)

    def _bite(self, say: Callable[..., Finding], code: str, words: str, more: dict[str, str]) -> Bite:
        setup = self.held.setup.number if self.held else None
        step = self.step.number if self.step else None
        names = [f"setup {setup}"] if setup else []
        names += [f"step {step}"] if step else []
        message = f"{' '.join(names)}: {words}" if names else words
        page = more.pop("page", "")
        said = say(code, message, self._place(), feature=self.feature, **more)
        return Bite(said, setup, step, words, page or (f"{words}; {said.try_}" if said.try_ else words))

    def _place(self) -> Place | None:
        place = self.case.place_of(self.feature) if self.feature else None
        if place is not None or self.held is None:
            return place
        return self.held.asked.hold.place if self.held.asked.hold and self.step is None else self.held.asked.place
