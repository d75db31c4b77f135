"""Past repetitions, sessions and streaks of a player, as the rules of practice read them."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime
from enum import StrEnum

from drills.level import PassRule
from drills.measures.definition import DEFINITION


class Purpose(StrEnum):
    """Purpose for which a repetition was played."""

    CHOSEN = "chosen"
    """Repetition of a level that the player chose."""
    DUE = "due"
    """Repetition of a retention check of a passed level."""
    BAND = "steadiness"
    """Blip of the steadiness staircase."""
    LEARN = "learning"
    """Practice of the level that is being learned."""
    FAULT = "fault"
    """Practice of a level that answers the fault the player works on."""
    OWN = "personal limit"
    """Practice of a retained level towards a lower personal limit."""
    MIX = "mixed in"
    """Interleaved review of a passed level."""
    DARK = "nothing shown"
    """One of the last few repetitions of a session, without aid or feedback."""
    WARM = "warm-up"
    """Part of the warm-up before driving."""
    TRIAL = "trial"
    """Part of a trial of foot positions: it makes a day practised and counts for nothing else."""

    @property
    def words(self) -> str:
        """What a player reads: the value is what is stored, and older than these words."""
        return _PURPOSE_WORDS.get(self, self.value)


_PURPOSE_WORDS = {
    Purpose.DUE: "check-up",
    Purpose.LEARN: "new",
    Purpose.FAULT: "for a fault",
    Purpose.MIX: "revision",
}
"""Words for those purposes whose stored value is not what a player reads."""


@dataclass(frozen=True)
class Result:
    """One past repetition, as the rules of practice read it."""

    level: str
    """Id of the level the repetition belongs to."""
    day: date
    """Local day on which the repetition ended."""
    score: float | None
    """Score of the repetition, 0 to 100; None if void."""
    clean: bool
    """Whether the repetition did what was asked within every limit."""
    void: bool
    """Whether the repetition could not be judged and so counts for nothing."""
    rule: PassRule = field(default_factory=PassRule)
    """Pass rule of the level when the repetition was played."""
    feet: bool = True
    """Whether feet on pedals played it; the mouse or a simulated foot makes it a try-out."""
    kind: str = ""
    """Name of the kind of drill."""
    why: Purpose = Purpose.CHOSEN
    """Why the repetition was played."""
    took: float | None = None
    """Seconds since the previous repetition ended (the first: since the start); None: unknown."""
    number: int = field(default=0, compare=False)
    """Number of the repetition in the history; 0 where it is not stored."""
    rig: int | None = None
    """Number of the rig whose pedals were played with; None: not a saved one."""
    asked: float | None = None
    """Tolerance asked instead of the level's own, in points; None: the level's own."""
    definition: int = field(default=DEFINITION, compare=False)
    """Version of the definitions by which the verdict was told."""

    @property
    def counts(self) -> bool:
        """Whether the repetition enters passes, streaks, best scores and the day's counts."""
        return self.is_practice and self.why is not Purpose.TRIAL

    @property
    def is_practice(self) -> bool:
        """Whether the repetition makes its day a day practised: played by feet and not void."""
        return self.feet and not self.void


AWAY = 90.0
"""Most seconds of a session that a single repetition uses up.

The longest hold, found and looked back at, takes less; beyond that the player was away."""
MINUTES = 5.0
"""Usual length of the daily session, in minutes."""
LONGEST = 60.0
"""Longest session that a player may ask for, in minutes."""


class SessionKind(StrEnum):
    """Kind of session that runs by itself once it is begun."""

    FIVE = "five minutes"
    WARM_UP = "warm-up"
    COUNTING = "counting"
    """Pairs of blips, one of each while counting, that come in place of a warm-up once a week."""


@dataclass(frozen=True)
class TrialDay:
    """Day of a trial beside practice: the session's steadiness blips belong to the trial too."""

    trial: int
    """Number of the trial in the history."""
    block: int
    """Index of the day in the trial, from 0."""


@dataclass(frozen=True)
class Session:
    """One session, five minutes or warm-up, with what was played in it so far."""

    number: int
    """Number of the session in the history; 0 for one that is only forecast."""
    what: SessionKind
    """Kind of the session."""
    began: datetime
    """When the session began, with the local offset from UTC."""
    minutes: float
    """Length that the session was begun with, in minutes."""
    seed: int
    """Seed of all random draws in the session."""
    results: tuple[Result, ...] = ()
    """Repetitions played in the session, oldest first."""
    over: bool = False
    """Whether the session was played to its end."""

    @property
    def spent(self) -> float:
        """Seconds of the session practised so far."""
        return sum(min(result.took or 0.0, AWAY) for result in self.results)

    @property
    def left(self) -> float:
        """Seconds left of the session's length; below 0 once it has run over."""
        return 60 * self.minutes - self.spent


@dataclass(frozen=True)
class LostStreak:
    """Streak of days practised in a row that came to an end."""

    days: int
    """Days practised in the lost streak, as a count."""
    began: date
    """First day of the lost streak."""
    ended: date
    """Last day practised in the lost streak."""


@dataclass(frozen=True)
class Streaks:
    """Streaks and counts of a player on one local day; void repetitions are not counted."""

    today: int
    """Repetitions that counted on this day, as a count."""
    clean_today: int
    """Clean repetitions on this day, as a count."""
    clean_streak: int
    """Clean repetitions in a row up to and including this day, as a count."""
    days_streak: int
    """Days practised in a row, as a count; a day counts as missed only once it is over."""
    best_clean_streak: int = 0
    """Longest run of clean repetitions there ever was, as a count."""
    best_days_streak: int = 0
    """Longest run of days practised there ever was, as a count."""
    began: date | None = None
    """First day of the present streak of days; None if there is no streak."""
    rest_left: bool = False
    """Whether the streak of days survives one missed day.

    The day missed is today while nothing was done today, else tomorrow. False without a streak."""
    lost: LostStreak | None = None
    """Last streak of two or more days that ended; None once the new streak is as long."""
    practised: bool = False
    """Whether the player practised on this day, be it only in a trial of foot positions."""
