"""`Demonstration`: what a demo of the simulated foot plays, and where its history is stored."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from drills.level import Feedback, Level
from engine.store import History, open_history
from engine.store.temporary import temporary_folder

if TYPE_CHECKING:
    from engine.pedals.faults import Fault


@dataclass(frozen=True)
class Demonstration:
    """Settings of a demo, in which a simulated foot plays."""

    level: Level
    """Level that the demo plays, except on a tour."""
    repetitions: int
    """Number of repetitions in a set of the demo."""
    seed: int
    """Seed of the simulated foot, which plays the same for the same seed."""
    skill: float
    """Skill of the simulated foot, from 0 (beginner) to 1 (expert)."""
    folder: Path | None = None
    """Data folder of the demo's own history; None for a temporary one."""
    levels: Sequence[Level] = ()
    """All levels; a mixed level draws from those of them that it needs."""
    tour: bool = False
    """Whether one level of every kind is played in turn, instead of `level`."""
    fault: Fault | None = None
    """Fault of the pedals that the demo shows; None for pedals without one."""

    @property
    def label(self) -> str:
        """Label on every screen of the demo."""
        demo = "Demo" if self.fault is None else f"Demo of faulty pedals ({self.fault.name})"
        return f"{demo}: {'nothing is saved' if self.folder is None else 'nothing of it counts'}"

    @property
    def played_levels(self) -> Sequence[Level]:
        """Levels that the demo plays, in order; on a tour each repetition has a reveal."""
        if not self.tour:
            return (self.level,)
        first = {level.kind.name: level for level in reversed(self.levels)}
        kinds = dict.fromkeys(level.kind.name for level in self.levels)
        return [replace(first[name], feedback=Feedback.EVERY) for name in kinds]

    def repetitions_of(self, level: Level) -> int:
        """How many repetitions of a level the tour plays: at least a pair where it comes in pairs.

        Otherwise chance might show only the half without the second task.
        """
        return max(self.repetitions, 2) if level.kind.in_pairs else self.repetitions

    @contextmanager
    def history(self) -> Iterator[History]:
        """Open the demo's history; a temporary one is deleted afterwards. Raises StoreError."""
        with ExitStack() as stack:
            folder = self.folder or stack.enter_context(temporary_folder())
            yield stack.enter_context(open_history(folder, self.levels))
