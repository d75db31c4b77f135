"""Words of the replay of a repetition."""

from __future__ import annotations

from datetime import date

from engine.date_words import dated_words

FAINT = "The faint curve is what you just did."
IS_BEST = "This one is your best."
NO_OTHER = "Nothing to compare with yet."
NOT_COMPARABLE = "Your best cannot be compared with this one."
SPEEDS = {0.25: "quarter speed", 0.5: "half speed", 1.0: "real time", 2.0: "double speed"}
"""How fast a replay is, by its speed as a share of real time."""


def speed_words(speed: float) -> str:
    """How fast a replay is, such as "quarter speed"; `speed` is a share of real time."""
    return SPEEDS.get(speed, f"{speed:g} times as fast")


def best_words(day: date, today: date, *, is_best: bool = True) -> str:
    """What the replay of the best repetition is of: "Your best, 12 May" or "Your best, today".

    `is_best` is whether none has a higher score, such as one that cannot be compared any more.
    """
    best = "Your best" if is_best else "Your best to compare with"
    return f"{best}, {'today' if day == today else dated_words(day, today)}"
