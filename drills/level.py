"""A level, the kind of drill it is a level of, and what a level says of itself.

A level is data, read from a file by `drills/level_file.py`. A kind is code: a subclass of `Kind` in
a file of its own in `drills/kinds/`.
"""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

import numpy as np

from drills.coach import Prompt, not_counted
from drills.deviation import Deviation
from drills.measures.catalogue import limitable
from drills.score import Judged, Reason, Verdict
from drills.task import Band, Performance, Task
from drills.trace import Pedal


class Aid(StrEnum):
    """Help in finding the target before the dark."""

    BUBBLE = "bubble"
    TONE = "tone"
    NONE = "none"
    """Only words say that the target is found."""


class Feedback(StrEnum):
    """After which repetitions the reveal is shown."""

    EVERY = "every"
    SUMMARY = "summary"
    OUTSIDE = "outside"
    NONE = "none"


@dataclass(frozen=True)
class Key:
    """A number in the level files of one kind, beside the keys of every level."""

    name: str
    """Name in level files."""
    low: float
    """Smallest value."""
    high: float
    """Largest value."""
    default: float | None = None
    """Value where a level leaves it out; None where it must be there."""
    whole: bool = False
    """Whether it must be a whole number."""
    table: str = ""
    """Name of its table in the level file; empty for the top."""
    most: str = ""
    """Name of a key in its table that it may not exceed; empty for none."""
    about: str = ""
    """What it means, with its unit, for whoever writes a level."""

    @property
    def path(self) -> str:
        """Its name with that of its table, as `blip.least`."""
        return f"{self.table}.{self.name}" if self.table else self.name


@dataclass(frozen=True)
class Foreperiod:
    """The wait in the dark before a cue: a fixed shift, then exponential, cut at its end.

    The hazard of an exponential is flat, so that having waited tells nothing about when the cue
    comes; a uniform wait becomes more and more predictable.
    """

    shift: float = 1.0
    """s, shortest wait."""
    mean: float = 1.5
    """s past the shift, mean of the exponential before it is cut."""
    cut: float = 6.0
    """s past the shift, longest wait."""

    def draw(self, rng: np.random.Generator) -> float:
        """One wait in s, by inverting the distribution at a uniform draw."""
        share = -math.expm1(-self.cut / self.mean)
        return self.shift - self.mean * math.log1p(-share * rng.random())


@dataclass(frozen=True)
class Targets:
    """The brake targets of a level: some taken in turn, or any between two."""

    values: tuple[float, ...]
    """%, targets taken in turn; where they are drawn, the least and the greatest."""
    drawn: bool = False
    """Whether each target is a whole number drawn between the two."""

    def at(self, number: int, rng: np.random.Generator) -> float:
        """The target in % of repetition `number` of a set, counted from 1."""
        if not self.drawn:
            return self.values[(number - 1) % len(self.values)]
        least, greatest = self.values
        return float(rng.integers(round(least), round(greatest), endpoint=True))

    @property
    def least(self) -> float:
        """%, the smallest possible target."""
        return min(self.values)

    @property
    def greatest(self) -> float:
        """%, the largest possible target."""
        return max(self.values)


@dataclass(frozen=True)
class PassRule:
    """How many of the last repetitions must be clean to pass a level."""

    clean: int = 8
    """Number of clean repetitions needed."""
    of: int = 10
    """Number of last repetitions that they are counted in."""


@dataclass(frozen=True)
class Level:
    """One level, as data."""

    id: str
    """Lower-case words joined by hyphens; results are stored under it."""
    title: str
    """Its name on the screen, a few words."""
    purpose: str
    """What it trains, one line."""
    kind: Kind
    """Its kind of drill."""
    targets: Targets
    """Where the brake must be brought to."""
    tolerance: float
    """points, how far the brake may be from where it was held."""
    limits: Mapping[str, float]
    """Largest clean value by name of the measure, in its unit."""
    band: float = 5.0
    """%, half-width of the band the brake settles in; the target is found within it."""
    own: Mapping[str, float] = field(default_factory=dict)
    """Values of the keys of its kind, by the path of the key."""
    foreperiod: Foreperiod = field(default_factory=Foreperiod)
    """The wait in the dark before the cue."""
    aid: Aid = Aid.TONE
    """Help in finding the target before the dark."""
    feedback: Feedback = Feedback.EVERY
    """When the reveal is shown."""
    summary: int = 5
    """Number of repetitions that a summary covers (Feedback.SUMMARY)."""
    repetitions: int = 10
    """Number of repetitions in a set."""
    rule: PassRule = field(default_factory=PassRule)
    """What passes the level."""
    needs: tuple[str, ...] = ()
    """Ids of the levels that must be passed first."""
    pedals: tuple[Pedal, ...] = (Pedal.BRAKE,)
    """Pedals it cannot do without: those of its kind, and any that the level adds."""
    guess: bool = False
    """Whether the player guesses a measure before the reveal."""
    placing: bool = False
    """Whether a placing set tests its stage by this level."""
    stage: str = ""
    """Name of its stage; empty for a level of the player's own."""

    @property
    def approach_band(self) -> float:
        """%, half-width of the band in which the target counts as found."""
        return min(self.band, self.tolerance)

    def around(self, target: float) -> Band:
        """The band in which a target (%) counts as found."""
        return target - self.approach_band, target + self.approach_band


class Kind(ABC):
    """A kind of drill: what a repetition of its levels asks, how it is judged, and what is said.

    A kind measures a repetition once, in `judge`; all else is made from what that returns.
    """

    name: str
    """What level files call it."""
    title: str = ""
    """A repetition of it in a few words on the screen."""
    pedals: tuple[Pedal, ...]
    """Pedals it cannot do without."""
    keys: tuple[Key, ...] = ()
    """What its levels say beside what every level says."""
    measures: tuple[str, ...] = ()
    """Names of the measures a verdict holds, in order; all are in the catalogue."""
    reveal_measures: tuple[str, ...] = ()
    """Names of the measures that the reveal has room for, the most telling first."""
    guess_measure: str = ""
    """Name of the measure that a player may be asked to guess; empty for none."""
    guess_question: str = "How far did the brake fall?"
    """The question that asks for that guess."""
    learning_measure: str = ""
    """Name of the measure of the learning curve; empty for none. It has no sign, and less is
    better."""
    answering_pedal: str = "throttle"
    """The pedal that answers the cue, as the screen calls it."""

    @property
    def limitable(self) -> tuple[str, ...]:
        """Names of the measures that a level may limit."""
        return limitable(self.measures)

    @abstractmethod
    def task(self, level: Level, target: float, rng: np.random.Generator) -> Task:
        """What one repetition at a target (%) asks; what is left to chance is drawn from `rng`."""

    @abstractmethod
    def judge(self, level: Level, task: Task, done: Performance) -> Judged:
        """The verdict on a repetition that was played to its end, and what it was made from."""

    @abstractmethod
    def prompt(self, level: Level, task: Task) -> Prompt:
        """The words on the screen before the dark."""

    @abstractmethod
    def comment(self, level: Level, verdict: Verdict) -> str:
        """One sentence on a repetition that counts: what the foot did, and what to change."""

    @abstractmethod
    def picture(self, level: Level, judged: Judged) -> Deviation | None:
        """The picture of a repetition, also of one that does not count; None for nothing to see."""

    def sentence(self, level: Level, verdict: Verdict) -> str:
        """One sentence on a repetition of `level`, whether it counts or not."""
        if verdict.void:
            return not_counted(verdict, self.answering_pedal)
        if verdict.reason is Reason.WALKED_OUT:
            return "You left before the end, so it counts as not clean."
        return self.comment(level, verdict)

    def missed(self, level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
        """A figure for what was not done: its label, what was done, and what was asked.

        None where all that was asked was done.
        """
        return None

    def lean(self, level: Level, verdict: Verdict) -> float | None:
        """Where the bubble goes, from -1 (brake too light) to 1 (too heavy); None for no bubble."""
        return None

    def draw(
        self, level: Level, passed: Sequence[Level], before: Level | None, rng: np.random.Generator
    ) -> Level:
        """The level that a repetition is really of.

        `passed` are the levels that are passed, the easiest first, and `before` is the level of
        the repetition before it.
        """
        return level

    def wrong(self, level: Level) -> tuple[str, str, str] | None:
        """Why a level cannot be played: the key, what is expected and what was found."""
        return None
