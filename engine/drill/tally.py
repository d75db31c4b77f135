"""What came of a set: kept as it goes, and summed up at its end."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from datetime import date, datetime
from statistics import median
from typing import Self

from drills.deviation import Deviation
from drills.level import Level
from drills.measures.catalogue import CATALOGUE
from drills.score import Reason, Verdict
from engine.drill.guesses import Guessing
from engine.drill.saved import guesses_on, keep_guess
from engine.drill.set_end import Missed, Tally
from engine.drill.summary import Few
from engine.kit.base import Place
from engine.kit.repetition_marks import Mark
from engine.practice.fatigue import Scored, fatigue_of
from engine.practice.passes import LevelProgress, sounds
from engine.practice.retention import CheckOutcome, Retention
from engine.practice.streaks import clean_streak
from engine.stage.stage import Stage
from engine.store import History, Record, ledger
from engine.store.repetitions import add_repetition, recent_results
from engine.store.retention import all_retention

A_DAY = 200
"""count, newest repetitions among which those of today are looked for."""


class SetLog:
    """The repetitions of a set, committed to the history one by one where there is one."""

    def __init__(self, level: Level, history: History | None) -> None:
        self._history = history
        self.level = level
        self.records: list[Record] = []
        self.pictures: tuple[Deviation, ...] = ()
        self.given_up = False
        self.before = (
            LevelProgress() if history is None else ledger.level_progress(history, level.id)
        )
        self._keeping = self._kept_now()
        self._row = 0
        self._number: int | None = None

    @property
    def counted(self) -> int:
        """count of repetitions that counted."""
        return sum(not record.verdict.void for record in self.records)

    @property
    def counting(self) -> list[Record]:
        """Those of them that counted, in order."""
        return [record for record in self.records if not record.verdict.void]

    @property
    def streaks(self) -> LevelProgress:
        """How the level stands now; of a try-out, by this set alone."""
        if self._history is not None and self._feet:
            return ledger.level_progress(self._history, self.level.id)
        streaks = LevelProgress()
        for record in self.records:
            if not record.verdict.void:
                streaks = streaks.after(record.verdict.clean, self.level.rule)
        return streaks

    @property
    def guessing(self) -> Guessing | None:
        """How the guesses on the level stand; None where none was asked."""
        if self._history is None or not self._feet:
            return None
        return Guessing.of(guesses_on(self._history, self.level.id))

    def shown(self, day: date) -> Retention | None:
        """How the level is kept, where these showed it again on a day, or not; else None."""
        now = self._kept_now()
        told = now is not None and now.outcome_on(day) in (
            CheckOutcome.RETAINED,
            CheckOutcome.NOT_TODAY,
        )
        return now if told and now != self._keeping else None

    def tires(self, day: date) -> bool:
        """Whether the scores of a day on this level fall as those of a tired foot do."""
        if self._history is None or not self._feet:
            return False
        today = [
            one for one in recent_results(self._history, A_DAY) if one.day == day and one.counts
        ]
        scored = [Scored(one.level, one.score or 0.0) for one in today]
        return bool(scored) and scored[-1].kind == self.level.id and fatigue_of(scored) is not None

    @property
    def is_tryout(self) -> bool:
        """Whether none of it counts."""
        return not self._feet

    def add(self, record: Record) -> None:
        """Commit a record."""
        self._number = None if self._history is None else add_repetition(self._history, record)
        # A trace is in the history by now; ten thousand of them would fill the memory.
        self.records.append(replace(record, trace=None))
        if not record.verdict.void:
            self._row = clean_streak(self._row, record.verdict.clean)

    def keep_guess(self, value: float, measure: str) -> None:
        """Commit what was guessed of the newest one."""
        if self._history is not None and self._number is not None:
            keep_guess(self._history, self._number, value, measure)

    def tell(self, place: Place, stage: Stage) -> None:
        """Tell the verdict on the newest one, and sound it where the level does so at once."""
        record = self.records[-1]
        stage.conclude(place.number, self._number, record)
        if record.verdict.clean and sounds(self.level):
            stage.speaker.step(self.clean_streak(record.at))

    def clean_streak(self, at: datetime) -> int:
        """Clean repetitions in a row, over all sets; of a try-out, in this one."""
        if self._history is not None and self._feet:
            return ledger.streaks(self._history, at.date()).clean_streak
        return self._row

    def with_pictures(self, pictures: Iterable[Deviation]) -> Self:
        """The same, with the pictures to be laid on top of each other."""
        self.pictures = tuple(pictures)
        return self

    def _kept_now(self) -> Retention | None:
        return None if self._history is None else all_retention(self._history).get(self.level.id)

    @property
    def _feet(self) -> bool:
        return all(record.feet for record in self.records)


def set_tally(kept: SetLog, now: Callable[[], datetime]) -> Tally:
    """How a set went."""
    verdicts = [record.verdict for record in kept.records]
    scores = [verdict.score for verdict in verdicts if verdict.score is not None]
    streaks, before, rule = kept.streaks, kept.before, kept.level.rule
    guessing = kept.guessing
    return Tally(
        counted=kept.counted,
        clean=sum(verdict.clean for verdict in verdicts),
        void=sum(verdict.void for verdict in verdicts),
        score=median(scores) if scores else None,
        clean_streak=kept.clean_streak(now()),
        latest_clean=sum(streaks.latest[-rule.of :]),
        passed=streaks.passed,
        passed_now=streaks.passed and not before.passed,
        best=streaks.best,
        best_before=before.best,
        missed=missed_most(verdicts),
        marks=tuple(
            Mark.VOID if verdict.void else Mark.CLEAN if verdict.clean else Mark.MISSED
            for verdict in verdicts
        ),
        given_up=kept.given_up,
        shown=kept.shown(now().date()),
        tires=kept.tires(now().date()),
        is_tryout=kept.is_tryout,
        guessed_off=None if guessing is None else guessing.now,
        guessed_off_first=None if guessing is None else guessing.first,
    )


def summed_up(records: Sequence[Record], levels: Sequence[Level] = ()) -> Few:
    """How a few repetitions that counted went together; `levels` are those they may be of."""
    titles = {level.id: level.title for level in levels}
    verdicts = [record.verdict for record in records]
    return Few(
        marks=tuple(Mark.CLEAN if verdict.clean else Mark.MISSED for verdict in verdicts),
        score=median(verdict.score or 0.0 for verdict in verdicts),
        measures=tuple(verdict.measures for verdict in verdicts),
        missed=missed_most(verdicts),
        named=tuple(titles.get(record.drawn, "") for record in records if record.drawn),
    )


def missed_most(verdicts: Iterable[Verdict]) -> Missed | None:
    """What some repetitions missed most often; None where all was kept."""
    faults = Counter(fault for verdict in verdicts for fault in _faults(verdict))
    found = [Missed(label, times) for label, times in faults.most_common(1)]
    return found[0] if found else None


def _faults(verdict: Verdict) -> list[str]:
    """What a repetition that counts missed: its limits, or the thing that was asked."""
    if verdict.void or verdict.clean:
        return []
    if verdict.reason is Reason.OVER_LIMIT:
        return [CATALOGUE[name].label for name in verdict.over]
    return [verdict.reason.value.capitalize()]
