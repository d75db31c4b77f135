"""A trial of a foot position: two set-ups, pairs of blocks, the order within each pair by lot."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime
from enum import StrEnum

from drills.score import Reason

BLOCK = 5
"""count of repetitions in a block that count."""
FEWEST_PAIRS = 6
"""count of pairs, under which no difference can be told from chance (5 pairs: p 0.0625)."""
MOST_PAIRS = 16
"""count of pairs: 160 repetitions."""


class Ball(StrEnum):
    """What lies on the brake."""

    BALL = "ball of the foot"
    TOES = "toes"


class Heel(StrEnum):
    """Where the heel is."""

    PLANTED = "heel planted"
    FLOATING = "heel floating"


class Shoes(StrEnum):
    """What is on the foot."""

    USUAL = "usual shoes"
    THIN = "thin soles"
    OTHER = "other shoes"
    SOCKS = "socks"
    BARE = "bare feet"


class Spacing(StrEnum):
    """How far apart brake and throttle are."""

    AS_IT_IS = "pedals as they are"
    CLOSER = "pedals closer"
    APART = "pedals farther apart"


class Arm(StrEnum):
    """One of the two that are tried."""

    A = "A"
    B = "B"


@dataclass(frozen=True)
class SetUp:
    """How the foot stands in one arm of a trial."""

    name: str
    """What the player calls it."""
    ball: Ball = Ball.BALL
    """What lies on the brake."""
    heel: Heel = Heel.PLANTED
    """Where the heel is."""
    shoes: Shoes = Shoes.USUAL
    """What is on the foot."""
    spacing: Spacing = Spacing.AS_IT_IS
    """How far apart brake and throttle are."""
    note: str = ""
    """A few words of the player's."""


@dataclass(frozen=True)
class TrialRepetition:
    """One repetition of a trial."""

    number: int
    """Its number in the history."""
    block: int
    """From 0, which block it is of."""
    day: date
    """Local day it ended on."""
    reason: Reason
    """How it ended: whether it is void, or was left."""
    dip: float | None
    """points; None where it was not measured."""
    rebound: float | None
    """points, coming back over; None where it was not measured."""
    settle: float | None
    """s; None where the brake did not settle, or it was not measured."""
    calibration: int | None
    """Which calibration of the history its pedals were read through; None where not known."""

    @property
    def void(self) -> bool:
        """Whether it counts for nothing."""
        return self.reason.void


@dataclass(frozen=True)
class Trial:
    """One trial, as far as it was played."""

    number: int
    """Its number in the history."""
    began: datetime
    """When, with the local offset from UTC."""
    level: str
    """Id of the level."""
    a: SetUp
    """One arm."""
    b: SetUp
    """The other."""
    pairs: int
    """count of pairs of blocks, fixed beforehand."""
    seed: int
    """Of the lots."""
    over: bool = False
    """Whether nothing more of it will be played."""
    tried: tuple[TrialRepetition, ...] = field(default=())
    """Its repetitions, oldest first."""
