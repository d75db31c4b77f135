"""`play_repetition`: plays one assigned repetition, judges it and returns its record."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

import numpy as np

from drills.deviation import Deviation
from drills.judging import judge_foot, judge_repetition, pulses_on
from drills.level import Level
from drills.measures.jumps import Jump
from drills.measures.sampling import measure_sampling, report_interval
from drills.repetition import Repetition
from drills.score import Reason, Verdict, unjudged
from drills.task import Task
from drills.trace import SECOND
from engine.drill.asked_weight import target_of, weight_to_ask
from engine.drill.interruptions import Unplugged
from engine.drill.lesson_saved import Lessons
from engine.drill.repetition_screen import RepetitionScreen
from engine.drill.second_task import answered
from engine.kit.base import Place
from engine.kit.flow import show
from engine.kit.foot_pose import Way
from engine.pedals.identity import Missing
from engine.pedals.moved_ends import LastingEnds, MovedEnd
from engine.pedals.rig import Rig
from engine.practice.passes import SOUND, needed, required
from engine.practice.results import Purpose
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History, Record, ledger

Now = Callable[[], datetime]
"""Function that returns the local date and time with its UTC offset; called at most twice a
repetition."""


@dataclass(frozen=True)
class Setting:
    """Everything sets are played with: pedals, stage, history, random numbers, clock and levels."""

    rig: Rig
    """Pedals that are read, or what stands in for them: the mouse or a simulated foot."""
    stage: Stage
    """Window, speaker and listeners that repetitions are shown and reported with."""
    history: History | None
    """History that stores the repetitions; None in a try-out, which stores nothing."""
    rng: np.random.Generator
    """Generator from which all random numbers of the sets come."""
    now: Now
    """Clock for the local date and time."""
    screen: type[RepetitionScreen] = RepetitionScreen
    """Class of the screen that shows a repetition."""
    levels: Sequence[Level] = ()
    """All levels; a mixed level draws from the passed ones."""
    renew_end: Callable[[MovedEnd], Flow[bool]] | None = None
    """Flow that offers to set a moved end of a pedal anew, and returns whether it was; None where
    pedals are not set up."""
    lucky: frozenset[str] = frozenset()
    """Ids of the levels that are partly luck with the pedals, which their reveals say."""
    way: Way = Way.ROLL
    """How the player does heel-and-toe, for the pictures of the foot."""
    lessons: Lessons | None = None
    """Lessons that the player has seen; None where none are shown unasked."""
    check_pedals: Callable[[Rig, Stage], Flow[None]] | None = None
    """Flow that checks the health of the pedals, offered where they make repetitions void; None if
    there is none to offer."""

    @property
    def asks_guesses(self) -> bool:
        """Whether the player is asked to guess: only with feet, and if repetitions are stored."""
        return self.history is not None and self.rig.counts

    @property
    def hears(self) -> bool:
        """Whether the player hears the knocks of a second task; a simulated foot always does."""
        is_simulated = self.rig.is_feet and not self.rig.counts
        return is_simulated or self.stage.speaker.is_heard

    @property
    def there(self) -> frozenset[str]:
        """What levels may need and there is: pedals, and SOUND where it is heard."""
        return self.rig.there | (frozenset({SOUND}) if self.hears else frozenset())

    def drawable(self, level: Level) -> list[Level]:
        """Levels from which the mixed level `level` draws, playable with the plugged-in pedals.

        These are the passed levels; without any, the levels that `level` needs; without those too,
        all levels that need no other. Raises StoreError.
        """
        history, there = self.history, self.there
        done = frozenset[str]()
        if history is not None and self.rig.counts:
            done = ledger.passed(history) | ledger.placed(history)
        playable = [other for other in self.levels if there.issuperset(required(other))]
        pools = (
            [other for other in playable if other.id in done],
            needed(level, playable),
            [other for other in playable if not other.needs],
        )
        kind = level.kind.name
        drawable = (
            [other for other in pool if other.kind.name != kind and not other.kind.in_pairs]
            for pool in pools
        )
        return next(filter(None, drawable), [])


@dataclass(frozen=True)
class Attempt:
    """Result of playing one repetition."""

    level: Level
    """Level that was played."""
    ended: Repetition
    """The repetition in the state in which it ended."""
    record: Record | None
    """Record of the repetition, to be stored; None if the player left before anything was asked."""
    picture: Deviation | None
    """Picture of the brake's deviation in it; None if there is nothing to draw."""
    asked_for_menu: bool
    """Whether the player left the repetition to open the menu."""
    ends: LastingEnds
    """Where each pedal rested and how far it was pressed in the repetition."""

    @property
    def left(self) -> bool:
        """Whether the player left before the end of the repetition, or instead of answering."""
        walked_out = self.record is not None and self.record.verdict.reason is Reason.WALKED_OUT
        return walked_out or self.ended.left or self.ended.void is Reason.LEFT


@dataclass(frozen=True)
class Assignment:
    """Repetition to play next: its level, its seed and what it is part of."""

    level: Level
    """Level of the set, which may be a mixed one."""
    drawn: Level
    """Level to play: that of the set or, if it is mixed, the level that it drew."""
    seed: int
    """Seed of the random numbers of the set that it is part of."""
    why: Purpose = Purpose.CHOSEN
    """Reason why this repetition was chosen, such as a review."""
    session: int | None = None
    """Number of its session in the history; None in a set that the player chose."""
    since: int | None = None
    """Time from which its duration is counted, in ns; None if its duration is not recorded."""
    asked: float | None = None
    """Tolerance in place of the level's own, in points; None for that of the level."""
    turn: int | None = None
    """Index into the level's targets, from 1; None: use the repetition's place in the set."""
    trial: int | None = None
    """Number of its trial in the history; None if it is part of no trial."""
    block: int | None = None
    """Index of its block in the trial, from 0; None if it is part of no trial."""

    @property
    def is_drawn(self) -> bool:
        """Whether the level to play was drawn by a mixed level."""
        return self.drawn.id != self.level.id

    def complete(self, record: Record, ended: int) -> Record:
        """The record of this repetition, completed with what the assignment knows about it.

        `record` is of the level that was played, the result is of the level of the set; `ended` is
        when the repetition ended, in ns.
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


def play_repetition(
    assignment: Assignment, place: Place, setting: Setting, rng: np.random.Generator
) -> Flow[Attempt]:
    """Play one repetition, drawn with random numbers from `rng`, and judge it."""
    rig, stage, level = setting.rig, setting.stage, assignment.drawn
    number = place.number if assignment.turn is None else assignment.turn
    history = setting.history if rig.counts else None
    weight = weight_to_ask(level, assignment.level.id, assignment.why, history, setting.now)
    target = target_of(level.targets, number, weight, rng)
    task = level.kind.task(level, target, rng)
    titled = replace(level, title=assignment.level.title)
    if assignment.is_drawn:
        place = replace(place, named=level.kind.title)
    interval = rig.device_history.report_interval
    screen = setting.screen(titled, task, place, stage, rig.clock(), interval, setting.way)
    ended = yield from show(screen, rig, stage)
    record = picture = None
    if ended.void is not Reason.LEFT:
        concluded, picture = conclude(level, task, ended, rig, setting.now())
        if task.knocks:
            knocks, heard = ended.knocked, setting.hears
            verdict = yield from answered(concluded.verdict, knocks, place, rig, stage, heard=heard)
            concluded = replace(concluded, verdict=verdict)
        record = assignment.complete(concluded, rig.clock())
    return Attempt(level, ended, record, picture, screen.asked_for_menu, screen.ends)


def conclude(
    level: Level, task: Task, ended: Repetition, rig: Rig, at: datetime
) -> tuple[Record, Deviation | None]:
    """Judge a repetition of `level` that ended at `at`; return its record and its picture.

    The picture shows the deviation of the brake; it is None if there is nothing to draw.
    """
    performance = ended.performance()
    reason = Reason.WALKED_OUT if ended.left else ended.void
    verdict, picture, sampling = Verdict(reason or Reason.NO_TARGET), None, None
    opens, jumps = ended.measured_from, tuple[Jump, ...]()
    if performance is not None:
        if reason is not None or opens is None:
            judged = unjudged(reason or Reason.NO_TARGET, task, performance)
            if rig.is_feet:
                rig.device_history = rig.device_history.with_interval(
                    report_interval(performance.trace, ())
                )
        elif rig.is_feet:
            judged, rig.device_history = judge_repetition(
                level, task, performance, opens, rig.device_history
            )
        else:
            judged = judge_foot(level, task, performance)
        verdict, jumps = judged.verdict, judged.jumps
        picture = level.kind.picture(level, judged)
        if opens is not None:
            sampling = measure_sampling(performance.trace, opens, pulses_on(judged.grid))
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
        rig=rig.number,
        dark=None if performance is None else performance.began,
        cues=() if performance is None else performance.cues,
        sampling=sampling,
        jumps=jumps,
    )
    return record, picture


def wait_for_pedals(rig: Rig, stage: Stage) -> Flow[bool]:
    """Wait until the pedals are plugged in; return False if the player leaves instead."""
    while rig.sample() is None:
        if not (yield from show(Unplugged(rig.trouble is Missing.AMBIGUOUS), rig, stage)):
            return False
    return True
