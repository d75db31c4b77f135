"""`SetLog`: the repetitions of a set, stored as they end, and the tally of them."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import date, datetime
from statistics import median
from typing import Self

from drills.deviation import Deviation
from drills.level import Level
from engine.drill.guesses import GuessErrors
from engine.drill.saved import guesses_on, keep_guess
from engine.drill.tally import Tally, mark_of, missed_most
from engine.kit.base import Place
from engine.practice.fatigue import Scored, fatigue_of
from engine.practice.passes import LevelProgress, sounds
from engine.practice.retention import CheckOutcome, Retention
from engine.practice.streaks import clean_streak
from engine.stage.stage import Stage
from engine.store import History, Record, ledger
from engine.store.remeasure import remeasuring
from engine.store.repetitions import add_repetition, recent_results
from engine.store.retention import all_retention

RESULTS_OF_A_DAY = 200
"""Number of newest repetitions among which those of today are looked for."""


class SetLog:
    """Records of the repetitions of one set; each is stored in the history, if any, when added."""

    def __init__(self, level: Level, history: History | None) -> None:
        """Empty log for a set of `level`; `history` is None in a try-out."""
        self._history = history
        self.level = level
        self.records: list[Record] = []
        self.pictures: tuple[Deviation, ...] = ()
        self.given_up = False
        self.before = (
            LevelProgress() if history is None else ledger.level_progress(history, level.id)
        )
        self._retention_before = self._retention()
        self._streak = 0
        self._number: int | None = None

    @property
    def counted(self) -> int:
        """Number of repetitions of the set that counted."""
        return len(self.counting)

    @property
    def counting(self) -> list[Record]:
        """Records of the repetitions of the set that counted, in order."""
        return [record for record in self.records if not record.verdict.void]

    @property
    def streaks(self) -> LevelProgress:
        """How far the level is passed, over all sets of it; in a try-out, by this set alone."""
        if self._history is not None and self._feet:
            return ledger.level_progress(self._history, self.level.id)
        progress = LevelProgress()
        for record in self.counting:
            progress = progress.after(record.verdict.clean, self.level.rule)
        return progress

    @property
    def guess_errors(self) -> GuessErrors | None:
        """Errors of the player's guesses on this level so far; None if there are none.

        None too while the history is remeasured.
        """
        if self._history is None or not self._feet or remeasuring(self._history) is not None:
            return None
        return GuessErrors.of(guesses_on(self._history, self.level.id))

    def retention_check(self, day: date) -> Retention | None:
        """Retention of the level, if this set completed a check of it on `day`; otherwise None."""
        now = self._retention()
        checked = now is not None and now.outcome_on(day) in (
            CheckOutcome.RETAINED,
            CheckOutcome.NOT_TODAY,
        )
        return now if checked and now != self._retention_before else None

    def tires(self, day: date) -> bool:
        """Whether the scores on this level on `day` fall as those of a tired foot do."""
        if self._history is None or not self._feet:
            return False
        scored = [
            Scored(result.level, result.score or 0.0)
            for result in recent_results(self._history, RESULTS_OF_A_DAY)
            if result.day == day and result.counts
        ]
        return bool(scored) and scored[-1].kind == self.level.id and fatigue_of(scored) is not None

    @property
    def is_tryout(self) -> bool:
        """Whether the set was played without feet, so that nothing counts."""
        return not self._feet

    def add(self, record: Record) -> None:
        """Add the record of a repetition and store it. Raises StoreError."""
        self._number = None if self._history is None else add_repetition(self._history, record)
        # The trace is in the history now; ten thousand traces would fill the memory.
        self.records.append(replace(record, trace=None))
        if not record.verdict.void:
            self._streak = clean_streak(self._streak, record.verdict.clean)

    def add_guess(self, value: float, measure: str) -> None:
        """Store the guess of a measure of the newest repetition, in its unit. Raises StoreError."""
        if self._history is not None and self._number is not None:
            keep_guess(self._history, self._number, value, measure)

    def announce(self, place: Place, stage: Stage) -> None:
        """Tell listeners the newest verdict, and sound it if the level does so at once."""
        record = self.records[-1]
        stage.conclude(place.number, self._number, record)
        if record.verdict.clean and sounds(self.level):
            stage.speaker.step(self.clean_streak(record.at))

    def clean_streak(self, at: datetime) -> int:
        """Number of clean repetitions in a row over all sets; in a try-out, in this set alone."""
        if self._history is not None and self._feet:
            return ledger.streaks(self._history, at.date()).clean_streak
        return self._streak

    def with_pictures(self, pictures: Iterable[Deviation]) -> Self:
        """This log, given the pictures that the end of the set draws over each other."""
        self.pictures = tuple(pictures)
        return self

    def _retention(self) -> Retention | None:
        return None if self._history is None else all_retention(self._history).get(self.level.id)

    @property
    def _feet(self) -> bool:
        return all(record.feet for record in self.records)


def set_tally(log: SetLog, now: Callable[[], datetime]) -> Tally:
    """Counts and results of the set in `log`; `now` is the local clock. Raises StoreError."""
    verdicts = [record.verdict for record in log.records]
    scores = [verdict.score for verdict in verdicts if verdict.score is not None]
    progress, before, rule = log.streaks, log.before, log.level.rule
    errors = log.guess_errors
    return Tally(
        counted=log.counted,
        clean=sum(verdict.clean for verdict in verdicts),
        void=sum(verdict.void for verdict in verdicts),
        score=median(scores) if scores else None,
        clean_streak=log.clean_streak(now()),
        latest_clean=sum(progress.latest[-rule.of :]),
        passed=progress.passed,
        passed_now=progress.passed and not before.passed,
        best=progress.best,
        best_before=before.best,
        missed=missed_most(verdicts),
        marks=tuple(map(mark_of, verdicts)),
        given_up=log.given_up,
        shown=log.retention_check(now().date()),
        tires=log.tires(now().date()),
        is_tryout=log.is_tryout,
        guessed_off=None if errors is None else errors.now,
        guessed_off_first=None if errors is None else errors.first,
    )
