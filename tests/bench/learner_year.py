"""A year of a simulated learner's five minutes: what comes too often, waits too long, and falls."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, timedelta

import numpy as np

from drills.level import Level
from drills.trace import Pedal
from engine.five.pace import pace_of
from engine.five.player_state import PlayerState
from engine.practice.passes import ALL_PEDALS
from engine.practice.personal_limit import PersonalLimit, load_of
from engine.practice.results import Purpose, Result, Session, SessionKind
from tests.bench.learner import Learner
from tests.bench.learner_day import BAND, LEVELS, Planner, play

DAYS, REST, MONTH, MINUTES, REMEMBERED = 365, 21, 30, 5.0, 300
RESTS = range(172, 172 + REST)
"""Days of the year without practice, from 0."""
WEEKS: Mapping[int, Sequence[int]] = {6: range(6), 2: (0, 3)}
"""Days of the week with practice, from 0, by how many they are."""
WAITS = 7
"""days, after which a level that is due has waited too long."""
CATCHING_UP = 21
"""days after the rest in which what is due then may wait."""
BEGIN = datetime(2024, 1, 1, 18, tzinfo=UTC)


@dataclass(frozen=True)
class Foot:
    """One sort of foot that practises for a year."""

    start: float | None = None
    """skill at the beginning; None where it is drawn"""
    ceiling: float | None = None
    """skill that practice leads to; None where it is drawn"""
    levels: tuple[Level, ...] = tuple(LEVELS)
    """levels of its ladder"""
    pedals: frozenset[str] = ALL_PEDALS
    """pedals of its rig"""

    def learner(self, seed: int) -> Learner:
        """One learner with such a foot."""
        learner = Learner.drawn(seed, 0.3)
        start = learner.start if self.start is None else self.start
        return replace(
            learner, start=start, ceiling=learner.ceiling if self.ceiling is None else self.ceiling
        )


OWN_LEVELS = [
    replace(next(level for level in LEVELS if level.id == "blip-3-good"), id=name)
    for name in ("own-1", "own-2")
]
"""Levels of a player's own files, which are clean in three of four repetitions."""
FEET: Mapping[str, Foot] = {
    "learners": Foot(),
    "experts": Foot(start=0.95, ceiling=1.1),
    "stopped": Foot(ceiling=0.55),
    "beginners": Foot(start=-0.1, ceiling=-0.05),
    "no-clutch": Foot(pedals=ALL_PEDALS - {Pedal.CLUTCH}),
    "own-levels": Foot(levels=(*LEVELS, *OWN_LEVELS)),
}
"""Feet by name: `stopped` ones stop learning halfway, `beginners` pass a few levels only."""


@dataclass(frozen=True)
class Year:
    """What came of one learner's year."""

    commonest: float
    """points of the repetitions of a month, of the commonest level, in the worst month"""
    purpose: float
    """points of the repetitions of a month, of the commonest purpose, in the worst month"""
    waiting: float
    """levels due for over a week, on the worst day outside the weeks of rest and those after"""
    longest: float
    """days, that a level was due for at most, on those days"""
    behind: float
    """days after the rest, until no level waits that was due before it ended"""
    back: float
    """levels checked on the first day back"""
    done: float
    """days, until nothing was left to learn; one more than there were where it never was so"""
    passed: float
    """levels passed"""
    retained: float
    """levels retained at least once"""
    known: float
    """levels with a personal limit at the end"""
    limit: float
    """1, middle personal limit at the end"""
    fell: float
    """points, by which the personal limits fell from their first to their last, in the middle"""
    worst_end: float
    """s, furthest that a day ended from its five minutes"""


@dataclass
class Diary:
    """Notes on a year while it goes on."""

    levels: dict[int, Counter[str]] = field(default_factory=dict)
    """Repetitions of each level, by the day."""
    whys: dict[int, Counter[Purpose]] = field(default_factory=dict)
    """Repetitions for each purpose, by the day."""
    waits: dict[int, list[int]] = field(default_factory=lambda: defaultdict(list))
    """days, that each level due has waited, at the end of a day with practice."""
    back: int = 0
    """Levels checked on the first day back."""
    behind: int = 0
    """days after the rest, until no level waits that was due before it ended."""
    done: int = DAYS + 1
    """days, until nothing was left to learn."""
    first: dict[str, float] = field(default_factory=dict)
    """1, first personal limit of each level."""
    ends: list[float] = field(default_factory=list)
    """s, that each day ended from its five minutes."""

    def notes(self, day: int, player: PlayerState, session: Session) -> None:
        """A day of practice is over."""
        counted = [result for result in session.results if result.counts]
        self.levels[day] = Counter(result.level for result in counted)
        self.whys[day] = Counter(result.why for result in counted)
        self.ends.append(abs(session.left))
        dues = [player.retention[level.id].due or player.day for level in player.due]
        self.waits[day] = [(player.day - due).days for due in dues]
        if day >= RESTS.stop and any(due < _date(RESTS.stop) for due in dues):
            self.behind = day + 1 - RESTS.stop
        if day >= RESTS.stop and not self.back:
            checks = [result.level for result in counted if result.why is Purpose.DUE]
            self.back = len(set(checks))
        ids = {level.id for level in player.levels if player.pedals.issuperset(level.pedals)}
        if self.done > DAYS and ids <= player.done:
            self.done = day + 1
        for name, limit in player.personal.items():
            if limit.factor is not None:
                self.first.setdefault(name, limit.factor)


def year_of(planner: Planner, days_a_week: int, foot: Foot, seed: int) -> Year:
    """The year of one learner who practises on so many days a week."""
    learner = foot.learner(seed)
    rng = np.random.default_rng((seed, 1))
    forms = rng.normal(size=DAYS)
    start = PlayerState(_date(0), foot.levels, band=BAND, pedals=foot.pedals)
    player, diary = start, Diary()
    for day in range(DAYS):
        if day % 7 not in WEEKS[days_a_week] or day in RESTS:
            continue
        learner.wakes(day, forms[day])
        recent = player.recent[-REMEMBERED:]
        player = replace(player, day=_date(day), recent=recent, pace=pace_of(recent))
        began = BEGIN + timedelta(days=day)
        session = Session(day, SessionKind.FIVE, began, MINUTES, seed + day)
        player, session = play(learner, planner, player, session, rng)
        player = replace(player, personal=_personal(player.personal, session.results))
        diary.notes(day, player, session)
    return _told(diary, player)


def _told(diary: Diary, player: PlayerState) -> Year:
    """What a diary comes to."""
    late = [
        [wait for wait in waits if wait > WAITS]
        for day, waits in diary.waits.items()
        if not RESTS.start <= day < RESTS.stop + CATCHING_UP
    ]
    limits = {
        name: limit.factor for name, limit in player.personal.items() if limit.factor is not None
    }
    fell = [100 * (1 - now / diary.first[name]) for name, now in limits.items()]
    return Year(
        commonest=100 * max(_shares(diary.levels)),
        purpose=100 * max(_shares(diary.whys)),
        waiting=max(map(len, late)),
        longest=max(max(waits, default=0) for waits in diary.waits.values()),
        behind=diary.behind,
        back=diary.back,
        done=diary.done,
        passed=sum(level.id in player.done for level in player.levels),
        retained=sum(player.is_retained(level) for level in player.levels),
        known=len(limits),
        limit=float(np.median(list(limits.values()))) if limits else 0.0,
        fell=float(np.median(fell)) if fell else 0.0,
        worst_end=max(diary.ends),
    )


def _shares(
    days: Mapping[int, Mapping[str, int]] | Mapping[int, Mapping[Purpose, int]],
) -> Iterator[float]:
    """Share of the commonest name in each month of 30 days."""
    for begin in range(DAYS - MONTH + 1):
        month = Counter[str]()
        for day, counts in days.items():
            if begin <= day < begin + MONTH:
                month.update(counts)
        if month:
            yield max(month.values()) / month.total()


def _personal(
    before: Mapping[str, PersonalLimit], results: Sequence[Result]
) -> dict[str, PersonalLimit]:
    """Personal limits after a day, of all levels but the steadiness drill."""
    after = dict(before)
    for result in results:
        if result.counts and result.score is not None and result.level != BAND.id:
            limit = after.get(result.level, PersonalLimit())
            after[result.level] = limit.after(result.day, load_of(result.score))
    return after


def _date(day: int) -> date:
    """Local day of the year's day, from 0."""
    return (BEGIN + timedelta(days=day)).date()
