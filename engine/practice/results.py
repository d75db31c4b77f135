"""Past repetitions and sessions as the rules of practice read them, and the streaks they make."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime
from enum import StrEnum

from drills.level import PassRule


class Purpose(StrEnum):
    """Why a repetition was played."""

    CHOSEN = "chosen"
    """The player chose its level."""
    DUE = "due"
    """Retention check of a passed level."""
    BAND = "steadiness"
    """Blip of the steadiness staircase."""
    LEARN = "learning"
    """Practice of the level that is being learned."""
    MIX = "mixed in"
    """Interleaved review of a passed level."""
    DARK = "nothing shown"
    """One of the last few of a session, without aid or feedback."""
    WARM = "warm-up"
    """Warm-up before driving."""
    TRIAL = "trial"
    """Part of a trial of foot positions: it counts as a day practised and for nothing else."""


@dataclass(frozen=True)
class Result:
    """One past repetition."""

    level: str
    """Id of the level."""
    day: date
    """Local day it ended on."""
    score: float | None
    """Score, 0 to 100; None where void."""
    clean: bool
    """Whether it did what was asked within every limit."""
    void: bool
    """Whether it could not be judged and counts for nothing."""
    rule: PassRule = field(default_factory=PassRule)
    """Pass rule of the level at the time."""
    feet: bool = True
    """Whether feet on pedals played it; the mouse and a simulated foot are only a try-out."""
    kind: str = ""
    """Name of its drill kind."""
    why: Purpose = Purpose.CHOSEN
    """Why it was played."""
    took: float | None = None
    """Seconds since the end of the repetition before it or the start; None where unrecorded."""

    @property
    def counts(self) -> bool:
        """Whether it enters passes, streaks, best scores and the counts of the day."""
        return self.is_practice and self.why is not Purpose.TRIAL

    @property
    def is_practice(self) -> bool:
        """Whether it makes its day a day practised."""
        return self.feet and not self.void


AWAY = 90.0
"""Most seconds of a session that one repetition uses up.

The longest hold, found and looked back at, takes less; beyond that the player was away."""
MINUTES = 5.0
"""Length of the five minutes in minutes, unless another one is asked for."""
LONGEST = 60.0
"""Longest session that may be asked for, in minutes."""


class SessionKind(StrEnum):
    """A session that runs by itself once it is begun."""

    FIVE = "five minutes"
    WARM_UP = "warm-up"


@dataclass(frozen=True)
class Session:
    """One session of five minutes, or one warm-up, as far as it was played."""

    number: int
    """Its number in the history; 0 for one that is only forecast."""
    what: SessionKind
    """Whether it is five minutes or a warm-up."""
    began: datetime
    """When it began, with the local offset from UTC."""
    minutes: float
    """Length it was begun with, in minutes."""
    seed: int
    """Seed of all its random draws."""
    results: tuple[Result, ...] = ()
    """Its repetitions, oldest first."""
    over: bool = False
    """Whether it was played to its end."""

    @property
    def spent(self) -> float:
        """Seconds practised."""
        return sum(min(result.took or 0.0, AWAY) for result in self.results)

    @property
    def left(self) -> float:
        """Seconds left of its length; below 0 once it has run over."""
        return 60 * self.minutes - self.spent


@dataclass(frozen=True)
class LostStreak:
    """A streak of days that came to an end."""

    days: int
    """Days practised in it, as a count."""
    began: date
    """Its first day."""
    ended: date
    """Its last day."""


@dataclass(frozen=True)
class Streaks:
    """Streaks and counts of a player on one local day; void repetitions count for nothing."""

    today: int
    """Repetitions on the day, as a count."""
    clean_today: int
    """Clean repetitions on the day, as a count."""
    clean_streak: int
    """Clean repetitions in a row up to the day, as a count."""
    days_streak: int
    """Days practised in a row up to the day; the day is not missed before it is over."""
    best_clean_streak: int = 0
    """Most clean repetitions there ever were in a row, as a count."""
    best_days_streak: int = 0
    """Most days there ever were in a row, as a count."""
    began: date | None = None
    """First day of the streak of days; None where there is no streak."""
    rest_left: bool = False
    """Whether the streak of days survives if the next day that can still be missed is missed.

    That is today while nothing was done today, else tomorrow. False where there is no streak."""
    lost: LostStreak | None = None
    """The last streak of at least two days that ended, until the new one is as long."""
    practised: bool = False
    """Whether the day was practised on; repetitions of a trial show here and nowhere else."""
