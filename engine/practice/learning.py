"""The level that is being learned, and the easier one to work on while it is too hard."""

from __future__ import annotations

from collections.abc import Sequence

from drills.level import Level
from drills.trace import Pedal
from engine.practice.progress import is_open
from engine.practice.results import Result

LATEST = 10
"""count, newest repetitions of a level that say whether it is too hard or too easy."""
TOO_HARD = 4
"""count, clean ones of them under which the foot works on the level below."""
EASY = 9
"""count, clean ones of them from which it works on the level above again."""


def learned(levels: Sequence[Level], done: frozenset[str], pedals: frozenset[Pedal]) -> Level:
    """The level to be learned: the first open one that is not passed, else the last open one.

    Raises ValueError where none is open.
    """
    opened = [level for level in levels if is_open(level, done, pedals)]
    if not opened:
        raise ValueError("expected at least one level without needs, found none")
    return next((level for level in opened if level.id not in done), opened[-1])


def way_down(level: Level, levels: Sequence[Level]) -> list[Level]:
    """A level, the one below it, the one below that, and so on to the first.

    Below a level is the hardest of those that it needs.
    """
    order = {one.id: place for place, one in enumerate(levels)}
    way = [level]
    while below := [need for need in way[-1].needs if need in order]:
        way.append(levels[max(order[need] for need in below)])
    return way


def worked_on(level: Level, levels: Sequence[Level], recent: Sequence[Result]) -> Level:
    """The level to work on in order to learn one, after recent repetitions, oldest first.

    It is the level itself; with fewer than 4 clean of the last 10 the one below, and with 9 clean
    of 10 there the one above again. Each stay on a level is counted anew.
    """
    way = way_down(level, levels)
    place, stay = 0, list[bool]()
    for result in recent:
        if not result.counts or result.level != way[place].id:
            continue
        stay = [*stay, result.clean][-LATEST:]
        if len(stay) < LATEST:
            continue
        if sum(stay) < TOO_HARD and place + 1 < len(way):
            place, stay = place + 1, []
        elif sum(stay) >= EASY and place > 0:
            place, stay = place - 1, []
    return way[place]
