"""The level whose turn it is to be learned, and the easier one to work on while it is too hard."""

from __future__ import annotations

from collections.abc import Sequence

from drills.level import Level
from drills.trace import Pedal
from engine.practice.passes import is_open
from engine.practice.results import Purpose, Result

LATEST = 10
"""count, newest repetitions of a level that say whether it is too hard or too easy."""
TOO_HARD = 4
"""count, clean ones of them under which the foot works on the level below."""
EASY = 9
"""count, clean ones of them from which it works on the level above again."""
TURN = 5
"""count, repetitions of a level before another that is open has its turn."""


def learned(
    levels: Sequence[Level],
    done: frozenset[str],
    pedals: frozenset[Pedal],
    recent: Sequence[Result] = (),
) -> Level:
    """The level to be learned now, after recent repetitions, oldest first.

    The open levels that are not passed take turns, a few repetitions each, the one that waited
    longest first; one that is too hard waits while another is not. Where all are passed it is the
    last open one. Raises ValueError where none is open.
    """
    opened = [level for level in levels if is_open(level, done, pedals)]
    if not opened:
        raise ValueError("expected at least one level without needs, found none")
    left = {level.id: level for level in opened if level.id not in done}
    if not left:
        return opened[-1]
    tried: dict[str, list[bool]] = {name: [] for name in left}
    worked = []
    for result in recent:
        if not result.counts:
            continue
        if result.level in left:
            tried[result.level].append(result.clean)
        if result.why is Purpose.LEARN:
            worked.append(result.level)
    ready = [one for one in left if not _is_too_hard(tried[one][-LATEST:])] or list(left)
    if worked and worked[-1] in ready and _row(worked) % TURN:
        return left[worked[-1]]
    last = {level: place for place, level in enumerate(worked)}
    return left[min(ready, key=lambda level: last.get(level, -1))]


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
        if result.level != way[place].id or not result.counts:
            continue
        stay = [*stay, result.clean][-LATEST:]
        if _is_too_hard(stay) and place + 1 < len(way):
            place, stay = place + 1, []
        elif sum(stay) >= EASY and place > 0:
            place, stay = place - 1, []
    return way[place]


def _is_too_hard(newest: Sequence[bool]) -> bool:
    return len(newest) == LATEST and sum(newest) < TOO_HARD


def _row(worked: Sequence[str]) -> int:
    """How often the newest came in a row."""
    return next((k for k, one in enumerate(reversed(worked)) if one != worked[-1]), len(worked))
