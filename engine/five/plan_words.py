"""Words for a planned session and for the time left, shown on the home screen."""

from __future__ import annotations

from collections.abc import Sequence

from engine.five.planner import Planned, checks_in
from engine.practice.results import Purpose


def plan_words(planned: Sequence[Planned], due: int) -> str:
    """Parts of a planned session in words, in order, up to the level to learn.

    `due` is the number of levels that are due for a retention check, whether there is time or not.
    """
    again = f"{due_words(checks_in(planned), due)} to show again"
    words = {Purpose.DUE: again, Purpose.BAND: "steadiness"}
    learned = next((rep.level.title for rep in planned if rep.why is Purpose.LEARN), "")
    parts: list[str] = []
    for why in dict.fromkeys(rep.why for rep in planned):
        if why is Purpose.LEARN:
            return ", then ".join([", ".join(parts), learned] if parts else [learned])
        parts.append(words.get(why, why.value))
    return ", ".join(parts)


def due_words(checked: int, due: int) -> str:
    """Levels that a session has time to check, of all that are due, such as "4 of 28"."""
    return f"{checked} of {due}" if due > checked else f"{checked}"


def time_left_words(seconds: float) -> str:
    """Duration in words, rounded, such as "3 minutes" or "40 seconds"."""
    if seconds < 55:
        return f"{max(round(seconds / 10), 1) * 10} seconds"
    minutes = round(seconds / 60)
    return "1 minute" if minutes == 1 else f"{minutes} minutes"
