"""Courses of a statistical foot over repetitions that the real planner plans, day by day.

A simulated learner (learner.py) practises five minutes a day by the planner: that gives which
level is played when. What each repetition measures comes from a foot of which everything is known.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import timedelta

import numpy as np
from numpy.typing import NDArray

from drills.kinds import KINDS
from drills.level import Level
from engine.five.pace import pace_of
from engine.five.planner import following
from engine.five.player_state import PlayerState
from engine.practice.course import LEFT_OUT, Course
from engine.practice.results import Session, SessionKind
from tests.bench.learner import Learner
from tests.bench.learner_day import BAND, LEVELS, play
from tests.bench.learners import BEGIN, MINUTES, MIXING, REMEMBERED

NUMBERS = {level.id: number for number, level in enumerate([*LEVELS, BAND])}
"""Number of each level, by its id."""
RANKS = np.array(
    [
        sum(earlier.kind is level.kind for earlier in LEVELS[:number])
        for number, level in enumerate(LEVELS)
    ]
    + [sum(level.kind is BAND.kind for level in LEVELS) // 2]
)
"""How many levels of its kind come before each level, by its number."""
DAILY, TWICE_A_WEEK = (0, 1, 2, 3, 4, 5, 6), (0, 3)
"""Days of the week with practice, from 0."""
Reals = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Schedule:
    """Repetitions that the planner planned for one learner, oldest first."""

    day: Ints
    """Day of each repetition, from 0, shape (n,)."""
    place: Ints
    """Position of each repetition in its day, from 1, shape (n,)."""
    level: Ints
    """Number of the level of each repetition, shape (n,)."""
    kind: NDArray[np.str_]
    """Name of the kind of drill of each repetition, shape (n,)."""


@dataclass(frozen=True)
class Foot:
    """Statistical foot, whose every level changes alike from day to day."""

    fall: float = 0.0
    """Share by which every level falls in 50 days."""
    days: float = 0.2
    """Standard deviation of days, in logarithms."""
    alike: float = 0.0
    """Correlation of a day of practice with the next, from 0 to 1."""
    repetitions: float = 0.5
    """Standard deviation of repetitions within a day, in logarithms."""
    apart: float = 0.1
    """Standard deviation, in logarithms, by which a level's days differ from those of others."""
    harder: float = 0.12
    """Logarithm by which each level of a kind is above the one before it."""
    new: float = 0.3
    """Logarithm by which a level is worse on its first day; half of it is left on the next."""
    cold: float = 0.3
    """Logarithm by which the first five repetitions of a day are worse."""
    half: float = 0.0
    """Days in which half of what is to be learned is; 0: the fall goes on as it is."""

    def course_of(self, schedule: Schedule, kind: str, rng: np.random.Generator) -> Course:
        """Course of one kind of drill, in points."""
        part = schedule.kind == kind
        days, place, level = schedule.day[part], schedule.place[part], schedule.level[part]
        practised, day = np.unique(schedule.day, return_inverse=True)
        mood = rng.standard_normal(practised.size)
        left = np.sqrt(1 - self.alike**2)
        for later in range(1, practised.size):
            mood[later] = self.alike * mood[later - 1] + left * mood[later]
        own = rng.standard_normal((len(NUMBERS), practised.size))
        met = np.zeros((len(NUMBERS), practised.size), dtype=np.int64)
        met[level, day[part]] = 1
        # Days on which a level was played before, at each repetition.
        before = (np.cumsum(met, axis=1) - met)[level, day[part]]
        logs = self.at_level(level) + self.over(days.astype(np.float64))
        logs += self.days * mood[day[part]] + self.apart * own[level, day[part]]
        logs += self.new * 0.5**before + self.cold * (place <= LEFT_OUT)
        logs += self.repetitions * rng.standard_normal(days.size)
        number = np.flatnonzero(part).astype(np.int64) + 1
        return Course(number, 738_000 + days, place, np.exp(logs), level)

    def at_level(self, level: Ints) -> Reals:
        """Logarithm of the foot at each level on a usual day 0."""
        found: Reals = 1.5 + self.harder * RANKS[level]
        return found

    def over(self, day: Reals) -> Reals:
        """Logarithm by which the foot is another on each day than on day 0."""
        if not self.half:
            found: Reals = np.log(1 - self.fall) * day / 50
            return found
        learned: Reals = np.log(1 - self.fall * (1 - np.exp2(-day / self.half)))
        return learned


def schedule_of(seed: int, days: int, week: tuple[int, ...] = DAILY) -> Schedule:
    """What the planner plans for one learner on those days of the week."""
    learner = Learner.drawn(seed, MIXING)
    rng = np.random.default_rng((seed, 1))
    player = PlayerState(BEGIN.date(), LEVELS, band=BAND)
    rows = list[tuple[int, int, int, str]]()
    for day in (day for day in range(days) if day % 7 in week):
        learner.wakes(day, rng.normal())
        began = BEGIN + timedelta(days=day)
        recent = player.recent[-REMEMBERED:]
        player = replace(player, day=began.date(), recent=recent, pace=pace_of(recent))
        session = Session(day, SessionKind.FIVE, began, MINUTES, seed + day)
        player, session = play(learner, following, player, session, rng)
        drawn = _drawn(player, session, rng)
        rows += [(day, place, *one) for place, one in enumerate(drawn, start=1)]
    columns = zip(*rows, strict=True)
    day_, place_, level, kind = (np.array(column) for column in columns)
    return Schedule(day_, place_, level, kind)


def _drawn(
    player: PlayerState, session: Session, rng: np.random.Generator
) -> list[tuple[int, str]]:
    """Number of the level, and its kind, of each repetition that counts; mixed ones are drawn."""
    levels: Mapping[str, Level] = {level.id: level for level in [*LEVELS, BAND]}
    passed = [level for level in LEVELS if level.id in player.done]
    found, before = list[tuple[int, str]](), None
    for result in session.results:
        if not result.void:
            level = levels[result.level]
            before = level.kind.draw(level, passed, before, rng)
            found.append((NUMBERS[before.id], before.kind.name))
    return found


MEASURED = [kind.name for kind in KINDS.values() if kind.learning_measure]
"""Names of the kinds of drill that have a learning curve."""
