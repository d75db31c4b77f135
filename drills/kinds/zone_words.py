"""What is said of a braking zone: its worst part, what to attend to, and the figure."""

from __future__ import annotations

from drills.level import Level
from drills.remark import Remark
from drills.score import Verdict


def comment(level: Level, verdict: Verdict) -> Remark:
    """Remark on a braking zone that counts."""
    return Remark(verdict.worst or verdict.reason.value, ("A zone.",), ("Again.",))


def missed(level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
    """Figure for what was asked and not done."""
    return None


def lean(verdict: Verdict) -> float | None:
    """Bubble after a braking zone."""
    return None


def is_early(verdict: Verdict) -> bool:
    """Whether the brake left before the throttle of the deepest dip."""
    return verdict.amount("early") > 5.0
