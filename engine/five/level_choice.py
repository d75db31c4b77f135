"""Choice of the level to learn next, and of an easier one to practise while it is too hard."""

from __future__ import annotations

from collections.abc import Sequence

from drills.level import Level
from engine.practice.passes import is_open
from engine.practice.results import Purpose, Result

LATEST = 10
"""Newest repetitions of a level that show whether it is too hard or too easy, as a count."""
TOO_HARD = 4
"""Clean repetitions in the newest ten of a level, below which it is too hard, as a count."""
EASY = 9
"""Clean repetitions in the newest ten of an easier level that lead back up, as a count."""
TURN = 5
"""Repetitions of a level before the next level being learned has its turn, as a count."""


def learned(
    levels: Sequence[Level],
    done: frozenset[str],
    pedals: frozenset[str],
    recent: Sequence[Result] = (),
) -> Level:
    """The level to learn next, given the `recent` repetitions, oldest first.

    The open levels that are not done take turns of a few repetitions each; the one that waited
    longest comes first, and one that is too hard waits while another is not. Where all are done it
    is the last open one. Raises ValueError where none is open.
    """
    opened = [level for level in levels if is_open(level, done, pedals)]
    if not opened:
        raise ValueError("expected at least one level without needs, found none")
    left = {level.id: level for level in opened if level.id not in done}
    if not left:
        return opened[-1]
    outcomes: dict[str, list[bool]] = {name: [] for name in left}
    worked = []
    for result in recent:
        if not result.counts:
            continue
        if result.level in left:
            outcomes[result.level].append(result.clean)
        if result.why is Purpose.LEARN:
            worked.append(result.level)
    ready = [name for name in left if not _is_too_hard(outcomes[name][-LATEST:])] or list(left)
    if worked and worked[-1] in ready and _turn_length(worked) % TURN:
        return left[worked[-1]]
    last = {name: place for place, name in enumerate(worked)}
    return left[min(ready, key=lambda name: last.get(name, -1))]


def way_down(level: Level, levels: Sequence[Level]) -> list[Level]:
    """A level, then the hardest level it needs, and so on down to one that needs none.

    The one below a level is the hardest of those it needs.
    """
    order = {other.id: place for place, other in enumerate(levels)}
    way = [level]
    while below := [need for need in way[-1].needs if need in order]:
        way.append(levels[max(order[need] for need in below)])
    return way


def worked_on(level: Level, levels: Sequence[Level], recent: Sequence[Result]) -> Level:
    """Level to practise in order to learn `level`, given `recent` repetitions, oldest first.

    It is the level itself until fewer than 4 of its last 10 are clean; then the one below, until 9
    of 10 are clean there. The count of ten starts over with every change of level.
    """
    way = way_down(level, levels)
    place, outcomes = 0, list[bool]()
    for result in recent:
        if result.level != way[place].id or not result.counts:
            continue
        outcomes = [*outcomes, result.clean][-LATEST:]
        if _is_too_hard(outcomes) and place + 1 < len(way):
            place, outcomes = place + 1, []
        elif sum(outcomes) >= EASY and place > 0:
            place, outcomes = place - 1, []
    return way[place]


def _is_too_hard(newest: Sequence[bool]) -> bool:
    """Whether too few of a level's newest ten repetitions were clean."""
    return len(newest) == LATEST and sum(newest) < TOO_HARD


def _turn_length(worked: Sequence[str]) -> int:
    """How often the level practised last was practised in a row; `worked` are level ids."""
    newest_first = enumerate(reversed(worked))
    return next((count for count, name in newest_first if name != worked[-1]), len(worked))
