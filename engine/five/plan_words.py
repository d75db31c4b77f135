"""Words for the parts of a session, for a planned one and for the time left."""

from __future__ import annotations

from collections.abc import Sequence

from engine.five.planner import Planned, checks_in
from engine.practice.results import Purpose

PARTS = {
    why: why.words
    for why in (
        Purpose.DUE,
        Purpose.BAND,
        Purpose.LEARN,
        Purpose.FAULT,
        Purpose.OWN,
        Purpose.MIX,
        Purpose.DARK,
        Purpose.WARM,
    )
}
"""Word for each part of a session, by its purpose, in the order of the parts."""


def plan_words(planned: Sequence[Planned], due: int, fault: str = "") -> str:
    """Parts of a planned session in words, in order, up to the level that is new.

    Where none is new they end with the practice towards personal limits. `due` is the number of
    levels that are due for a retention check, whether there is time or not; `fault` is what
    practice for a fault is for, in words: it is named before the end, or left out if empty.
    """
    whys = list(dict.fromkeys(rep.why for rep in planned))
    aim = next((why for why in (Purpose.LEARN, Purpose.OWN) if why in whys), None)
    if aim is not None:
        for_fault = [Purpose.FAULT] if fault and Purpose.FAULT in whys else []
        before = whys[: whys.index(aim)]
        whys = [*(why for why in before if why is not Purpose.FAULT), *for_fault, aim]
    learned, own = (
        [rep.level.title for rep in planned if rep.why is why]
        for why in (Purpose.LEARN, Purpose.OWN)
    )
    names = {
        Purpose.LEARN: learned[0] if learned else "",
        Purpose.DUE: check_words(checks_in(planned), due),
        Purpose.FAULT: fault or PARTS[Purpose.FAULT],
        Purpose.OWN: own_words(own),
    }
    parts = [names.get(why) or PARTS.get(why, why) for why in whys]
    if aim is None or len(parts) == 1:
        return ", ".join(parts)
    return ", then ".join([", ".join(parts[:-1]), parts[-1]])


def own_words(titles: Sequence[str]) -> str:
    """Practice towards a lower personal limit of these levels, such as "personal limit: Closer"."""
    named = list(dict.fromkeys(titles))
    return f"{PARTS[Purpose.OWN]}: {named[0]}" if len(named) == 1 else f"{PARTS[Purpose.OWN]}s"


def still_there_words(checked: int, due: int) -> str:
    """What a session does first after a long rest; it has time to check so many of those due."""
    return f"Let's see what is still there: {checked} of {due} today"


def check_words(checked: int, due: int) -> str:
    """Retention checks that a session has time for, such as "4 of 28 check-ups"."""
    number = due_words(checked, due)
    return f"{number} check-up" if number == "1" else f"{number} check-ups"


def due_words(checked: int, due: int) -> str:
    """Levels that a session has time to check, of all that are due, such as "4 of 28"."""
    return f"{checked} of {due}" if due > checked else f"{checked}"


def time_left_words(seconds: float) -> str:
    """Duration in words, rounded, such as "3 minutes" or "40 seconds"."""
    if seconds < 55:
        return f"{max(round(seconds / 10), 1) * 10} seconds"
    minutes = round(seconds / 60)
    return "1 minute" if minutes == 1 else f"{minutes} minutes"
