"""What the rules of practice need to know of past repetitions, and where they leave the player."""

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
    """To see whether a passed level is kept."""
    BAND = "steadiness"
    """To track the steadiness band."""
    LEARN = "learning"
    """Of the level that is being learned."""
    MIX = "mixed in"
    """Of a passed one, so that the foot does not do the same again and again."""
    DARK = "nothing shown"
    """The last few of five minutes."""
    WARM = "warm-up"
    """Before driving."""
    TRIAL = "trial"
    """Of a trial of a foot position: it enters nothing but the days in a row."""


@dataclass(frozen=True)
class Result:
    """One past repetition."""

    level: str
    """Id of the level."""
    day: date
    """Local day it ended on."""
    score: float | None
    """0 to 100; None where void."""
    clean: bool
    """Whether every limit was kept."""
    void: bool
    """Whether it counts for nothing."""
    rule: PassRule = field(default_factory=PassRule)
    """What passed the level at the time."""
    feet: bool = True
    """Whether feet on pedals did it: the mouse and a simulated foot are a try-out."""
    kind: str = ""
    """Name of its drill kind."""
    why: Purpose = Purpose.CHOSEN
    """Why it was played."""
    took: float | None = None
    """s, from the end of the one before it, or from the beginning; None where not known."""

    @property
    def counts(self) -> bool:
        """Whether it enters passes, streaks, bests and today."""
        return self.is_practice and self.why is not Purpose.TRIAL

    @property
    def is_practice(self) -> bool:
        """Whether its day is one that was practised on."""
        return self.feet and not self.void


AWAY = 90.0
"""s, what a repetition takes at most of the time of a sitting: the longest hold of 60 s, found and
looked back at, and beyond it nobody was there."""
MINUTES = 5.0
"""min, how long the five minutes are unless another length is asked for."""
LONGEST = 60.0
"""min, the most that a sitting may be asked to be."""


class SessionKind(StrEnum):
    """What runs by itself once it is begun."""

    FIVE = "five minutes"
    WARM_UP = "warm-up"


@dataclass(frozen=True)
class Session:
    """One time of five minutes, or one warm-up, as far as it was played."""

    number: int
    """Its number in the history."""
    what: SessionKind
    """What it is."""
    began: datetime
    """When, with the local offset from UTC."""
    minutes: float
    """min, how long it was to be."""
    seed: int
    """Of its chance."""
    results: tuple[Result, ...] = ()
    """Its repetitions, oldest first."""
    over: bool = False
    """Whether it came to its end."""

    @property
    def spent(self) -> float:
        """s, practised."""
        return sum(min(result.took or 0.0, AWAY) for result in self.results)

    @property
    def left(self) -> float:
        """s, what is left of it."""
        return 60 * self.minutes - self.spent


@dataclass(frozen=True)
class LostStreak:
    """Days in a row that came to an end."""

    days: int
    """days, how many there were."""
    began: date
    """The first of them."""
    ended: date
    """The last of them."""


@dataclass(frozen=True)
class Streaks:
    """Where the player stands on a day; void repetitions count for nothing."""

    today: int
    """count, repetitions on the day."""
    clean_today: int
    """count, clean ones of them."""
    clean_streak: int
    """count, clean ones in a row up to now."""
    days_streak: int
    """days, practised in a row up to the day, which is not missed before it is over."""
    best_clean_streak: int = 0
    """count, most clean ones there ever were in a row."""
    best_days_streak: int = 0
    """days, most there ever were in a row."""
    began: date | None = None
    """The first day of the row; None where there is none."""
    rest_left: bool = False
    """Whether the row would outlast it if the next day that may be missed is: today while
    nothing was done today, else tomorrow. False where there is no row."""
    lost: LostStreak | None = None
    """The last row of at least two days, where it came to an end and no new one is as long yet."""
    practised: bool = False
    """Whether there was practice on the day; of a trial that is all that is told."""
