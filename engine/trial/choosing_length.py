"""Flow that asks how long a trial is to be, with what each length finds and takes this player."""

from __future__ import annotations

from collections.abc import Sequence

from drills.level import Level
from engine.drill.attempt import Setting
from engine.five.player_history import player_state_of
from engine.kit.flow import show
from engine.stage.scene import Flow
from engine.store import History
from engine.store.changes import scale_start
from engine.trial.length import ChangeTime, Length, OwnSpread, guessed, lengths, own_spread
from engine.trial.length_screens import HowLongChange, TrialLength
from engine.trial.saved_length import change_time, keep_change_time, newest_blips
from engine.trial.trial import SetUp

NEWEST = 100
"""Number of newest blips on a level from which the spread of the player's dips is estimated."""


def choose_length(
    level: Level, arms: tuple[SetUp, SetUp], setting: Setting, history: History, band: Level
) -> Flow[Length | None]:
    """Ask for the number of pairs of a trial; None if the player goes back. Raises StoreError.

    How long a change takes is asked before, the first time, and stored.
    """
    change = change_time(history)
    if change is None:
        asked = yield from show(HowLongChange(likely_change(*arms)), setting.rig, setting.stage)
        if not isinstance(asked, ChangeTime):
            return None
        keep_change_time(history, change := asked)
    spread = spread_on(level, (*setting.levels, band), history)
    there, today = setting.there, setting.now().date()
    pace = player_state_of(history, setting.levels, band, there, today).pace.of(level)
    offered = {time: lengths(spread.points, pace, time) for time in ChangeTime}
    screen = TrialLength(offered, change, spread)
    length = yield from show(screen, setting.rig, setting.stage)
    if screen.change is not change:
        keep_change_time(history, screen.change)
    return length if isinstance(length, Length) else None


def likely_change(a: SetUp, b: SetUp) -> ChangeTime:
    """Time that a change between two set-ups is likely to take, by what differs in them."""
    if a.shoes is not b.shoes or a.spacing is not b.spacing:
        return ChangeTime.SHOES
    return ChangeTime.SECONDS


def spread_on(level: Level, levels: Sequence[Level], history: History) -> OwnSpread:
    """Spread of the player's dips on a level, in points, or as near to it as it is known.

    It is taken from the newest blips on the level itself; with too few of them, from the nearest
    level of the same kind of drill that has enough, `levels` being in the order of the ladder; with
    too few there too, it is a guess. Raises StoreError.
    """
    after = scale_start(history)
    for other in nearest(level, levels):
        blips = newest_blips(history, other.id, NEWEST, after)
        points = own_spread(blips)
        if points is not None:
            return OwnSpread(points, other.title, len(blips), other.id == level.id)
    return guessed()


def nearest(level: Level, levels: Sequence[Level]) -> list[Level]:
    """The levels of a level's kind of drill, itself first, then the nearest in their order.

    Of two that are equally near the earlier comes first: it is the one that was played longer.
    """
    ids = [other.id for other in levels]
    place = ids.index(level.id) if level.id in ids else len(ids)
    alike = [
        (abs(number - place), number)
        for number, other in enumerate(levels)
        if other.kind.name == level.kind.name
    ]
    return [levels[number] for _, number in sorted(alike)]
