"""Marks of the repetitions of a session."""

from __future__ import annotations

from collections.abc import Sequence

from engine.five.planner import Planned
from engine.kit.repetition_marks import Mark
from engine.practice.results import Purpose, Result

OF_ONE_LEVEL = frozenset({Purpose.DUE, Purpose.LEARN})
"""Purposes whose repetitions belong together only on the same level."""


def mark_of_result(result: Result) -> Mark:
    """Mark that stands for one repetition of a session."""
    if not result.counts:
        return Mark.VOID
    return Mark.CLEAN if result.clean else Mark.MISSED


def marks_before(planned: Planned, results: Sequence[Result]) -> tuple[Mark, ...] | None:
    """Marks of the repetitions that belong with a planned one, such as those of its check-up.

    None for a blip of the steadiness staircase: one outside its tolerance is not missed.
    """
    if planned.why is Purpose.BAND:
        return None
    alike = (result for result in results if result.why is planned.why)
    if planned.why in OF_ONE_LEVEL:
        alike = (result for result in alike if result.level == planned.level.id)
    return tuple(map(mark_of_result, alike))
