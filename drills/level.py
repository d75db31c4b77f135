"""A level, the kind of drill it belongs to, and the parts that a level is made of.

A level is data, read from a file by `drills/level_file.py`. A kind is code: a subclass of `Kind` in
a file of its own in `drills/kinds/`.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum

import numpy as np

from drills.coach import (
    LIMITED,
    NOT_JUDGED,
    STAIRCASE,
    UNLIMITED,
    WALKED_OUT,
    Prompt,
    not_judged,
)
from drills.deviation import Deviation
from drills.example_values import ExampleValues
from drills.fault import Fault
from drills.foreperiod import Foreperiod
from drills.headline import WORDS, of_worst
from drills.level_key import Key
from drills.measures.catalogue import limitable
from drills.remark import Headline, Remark
from drills.score import WEIGHED, Judged, Reason, Verdict
from drills.targets import Targets
from drills.task import Band, Performance, Task
from drills.trace import Pedal


class Aid(StrEnum):
    """Help in finding the brake target before the dark."""

    BUBBLE = "bubble"
    TONE = "tone"
    NONE = "none"
    """No aid: only words say that the target is found."""


class Feedback(StrEnum):
    """After which repetitions the reveal is shown."""

    EVERY = "every"
    SUMMARY = "summary"
    OUTSIDE = "outside"
    NONE = "none"


@dataclass(frozen=True)
class PassRule:
    """How many of the last repetitions must be clean to pass a level."""

    clean: int = 8
    """Number of clean repetitions needed to pass."""
    of: int = 10
    """Number of last repetitions among which the clean ones are counted."""


@dataclass(frozen=True)
class Level:
    """One level of a drill, as data from its file."""

    id: str
    """Id of the level, lower-case words joined by hyphens; results are stored under it."""
    title: str
    """Name of the level on the screen, a few words."""
    purpose: str
    """What the level trains, one line."""
    kind: Kind
    """Kind of drill that the level belongs to."""
    targets: Targets
    """Brake targets of the level's repetitions."""
    tolerance: float
    """How far the brake may be from where it was held, in points."""
    limits: Mapping[str, float]
    """Largest clean value of each limited measure, by its name and in its unit."""
    band: float = 5.0
    """Half-width of the band in which the brake settles, in points; a target is found within it."""
    own: Mapping[str, float] = field(default_factory=dict)
    """Values of the keys that only levels of its kind have, by key path such as `blip.least`."""
    listed: Mapping[str, tuple[float, ...]] = field(default_factory=dict)
    """Values of those keys that list numbers, by key path; empty where a level lists none."""
    foreperiod: Foreperiod = field(default_factory=Foreperiod)
    """The wait in the dark before the cue."""
    aid: Aid = Aid.TONE
    """Help in finding the target before the dark."""
    feedback: Feedback = Feedback.EVERY
    """After which repetitions the reveal is shown."""
    summary: int = 5
    """Number of repetitions that one summary covers, where feedback is a summary."""
    repetitions: int = 10
    """Number of repetitions in a set of the level."""
    rule: PassRule = field(default_factory=PassRule)
    """What passes the level."""
    needs: tuple[str, ...] = ()
    """Ids of the levels that must be passed before this one opens."""
    pedals: tuple[Pedal, ...] = (Pedal.BRAKE,)
    """Pedals that the level needs: those of its kind, and any that it adds."""
    guess: bool = False
    """Whether the player guesses a measure before the reveal."""
    is_staircase: bool = False
    """Whether its tolerance follows the player, so that a repetition outside it is no failure."""
    placing: bool = False
    """Whether a placing set tests its stage of the ladder by this level."""
    answers: tuple[Fault, ...] = ()
    """Faults of a blip that practice of the level answers."""
    reach: float = 0.5
    """Share of its limits that three of four repetitions of the best feet stay within, 0 to 1."""
    second_task: bool = True
    """Whether the second task is asked, where its kind has one: not in one half of each pair."""
    stage: str = ""
    """Name of the level's stage on the ladder; empty for a level of the player's own."""

    @property
    def approach_band(self) -> float:
        """Half-width of the band in which the brake target counts as found, in points."""
        return min(self.band, self.tolerance)

    def around(self, target: float) -> Band:
        """Band in which a brake target (%) counts as found, in %."""
        return target - self.approach_band, target + self.approach_band


class Kind(ABC):
    """A kind of drill: what a repetition of its levels asks, how it is judged, and what is said.

    A kind measures a repetition once, in `judge`; all else is made from what that returns.
    """

    name: str
    """Name of the kind of drill in level files."""
    title: str = ""
    """What a repetition of the kind is, in a few words on the screen."""
    pedals: tuple[Pedal, ...]
    """Pedals that every level of the kind needs."""
    keys: tuple[Key, ...] = ()
    """Keys that only level files of the kind have, beside those of every level."""
    measures: tuple[str, ...] = ()
    """Names of the measures that a verdict holds, in order; all are in the catalogue."""
    reveal_measures: tuple[str, ...] = ()
    """Names of the measures that the reveal has room for, the most telling first."""
    targets_key: str = "targets"
    """Name of the key in level files that says the brake targets."""
    foreperiod: Foreperiod = Foreperiod()
    """The wait before the cue where a level leaves it out."""
    in_pairs: bool = False
    """Whether repetitions come in pairs, with and without a second task; no mix draws them."""
    needs_sound: bool = False
    """Whether its levels can be played only where the speaker is heard."""
    guess_measure: str = ""
    """Name of the measure that a player may be asked to guess; empty for none."""
    guess_question: str = "How far did the brake fall?"
    """Question that asks the player to guess a measure."""
    learning_measure: str = ""
    """Name of the measure of the learning curve; empty for none. It has no sign; less is better."""
    figure_words: Mapping[str, str] = WORDS
    """What the large figure of the reveal counts, by its measure."""
    is_diagnosed: bool = False
    """Whether repetitions of the kind have blips that may have one of the faults of a blip."""
    answering_pedal: str = "throttle"
    """Name on the screen of the pedal that answers the cue."""
    example: ExampleValues = ExampleValues()
    """What the example level of the kind says, beside what is made up from its keys."""

    @property
    def limitable(self) -> tuple[str, ...]:
        """Names of the measures that a level of the kind may limit."""
        return limitable(self.measures)

    @abstractmethod
    def task(self, level: Level, target: float, rng: np.random.Generator) -> Task:
        """What one repetition at a brake target (%) asks; chance in it is drawn from `rng`."""

    @abstractmethod
    def judge(self, level: Level, task: Task, done: Performance) -> Judged:
        """Verdict on a repetition that was played to its end, and what it was made from."""

    @abstractmethod
    def prompt(self, level: Level, task: Task) -> Prompt:
        """Words on the screen before the dark: what the repetition asks."""

    @abstractmethod
    def comment(self, level: Level, verdict: Verdict) -> Remark:
        """Remark on a repetition that counts: what the brake did, and what to attend to."""

    @abstractmethod
    def picture(self, level: Level, judged: Judged) -> Deviation | None:
        """Picture of a repetition, also of a void one; None: nothing to see."""

    def asks(self, level: Level) -> str:
        """What a repetition of a level asks, such as "3.1 s, 98 m"; empty: what its keys say."""
        return ""

    def sentence(self, level: Level, verdict: Verdict) -> str:
        """Sentence on a repetition of `level` and its cue, in their first wording."""
        remark = self.remark(level, verdict)
        return f"{remark.sentence()} {remark.cue()}".rstrip()

    def remark(self, level: Level, verdict: Verdict) -> Remark:
        """Remark on a repetition of `level`, whether it counts or not.

        Its topic is the measure or the outcome that decided, an early roll, or "inside" and
        "outside" where the tolerance is a staircase.
        """
        if verdict.void:
            return self.void_remark(level, verdict)
        if verdict.reason is Reason.WALKED_OUT:
            return Remark(verdict.reason.value, *WALKED_OUT)
        if verdict.reason in WEIGHED and not verdict.worst:
            return Remark(verdict.reason.value, *UNLIMITED[verdict.clean])
        remark = self.comment(level, verdict)
        if level.is_staircase and verdict.reason in WEIGHED:
            return replace(remark, topic=self.word(level, verdict).lower())
        return remark

    def void_remark(self, level: Level, verdict: Verdict) -> Remark:
        """Remark on a void repetition of `level`: what happened, what to do."""
        return not_judged(verdict, self.answering_pedal)

    def word(self, level: Level, verdict: Verdict) -> str:
        """Verdict on a repetition in a word or two; outside a staircase is no failure."""
        if verdict.void:
            return NOT_JUDGED
        if level.is_staircase and verdict.reason in WEIGHED:
            return STAIRCASE[verdict.clean]
        return LIMITED[verdict.clean]

    def headline(self, level: Level, verdict: Verdict) -> Headline | None:
        """The one figure of a repetition, with its limit; None where it has none."""
        if verdict.reason in WEIGHED:
            return of_worst(verdict, level.limits, self.figure_words)
        missed = None if verdict.void else self.missed(level, verdict)
        if missed is None or not (missed[1][0].isdigit() or missed[1] == "none"):
            return None
        return Headline(*missed[1:])

    def missed(self, level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
        """Figure for what was asked and not done: its label, what was done, and what was asked.

        What was asked can be read after a number alone: "points light in the dark, 5 allowed".
        None where all that was asked was done.
        """
        return None

    def note(self, verdict: Verdict) -> str:
        """Quiet line under the sentence on what did not decide; empty for none."""
        return ""

    def lean(self, level: Level, verdict: Verdict) -> float | None:
        """Position of the bubble on the reveal, -1 (brake light) to 1 (heavy); None: no bubble."""
        return None

    def fault(self, verdict: Verdict) -> Fault | None:
        """Fault behind a repetition that counts; None: none of those that a coach would name."""
        return None

    def draw(
        self, level: Level, passed: Sequence[Level], before: Level | None, rng: np.random.Generator
    ) -> Level:
        """Level that the next repetition is of: itself, or for a mixed level one that is drawn.

        `passed` are the levels that are passed, the easiest first, and `before` is the level of
        the repetition before it.
        """
        return level

    def wrong(self, level: Level) -> tuple[str, str, str] | None:
        """Why a level cannot be played: its key, what is expected, what was found; None: it can."""
        return None
