"""What a demo plays, and where its history goes."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from drills.level import Feedback, Level
from engine.store import History, StoreError, open_history


@dataclass(frozen=True)
class Demonstration:
    """What is to be watched."""

    level: Level
    """The level that is played."""
    repetitions: int
    """count."""
    seed: int
    """Of the foot."""
    skill: float
    """0 beginner to 1 expert."""
    folder: Path | None = None
    """Where its history goes; None for a folder that is thrown away afterwards."""
    levels: Sequence[Level] = ()
    """All there are: their pass rules are for a history that does not say its own, and a mixed
    level draws from those that it needs."""
    tour: bool = False
    """Whether one level of every kind is shown in turn, in the place of `level`."""

    @property
    def shown(self) -> Sequence[Level]:
        """The levels that are played, in order; on a tour each with its reveal."""
        if not self.tour:
            return (self.level,)
        first = {level.kind.name: level for level in reversed(self.levels)}
        kinds = dict.fromkeys(level.kind.name for level in self.levels)
        return [replace(first[name], feedback=Feedback.EVERY) for name in kinds]

    @contextmanager
    def history(self) -> Iterator[History]:
        """The history it is kept in, open; closed, and thrown away where it has no folder."""
        with ExitStack() as stack:
            folder = self.folder or stack.enter_context(_passing_folder())
            yield stack.enter_context(open_history(folder, self.levels))


@contextmanager
def _passing_folder() -> Iterator[Path]:
    """A folder that is thrown away. Raises StoreError where none can be made."""
    try:
        folder = tempfile.TemporaryDirectory(prefix="stillfoot-")
    except OSError as error:
        raise StoreError(
            f"temporary folder: expected a place to make one, found: {error.strerror}"
        ) from error
    with folder as name:
        yield Path(name)
