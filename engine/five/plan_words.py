"""Words for the parts of a session, for a planned one and for the time left."""

from __future__ import annotations

from collections.abc import Sequence

from engine.five.planner import Planned, checks_in
from engine.practice.results import Purpose

PARTS = {
    Purpose.DUE: "check-up",
    Purpose.BAND: "steadiness",
    Purpose.LEARN: "new",
    Purpose.FAULT: "for a fault",
    Purpose.OWN: "personal limit",
    Purpose.MIX: "revision",
    Purpose.DARK: "nothing shown",
    Purpose.WARM: "warm-up",
}
"""Word for each part of a session, by its purpose, in the order of the parts."""


def plan_words(planned: Sequence[Planned], due: int) -> str:
    """Parts of a planned session in words, in order, up to the level that is new.

    `due` is the number of levels that are due for a retention check, whether there is time or not.
    """
    learned = next((rep.level.title for rep in planned if rep.why is Purpose.LEARN), "")
    parts: list[str] = []
    for why in dict.fromkeys(rep.why for rep in planned):
        if why is Purpose.LEARN:
            return ", then ".join([", ".join(parts), learned] if parts else [learned])
        is_check = why is Purpose.DUE
        parts.append(check_words(checks_in(planned), due) if is_check else PARTS.get(why, why))
    return ", ".join(parts)


def check_words(checked: int, due: int) -> str:
    """Retention checks that a session has time for, such as "4 of 28 check-ups"."""
    number = due_words(checked, due)
    return f"{number} check-up" if number == "1" else f"{number} check-ups"


def due_words(checked: int, due: int) -> str:
    """Levels that a session has time to check, of all that are due, such as "4 of 28"."""
    return f"{checked} of {due}" if due > checked else f"{checked}"


def purpose_words(why: Purpose, asked: float | None = None) -> str:
    """Purpose of a repetition in a session; `asked` is a steadiness blip's tolerance in points."""
    if why is Purpose.BAND and asked is not None:
        return f"steadiness within {asked:.0f} points"
    return PARTS.get(why, why.value)


def time_left_words(seconds: float) -> str:
    """Duration in words, rounded, such as "3 minutes" or "40 seconds"."""
    if seconds < 55:
        return f"{max(round(seconds / 10), 1) * 10} seconds"
    minutes = round(seconds / 60)
    return "1 minute" if minutes == 1 else f"{minutes} minutes"
