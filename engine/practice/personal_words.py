"""Words on a personal limit, the same in every room."""

from __future__ import annotations

from datetime import date

from drills.capitals import capitalised
from drills.score import ABSENT
from engine.practice.personal_limit import PersonalLimit
from engine.practice.steadiness import WINDOW

OF_THE_LIMIT = "of the limit"
"""What a factor on the limits of a level is a part of."""


def personal_words(limit: PersonalLimit) -> str:
    """A personal limit in a few words: "0.62 of the limit, best 0.58", "12 of 36" before it.

    The best stands beside it only where it is lower as both are written.
    """
    if limit.factor is None:
        return f"{len(limit.loads)} of {WINDOW}"
    now = figure(limit.factor)
    if limit.best is None or limit.best >= limit.factor or figure(limit.best) == now:
        return f"{now} {OF_THE_LIMIT}"
    return f"{now} {OF_THE_LIMIT}, best {figure(limit.best)}"


def personal_sentence(limit: PersonalLimit, today: date) -> str:
    """Sentence on a personal limit at the end of a set; `today` is the local day."""
    if limit.factor is None:
        return f"Personal limit: {personal_words(limit)} repetitions."
    best = limit.new_best_on(today)
    if best is not None:
        return f"{capitalised(figure(best))} {OF_THE_LIMIT} is your new best."
    words = personal_words(limit).replace(OF_THE_LIMIT, f"{OF_THE_LIMIT} now", 1)
    return f"{capitalised(words)}."


def figure(factor: float) -> str:
    """A factor on the limits of a level as a player reads it, to two places: "0.62".

    "over 4" where it is that of a value that could not be measured, which stands for all above.
    """
    return f"over {ABSENT:g}" if factor >= ABSENT else f"{factor:.2f}"
