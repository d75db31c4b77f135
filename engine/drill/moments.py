"""`Moments`: shows what a set or a session achieves, each thing once, as soon as it may be told."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from drills.level import Level
from engine.drill.attempt import Setting
from engine.drill.moment import Moment
from engine.drill.moment_rules import Achievement, AchievementKind, best_of_set, greatest_first
from engine.drill.moment_words import line_words, next_words
from engine.drill.set_log import SetLog
from engine.kit.base import Place
from engine.kit.flow import show
from engine.kit.timed_screen import TimedOutcome
from engine.practice.passes import next_level, reveals_each, sums_up
from engine.stage.earcon import Earcon
from engine.stage.scene import Flow
from engine.store import ledger

Following = Callable[[], Level | None]
"""Function that returns the level to learn next; None where there is none."""


class Moments:
    """What a set or session has achieved and not shown yet.

    A level that is passed or retained waits until the player may know how its repetitions went, and
    a row of clean ones until all of them may be known: levels without a reveal each time hold that
    back up to their summary, or to the end.
    """

    def __init__(self, setting: Setting, following: Following) -> None:
        """`following` says what comes next, as its moment comes up."""
        self._setting = setting
        self._following = following
        self._waiting: list[Achievement] = []
        self._untold = set[str]()
        self._taken = set[tuple[AchievementKind, str]]()

    @property
    def waiting(self) -> tuple[Achievement, ...]:
        """What was achieved and not shown yet."""
        return tuple(self._waiting)

    def take(self, log: SetLog, *, told: bool = False) -> None:
        """Take what the newest repetition of `log` achieved; it waits for `show` or for the end.

        `told`: the player is told how the repetitions went, although their level holds it back.
        """
        if any(one.kind is AchievementKind.ROW for one in log.achieved):
            self._waiting = [one for one in self._waiting if one.kind is not AchievementKind.ROW]
        # Several logs of one level, each for another purpose, may tell the same.
        new = [one for one in log.achieved if (one.kind, one.level) not in self._taken]
        self._taken.update((one.kind, one.level) for one in new if one.level)
        self._waiting += new
        if told or reveals_each(log.level) or sums_up(log.level, log.counted):
            self._untold.discard(log.level.id)
        else:
            self._untold.add(log.level.id)

    def show(self, place: Place | None = None) -> Flow[bool]:
        """Show what was achieved and may be told by now, between two repetitions.

        Returns whether the player asks for the menu. Raises StoreError.
        """
        ready = [one for one in self._waiting if self._may_be_told(one)]
        self._waiting = [one for one in self._waiting if one not in ready]
        return (yield from celebrate(ready, self._setting, self._following, place))

    def end_set(self, log: SetLog) -> Flow[None]:
        """At the end of a set: show what waits, and a best that the set beat. Raises StoreError."""
        best = () if log.is_tryout else best_of_set(log.level, log.before, log.streaks)
        waiting, self._waiting = [*self._waiting, *best], []
        yield from celebrate(waiting, self._setting, self._following)

    def _may_be_told(self, achievement: Achievement) -> bool:
        """Whether the player knows how the repetitions behind an achievement went."""
        if achievement.level:
            return achievement.level not in self._untold
        return not self._untold


def celebrate(
    achievements: Sequence[Achievement],
    setting: Setting,
    following: Following,
    place: Place | None = None,
) -> Flow[bool]:
    """Show one moment of all these achievements, with its sound; nothing where there are none.

    The greatest leads, and the others are its quiet line. Returns whether the player asks for the
    menu. Raises StoreError.
    """
    if not achievements:
        return False
    greatest, *others = greatest_first(achievements)
    note = greatest.note
    if greatest.kind is AchievementKind.PASSED and not others:
        level = following()
        note = "" if level is None else next_words(level.title)
    line = line_words([one.words for one in others], note)
    setting.stage.speaker.play(Earcon(greatest.kind))
    after = yield from show(Moment(greatest, line, place), setting.rig, setting.stage)
    return after is TimedOutcome.MENU


def next_to_learn(setting: Setting) -> Level | None:
    """The first open level that is not passed yet; None if there is none. Raises StoreError."""
    if setting.history is None or not setting.levels:
        return None
    done = ledger.passed(setting.history) | ledger.placed(setting.history)
    level = next_level(setting.levels, done, setting.there)
    return None if level.id in done else level
