"""Marks of the repetitions of a session."""

from __future__ import annotations

from collections.abc import Sequence

from engine.five.planner import Planned
from engine.kit.repetition_marks import Mark
from engine.practice.passes import reveals_each
from engine.practice.results import Result


def mark_of_result(result: Result) -> Mark:
    """Mark that stands for one repetition of a session."""
    if not result.counts:
        return Mark.VOID
    return Mark.CLEAN if result.clean else Mark.MISSED


def marks_before(planned: Planned, results: Sequence[Result]) -> tuple[Mark, ...] | None:
    """Marks of the repetitions of the same level and purpose as a planned one.

    None where not each of them has a reveal, as in a check-up: a mark would tell what it holds
    back.
    """
    if not reveals_each(planned.as_played):
        return None
    alike = (
        result
        for result in results
        if (result.why, result.level) == (planned.why, planned.level.id)
    )
    return tuple(map(mark_of_result, alike))
