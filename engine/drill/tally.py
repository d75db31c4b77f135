"""Results of a set and of its latest repetitions, as counts: `Tally` and `RecentRepetitions`."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from statistics import median
from typing import TYPE_CHECKING

from drills.fault import Fault
from drills.kinds import KINDS
from drills.level import Level
from drills.measures.catalogue import CATALOGUE
from drills.score import Reason, Verdict
from engine.kit.repetition_marks import Mark
from engine.practice.diagnosis import FaultShare
from engine.practice.retention import Retention
from engine.store import Record

if TYPE_CHECKING:
    from engine.practice.sense import ErrorAt


@dataclass(frozen=True)
class Missed:
    """Fault that occurred most often in some repetitions, and how often."""

    label: str
    """Name of the fault in a word or two: the measure over its limit, or what was not done."""
    times: int
    """Number of repetitions with this fault."""


@dataclass(frozen=True)
class Tally:
    """Counts and results of one set. The names of the fields are keys of the events file."""

    counted: int
    """Number of repetitions in the set that counted."""
    clean: int
    """Number of repetitions in the set that were clean."""
    void: int
    """Number of repetitions in the set that were void."""
    score: float | None
    """Median score of the repetitions that counted, 0 to 100; None if none counted."""
    clean_streak: int
    """Number of clean repetitions in a row up to now, over all sets of all levels."""
    latest_clean: int
    """Number of clean ones among the latest repetitions, as many as the pass rule looks at."""
    passed: bool
    """Whether the level is passed, by this set or before it."""
    passed_now: bool = False
    """Whether the level was first passed in this set."""
    best: int = 0
    """Most clean repetitions ever within as many in a row as the pass rule looks at."""
    best_before: int = 0
    """Value of `best` before this set."""
    missed: Missed | None = None
    """Most frequent fault in the set; None if there was no fault."""
    cause: FaultShare | None = None
    """Fault of a blip behind more than half of the misses of the set; None where there is none."""
    marks: tuple[Mark, ...] = ()
    """A mark for every repetition of the set, in order."""
    given_up: bool = False
    """Whether the set ended because too many repetitions in a row were void."""
    why_void: Reason | None = None
    """Why repetitions of the set were void; None if none were, or for several reasons."""
    clean_to_pass: int = 0
    """Clean repetitions in a row, from now on, that pass the level; 0 if it is passed."""
    is_tryout: bool = False
    """Whether the set was played without feet, so that nothing counts."""
    shown: Retention | None = None
    """Retention of the level, if this set was a check of it; otherwise None."""
    personal: str = ""
    """Sentence on the personal limit of the level, where it is retained; otherwise empty."""
    tires: bool = False
    """Whether the scores on this level that day have fallen over the newest twelve."""
    guessed_off: float | None = None
    """Mean absolute error of the newest guesses on the level, in points; None without guesses."""
    guessed_off_first: float | None = None
    """Mean absolute error of the first guesses, in points; None if too few to compare."""
    counting: str = ""
    """Sentence on what counting knocks costs, after a level of it; otherwise empty."""
    sense: ErrorAt | None = None
    """Worst error of the player's sense of pressure, after squeezes; None where none is sure."""

    @property
    def is_beaten(self) -> bool:
        """Whether the set beat the best of earlier sets, if there was one."""
        return not self.is_tryout and self.best > self.best_before > 0


@dataclass(frozen=True)
class RecentRepetitions:
    """Results of the latest few repetitions of a set that counted, for a summary."""

    marks: tuple[Mark, ...]
    """A mark for each of these repetitions, in order."""
    score: float
    """Median score of these repetitions, 0 to 100."""
    measures: tuple[Mapping[str, float | None], ...]
    """Measures of each repetition by name, in the units of the catalogue."""
    missed: Missed | None
    """Most frequent fault in these repetitions; None if there was no fault."""
    cause: FaultShare | None = None
    """Fault of a blip behind more than half of their misses; None where there is none."""
    named: tuple[str, ...] = ()
    """Title of the level each repetition was drawn from; empty unless the level is mixed."""


def recent_repetitions(
    records: Sequence[Record], levels: Sequence[Level] = ()
) -> RecentRepetitions:
    """Results of these repetitions, which count; `levels` are those a mixed one may draw from."""
    titles = {level.id: level.title for level in levels}
    verdicts = [record.verdict for record in records]
    return RecentRepetitions(
        marks=tuple(map(mark_of, verdicts)),
        score=median(verdict.score or 0.0 for verdict in verdicts),
        measures=tuple(verdict.measures for verdict in verdicts),
        missed=missed_most(verdicts),
        cause=cause_among(records),
        named=tuple(titles.get(record.drawn, "") for record in records if record.drawn),
    )


def mark_of(verdict: Verdict) -> Mark:
    """Mark that stands for a repetition with this verdict."""
    if verdict.void:
        return Mark.VOID
    return Mark.CLEAN if verdict.clean else Mark.MISSED


def missed_most(verdicts: Iterable[Verdict]) -> Missed | None:
    """Most frequent fault among the verdicts on some repetitions; None if there is no fault."""
    return most_frequent(Counter(fault for verdict in verdicts for fault in faults_of(verdict)))


def most_frequent(faults: Counter[str]) -> Missed | None:
    """Most frequent of some faults, counted by their labels; None if there is no fault."""
    return next((Missed(label, times) for label, times in faults.most_common(1)), None)


def faults_of(verdict: Verdict) -> list[str]:
    """Labels of the faults of a repetition that counts: measures over a limit, or the reason."""
    if verdict.void or verdict.clean:
        return []
    if verdict.reason is Reason.OVER_LIMIT:
        return [CATALOGUE[name].label for name in verdict.over]
    return [verdict.reason.value.capitalize()]


def cause_of(record: Record) -> Fault | None:
    """Fault of a blip that was not clean; None where there is none, or none is known."""
    verdict, kind = record.verdict, KINDS.get(record.kind)
    if verdict.void or verdict.clean or kind is None:
        return None
    return kind.fault(verdict)


def cause_among(records: Sequence[Record]) -> FaultShare | None:
    """The cause of more than half of the misses among repetitions that count; None for none."""
    causes = Counter(cause for record in records if (cause := cause_of(record)) is not None)
    return leading_cause(causes, len(records), sum(not one.verdict.clean for one in records))


def leading_cause(causes: Counter[Fault], counted: int, missed: int) -> FaultShare | None:
    """The cause of more than half of the misses among `counted` repetitions; None for none."""
    return next(
        (
            FaultShare(fault, times, counted)
            for fault, times in causes.most_common(1)
            if 2 * times > missed
        ),
        None,
    )
