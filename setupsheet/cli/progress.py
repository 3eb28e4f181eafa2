"""A progress bar on stderr: only on a terminal, and only once a run has taken half a second."""

from __future__ import annotations

import sys
import time
from types import TracebackType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rich.progress import Progress, TaskID

PATIENCE_S = 0.5


class Bar:
    """Shows how far a run is; call it as flow does, with the stage's name, how many are done, and of how many."""

    def __init__(self, title: str) -> None:
        self._title = title
        self._since = time.monotonic()
        self._wanted = sys.stderr.isatty()
        self._bar: Progress | None = None
        self._task: TaskID | None = None

    def __enter__(self) -> Bar:
        """Return the bar; nothing is drawn yet."""
        return self

    def __exit__(self, kind: type[BaseException] | None, value: BaseException | None, at: TracebackType | None) -> None:
        """Take the bar off the terminal, whatever happened."""
        if self._bar:
            self._bar.stop()

    def __call__(self, stage: str, done: int, total: int) -> None:
        """Draw the bar at this stage."""
        if not self._wanted or time.monotonic() - self._since < PATIENCE_S:
            return
        if self._bar is None:
            self._start()
        if self._bar is not None and self._task is not None:
            words = f"{self._title}: {stage}"
            self._bar.update(self._task, description=words, completed=done, total=total, refresh=True)

    def _start(self) -> None:
        from rich.console import Console  # 60 ms, only where a bar is drawn
        from rich.progress import BarColumn, Progress, TextColumn

        columns = (TextColumn("{task.description}"), BarColumn(), TextColumn("{task.completed}/{task.total}"))
        self._bar = Progress(*columns, console=Console(stderr=True), transient=True)
        self._task = self._bar.add_task(self._title, total=1)
        self._bar.start()
