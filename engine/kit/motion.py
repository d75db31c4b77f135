"""Motion of parts of a screen: how far a movement is at a time, eased at both ends."""

from __future__ import annotations

from dataclasses import dataclass

from drills.trace import nanoseconds

SHORT = 0.15
"""Duration of a small movement, such as a choice that is selected, in s."""
LONG = 0.3
"""Duration of a larger movement, such as a step up the climb, in s."""


def eased(share: float) -> float:
    """Share of the way after a share of the time, both 0 to 1: slow at both ends (smoothstep)."""
    within = min(max(share, 0.0), 1.0)
    return within * within * (3 - 2 * within)


@dataclass(frozen=True)
class Movement:
    """One movement from 0 to 1, which begins at a time and takes a while."""

    begins: int
    """Time at which it begins, in ns on the clock of the pedals."""
    lasts: float = LONG
    """Duration, in s; 0 for one that is over as it begins."""

    def share(self, now: int) -> float:
        """Eased share of the way at `now` (ns), 0 to 1."""
        if self.is_over(now):
            return 1.0
        return eased((now - self.begins) / nanoseconds(self.lasts))

    def is_over(self, now: int) -> bool:
        """Whether the movement has ended at `now` (ns)."""
        return now - self.begins >= nanoseconds(self.lasts)
