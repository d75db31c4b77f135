"""A trial of two foot positions: its set-ups, its repetitions, and what the set-ups differ in."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import date, datetime
from enum import StrEnum

from drills.measures.definition import DEFINITION
from drills.score import Reason

BLOCK = 5
"""Number of repetitions that make a block of a trial full; void ones do not count."""
FEWEST_PAIRS = 6
"""Smallest number of pairs of blocks in a trial: with 5 the smallest possible p is 0.0625."""
MOST_PAIRS = 16
"""Largest number of pairs of blocks in a trial: 160 repetitions."""
NAME_MOST = 30
"""Longest name of a set-up, in characters: it stands in sentences."""
NOTE_MOST = 60
"""Longest note on a set-up, in characters: one line of a screen."""
NAMED_BY = 2
"""Largest number of differing features in a name that is made for a set-up."""
AS_NOW = "as I do it now"
"""Name made for a set-up that differs from the other in nothing but its name."""


class Ball(StrEnum):
    """Part of the foot that lies on the brake: its ball, or the toes."""

    BALL = "ball of the foot"
    TOES = "toes"


class Heel(StrEnum):
    """Position of the heel in a set-up."""

    PLANTED = "heel planted"
    FLOATING = "heel floating"


class Shoes(StrEnum):
    """Footwear in a set-up."""

    USUAL = "usual shoes"
    THIN = "thin soles"
    OTHER = "other shoes"
    SOCKS = "socks"
    BARE = "bare feet"


class Spacing(StrEnum):
    """Distance between brake and throttle."""

    AS_IT_IS = "pedals as they are"
    CLOSER = "pedals closer"
    APART = "pedals farther apart"


class Arm(StrEnum):
    """Letter of one of the two set-ups that a trial compares."""

    A = "A"
    B = "B"


@dataclass(frozen=True)
class SetUp:
    """Set-up of the foot that a trial compares with another: position, shoes and pedal spacing."""

    name: str
    """Name of the set-up; empty until typed by the player or made from the differences."""
    ball: Ball = Ball.BALL
    """Part of the foot that lies on the brake."""
    heel: Heel = Heel.PLANTED
    """Position of the heel."""
    shoes: Shoes = Shoes.USUAL
    """Footwear."""
    spacing: Spacing = Spacing.AS_IT_IS
    """Distance between brake and throttle."""
    note: str = ""
    """The player's own note on the set-up."""


@dataclass(frozen=True)
class TrialRepetition:
    """One repetition of a trial."""

    number: int
    """Number of the repetition in the history."""
    block: int
    """Index of its block in the trial, from 0."""
    day: date
    """Local day on which it ended."""
    reason: Reason
    """Reason of its verdict, which says how the repetition ended."""
    dip: float | None
    """How far the brake fell, in points; None if it was not measured."""
    rebound: float | None
    """How far the brake rose above what was held, in points; None if it was not measured."""
    settle: float | None
    """Settling time, in s; None if the brake did not settle or it was not measured."""
    calibration: int | None
    """Number in the history of the calibration its pedals were read with; None if unknown."""
    definition: int = DEFINITION
    """Version of the definitions that its measures are of."""
    peak: float | None = None
    """Throttle at the peak of its blip, of a run that with the deepest dip, in %; None if it was
    not measured."""

    @property
    def void(self) -> bool:
        """Whether the repetition does not count and is to be repeated."""
        return self.reason.void


@dataclass(frozen=True)
class Trial:
    """One trial of two set-ups, with the repetitions played so far."""

    number: int
    """Number of the trial in the history."""
    began: datetime
    """Local date and time at which it began, with the offset from UTC."""
    level: str
    """Id of the level that the trial is played on."""
    a: SetUp
    """Set-up of arm A."""
    b: SetUp
    """Set-up of arm B."""
    pairs: int
    """Number of pairs of blocks, fixed before the trial begins."""
    seed: int
    """Seed from which the order of its blocks is drawn."""
    over: bool = False
    """Whether it was played to its end or given up."""
    repetitions: tuple[TrialRepetition, ...] = field(default=())
    """Repetitions played so far, void ones included, oldest first."""


def features(set_up: SetUp) -> tuple[StrEnum, ...]:
    """Features of a set-up, in the order in which the player is asked for them."""
    return set_up.ball, set_up.heel, set_up.shoes, set_up.spacing


def changed_features(set_up: SetUp, before: SetUp) -> tuple[bool, ...]:
    """Whether each feature of a set-up differs from that of the one before."""
    pairs = zip(features(set_up), features(before), strict=True)
    return tuple(now != then for now, then in pairs)


def differ(a: SetUp, b: SetUp) -> bool:
    """Whether two set-ups can be told apart, by a feature or by the name of the second."""
    return any(changed_features(a, b)) or b.name not in ("", a.name)


def with_names(a: SetUp, b: SetUp) -> tuple[SetUp, SetUp]:
    """Both set-ups of a trial; one without a name is named after the features that differ."""
    return _with_name(a, b), _with_name(b, a)


def _with_name(set_up: SetUp, other: SetUp) -> SetUp:
    if set_up.name:
        return set_up
    changed = zip(features(set_up), changed_features(set_up, other), strict=True)
    differing = [feature.value for feature, is_new in changed if is_new]
    return replace(set_up, name=", ".join(differing[:NAMED_BY]) or AS_NOW)
