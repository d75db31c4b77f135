"""Words of the coach's page: what stands out or why nothing does, and what answers it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from drills.capitals import capitalised
from drills.fault import Fault
from drills.fault_names import fault_name
from engine.date_words import day_words
from engine.practice.diagnosis import LEAST, FaultShare, diagnose

QUESTION = "What holds me back?"
"""Question that the coach's page answers."""
COMES = f"comes with {LEAST} blips"
"""When the coach's page has something to say."""
NO_PICTURE = "The curves of these blips cannot be drawn."
"""What stands in place of the picture where no trace can be drawn."""
MOST_TITLES = 2
"""Most levels that are named as those that answer a fault, as a count."""


def few_words(blips: int) -> str:
    """How many of the blips there are that it takes to tell something."""
    return f"{blips} of {LEAST} blips."


def nothing_words(blips: int) -> str:
    """Sentence where no fault stands out among so many blips."""
    return f"Nothing stands out in your last {blips} blips."


def would_words(blips: int) -> str:
    """What would stand out among so many blips."""
    least = least_told(blips)
    return f"One fault in {least} of {blips}, ahead of all others, would."


def least_told(blips: int) -> int:
    """Fewest of so many blips whose one fault would be told, as a count; there are 20 or more."""
    return next(
        times
        for times in range(1, blips + 1)
        if diagnose([Fault.DIP] * times + [None] * (blips - times)) is not None
    )


def settling_words(on: date) -> str:
    """Sentence on a fault that stands out again soon after it halved on a local day."""
    return f"It halved on {day_words(on)}: let it settle."


def was_words(was: FaultShare) -> str:
    """How often a fault came when it was told."""
    return f"It was {was.times} of {was.of}."


def halved_words(was: FaultShare, now: FaultShare) -> str:
    """Sentence on a fault that comes half as often: "Early roll: 11 of 40, was 22. Halved."."""
    before = f"{was.times}" if was.of == now.of else f"{was.times} of {was.of}"
    name = capitalised(fault_name(now.fault))
    return f"{name}: {now.times} of {now.of}, was {before}. Halved."


def levels_words(titles: Sequence[str]) -> Iterator[str]:
    """Line on the levels that answer a fault, the fullest first; none where there are none."""
    for count in range(min(len(titles), MOST_TITLES), 0, -1):
        yield f"Practise: {', '.join(titles[:count])}"


def curves_words(fault: Fault | None, count: int, without: int) -> str:
    """What the curves of the picture are."""
    if fault is None:
        return f"Bold: typical of your newest {count}" if count > 1 else "Your newest blip"
    bold = f"Bold: typical of {count} such blips" if count > 1 else "Bold: one such blip"
    return f"{bold}. Thin: {without} without" if without else bold
