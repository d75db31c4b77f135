"""One repetition: what it is of, how it is played, and the record of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

import numpy as np

from drills.deviation import Deviation
from drills.level import Level
from drills.measures.sampling import measure_sampling
from drills.repetition import Repetition
from drills.score import Reason, Verdict, unjudged
from drills.task import Task
from drills.trace import SECOND
from engine.drill.interruptions import Unplugged
from engine.drill.repetition_screen import RepetitionScreen
from engine.kit.base import Place
from engine.kit.flow import show
from engine.pedals.identity import Missing
from engine.pedals.rig import Rig
from engine.practice.passes import needed
from engine.practice.results import Purpose
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History, Record, ledger

Now = Callable[[], datetime]
"""Local date and time with its offset from UTC, asked for once a repetition."""


@dataclass(frozen=True)
class Setting:
    """What a set is played with, and where it goes."""

    rig: Rig
    """What it is played with."""
    stage: Stage
    """Where it is seen, heard and told."""
    history: History | None
    """Where it is kept; None for a try-out, of which nothing is."""
    rng: np.random.Generator
    """Where its chance comes from."""
    now: Now
    """Tells the local date and time."""
    screen: type[RepetitionScreen] = RepetitionScreen
    """How a repetition is shown."""
    levels: Sequence[Level] = ()
    """All there are: a mixed level draws from those of them that are passed."""

    @property
    def asks_guesses(self) -> bool:
        """Whether the player is asked to guess: only feet whose repetitions are kept are."""
        return self.history is not None and self.rig.counts

    def passed(self, level: Level) -> list[Level]:
        """The levels that a mixed one draws from: those passed, as far as pedals are there.

        Where nothing is kept, or nothing is passed yet, those that it needs; of those too there
        may be none, then the ones that need nothing themselves.
        """
        history, there = self.history, self.rig.there
        done = frozenset[str]()
        if history is not None and self.rig.counts:
            done = ledger.passed(history) | ledger.placed(history)
        playable = [one for one in self.levels if there.issuperset(one.pedals)]
        pools = (
            [one for one in playable if one.id in done],
            needed(level, playable),
            [one for one in playable if not one.needs],
        )
        drawable = ([one for one in pool if one.kind.name != level.kind.name] for pool in pools)
        return next(filter(None, drawable), [])


@dataclass(frozen=True)
class Attempt:
    """One repetition that was played."""

    level: Level
    """What it really was of."""
    ended: Repetition
    """How it ended."""
    record: Record | None
    """To be kept; None where the player left before anything was asked."""
    picture: Deviation | None
    """The picture of it; None where there is nothing to show."""
    asked_for_menu: bool
    """Whether it was left by way of the menu."""

    @property
    def left(self) -> bool:
        """Whether the player left it."""
        return self.ended.left or self.ended.void is Reason.LEFT


@dataclass(frozen=True)
class Assignment:
    """What is asked next."""

    level: Level
    """The level of the set."""
    drawn: Level
    """The level that is played: the same, or one that it drew."""
    seed: int
    """Of the chance of the set."""
    why: Purpose = Purpose.CHOSEN
    """Why it comes."""
    session: int | None = None
    """Number of what it is part of, in the history; None where that runs not by itself."""
    since: int | None = None
    """ns, since when the time counts that it takes; None where nobody asks."""
    asked: float | None = None
    """points, a tolerance asked in the place of the level's own; None where none is."""
    turn: int | None = None
    """From 1, whose turn among the targets it is; None where its place in the set says so."""
    trial: int | None = None
    """Number of the trial it is part of, in the history; None where it is of none."""
    block: int | None = None
    """From 0, which block of the trial it is of; None where it is of none."""

    @property
    def is_drawn(self) -> bool:
        """Whether it is another."""
        return self.drawn.id != self.level.id

    def kept(self, record: Record, ended: int) -> Record:
        """A record of the level that was played, as one of the level of the set.

        `ended` is ns, when it did.
        """
        return replace(
            record,
            level=self.level.id,
            rule=self.level.rule,
            seed=self.seed,
            drawn=self.drawn.id if self.is_drawn else "",
            why=self.why,
            session=self.session,
            took=None if self.since is None else (ended - self.since) / SECOND,
            asked=self.asked,
            trial=self.trial,
            block=self.block,
        )


def attempt(
    asked: Assignment, place: Place, setting: Setting, rng: np.random.Generator
) -> Flow[Attempt]:
    """Play one repetition, with its chance from a generator of its own."""
    rig, stage, level = setting.rig, setting.stage, asked.drawn
    target = level.targets.at(place.number if asked.turn is None else asked.turn, rng)
    task = level.kind.task(level, target, rng)
    shown = replace(level, title=asked.level.title)
    if asked.is_drawn:
        place = replace(place, named=level.kind.title)
    screen = setting.screen(shown, task, place, stage, rig.clock())
    ended = yield from show(screen, rig, stage)
    record = picture = None
    if ended.void is not Reason.LEFT:
        concluded, picture = conclude(level, task, ended, rig, setting.now())
        record = asked.kept(concluded, rig.clock())
    return Attempt(level, ended, record, picture, screen.asked_for_menu)


def conclude(
    level: Level, task: Task, ended: Repetition, rig: Rig, at: datetime
) -> tuple[Record, Deviation | None]:
    """The record of a repetition of `level` that ended at `at`, and its picture.

    It is judged here, once. There is no picture where there is nothing to show.
    """
    performance = ended.performance()
    reason = Reason.WALKED_OUT if ended.left else ended.void
    verdict, picture = Verdict(reason or Reason.NO_TARGET), None
    if performance is not None:
        judged = (
            level.kind.judge(level, task, performance)
            if reason is None
            else unjudged(reason, task, performance)
        )
        verdict, picture = judged.verdict, level.kind.picture(level, judged)
    sampling = None
    if performance is not None and ended.measured_from is not None:
        sampling = measure_sampling(performance.trace, ended.measured_from)
    record = Record(
        level=level.id,
        kind=level.kind.name,
        source=rig.source,
        feet=rig.counts,
        at=at,
        target=task.target,
        tolerance=level.tolerance,
        rule=level.rule,
        verdict=verdict,
        trace=None if performance is None else performance.trace,
        calibration=None if rig.pedals is None else rig.pedals.calibration,
        dark=None if performance is None else performance.began,
        cues=() if performance is None else performance.cues,
        sampling=sampling,
    )
    return record, picture


def wait_for_pedals(rig: Rig, stage: Stage) -> Flow[bool]:
    """Wait until the pedals are back; False where the player would rather leave."""
    while rig.sample() is None:
        if not (yield from show(Unplugged(rig.trouble is Missing.AMBIGUOUS), rig, stage)):
            return False
    return True
