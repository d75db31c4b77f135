"""Words on a personal limit, the same in every room."""

from __future__ import annotations

from engine.practice.personal_limit import PersonalLimit
from engine.practice.steadiness import WINDOW


def personal_words(limit: PersonalLimit) -> str:
    """A personal limit in a few words: "0.62 of the limit, best 0.58", "12 of 36" before it.

    The best stands beside it only where it is lower as both are written.
    """
    if limit.factor is None:
        return f"{len(limit.loads)} of {WINDOW}"
    now = figure(limit.factor)
    if limit.best is None or limit.best >= limit.factor or figure(limit.best) == now:
        return f"{now} of the limit"
    return f"{now} of the limit, best {figure(limit.best)}"


def figure(factor: float) -> str:
    """A factor on the limits of a level as a player reads it, to two places: "0.62"."""
    return f"{factor:.2f}"
