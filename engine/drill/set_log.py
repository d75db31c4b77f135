"""`SetLog`: the repetitions of a set, stored as they end, and the tally of them."""

from __future__ import annotations

from collections import Counter, deque
from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import date, datetime
from statistics import median
from typing import Self

from drills.deviation import Deviation
from drills.fault import Fault
from drills.level import Level
from drills.score import Reason
from engine.drill.cost_words import before_words, lead_words
from engine.drill.guesses import GuessErrors
from engine.drill.moment_rules import Achievement, Standing, achieved
from engine.drill.remarks import ShownRemarks
from engine.drill.saved import guesses_on, keep_guess
from engine.drill.tally import Tally, cause_of, faults_of, leading_cause, mark_of, most_frequent
from engine.kit.base import Place
from engine.kit.repetition_marks import Mark
from engine.practice.fatigue import Scored, fatigue_of
from engine.practice.passes import LevelProgress
from engine.practice.personal_words import personal_sentence
from engine.practice.retention import CheckOutcome, Retention
from engine.practice.sense import ErrorAt
from engine.practice.streaks import clean_streak
from engine.stage.stage import Stage
from engine.store import History, Record, ledger
from engine.store.asked import SQUEEZE, sense_now
from engine.store.counting import counting_cost_now
from engine.store.personal import personal_limits
from engine.store.remeasure import remeasuring
from engine.store.repetitions import add_repetition, recent_results
from engine.store.retention import all_retention

RESULTS_OF_A_DAY = 200
"""Number of newest repetitions among which those of today are looked for."""
NEWEST = 50
"""Number of records of a set that are held in memory, all and those that counted: no screen looks
further back."""


class SetLog:
    """Repetitions of one set; the record of each is stored in the history, if any, when added.

    Of all of them it holds a mark, a score and a count of the faults, as a set of the demo may be
    ten thousand long; only the newest records are held whole.
    """

    def __init__(
        self, level: Level, history: History | None, remarks: ShownRemarks | None = None
    ) -> None:
        """Empty log for a set of `level`; `history` is None in a try-out.

        `remarks` are those that were shown before it in the same session, if there were any.
        """
        self._history = history
        self.remarks = ShownRemarks() if remarks is None else remarks
        """Remarks that reveals have shown, in this set or in its session."""
        self.level = level
        self.marks: list[Mark] = []
        """A mark for each repetition, in order."""
        self.scores: list[float] = []
        """Score of each repetition that counted, 0 to 100, in order."""
        self.faults = Counter[str]()
        """Number of times that each fault occurred, by its label."""
        self.causes = Counter[Fault]()
        """Number of misses by the fault of the blip that was behind them."""
        self.voids = set[Reason]()
        """Reasons why repetitions of the set were void."""
        self.pictures: tuple[Deviation, ...] = ()
        self.given_up = False
        self.achieved: tuple[Achievement, ...] = ()
        """What the newest repetition achieved that is worth a moment."""
        self._stands = self._standing()
        self.before = self._stands.progress
        self._retention_before = self._stands.retention
        self._newest, self._counting = deque[Record](maxlen=NEWEST), deque[Record](maxlen=NEWEST)
        self._progress = LevelProgress()
        self._feet = True
        self._streak = 0
        self._number: int | None = None

    @property
    def played(self) -> int:
        """Number of repetitions of the set, void ones too."""
        return len(self.marks)

    @property
    def number(self) -> int | None:
        """Number of the newest repetition in the history; None if it is not stored."""
        return self._number

    @property
    def counted(self) -> int:
        """Number of repetitions of the set that counted."""
        return self.played - self.marks.count(Mark.VOID)

    @property
    def records(self) -> list[Record]:
        """Records of the newest repetitions of the set, in order, at most NEWEST."""
        return list(self._newest)

    @property
    def counting(self) -> list[Record]:
        """Records of the newest repetitions of the set that counted, in order, at most NEWEST."""
        return list(self._counting)

    @property
    def streaks(self) -> LevelProgress:
        """How far the level is passed, over all sets of it; in a try-out, by this set alone."""
        if self._history is not None and self._feet:
            return ledger.level_progress(self._history, self.level.id)
        return self._progress

    @property
    def guess_errors(self) -> GuessErrors | None:
        """Errors of the player's guesses on this level so far; None if there are none.

        None too while the history is remeasured.
        """
        if self._history is None or not self._feet or remeasuring(self._history) is not None:
            return None
        return GuessErrors.of(guesses_on(self._history, self.level.id))

    def personal_words(self, day: date) -> str:
        """Sentence on `day` on the personal limit of the level, if it is retained; or empty."""
        if self._history is None or not self._feet or not self._standing().retention.is_retained:
            return ""
        limit = personal_limits(self._history).get(self.level.id)
        return "" if limit is None else personal_sentence(limit, day)

    @property
    def sense_fault(self) -> ErrorAt | None:
        """Worst error of the player's sense of pressure, if it is sure and squeezes were played."""
        squeezes = any(record.kind == SQUEEZE for record in self._newest)
        if self._history is None or not self._feet or not squeezes:
            return None
        sense = sense_now(self._history)
        return None if sense is None else sense.fault

    def cost_words(self, today: date) -> str:
        """What counting costs the player, and cost before, if the level is one of counting."""
        if self._history is None or not self._feet or not self.level.kind.in_pairs:
            return ""
        cost = counting_cost_now(self._history)
        if cost is None:
            return ""
        before = "" if cost.before is None else before_words(cost.before, today)
        return " ".join(filter(None, (lead_words(cost), before)))

    def retention_check(self, day: date) -> Retention | None:
        """Retention of the level, if this set completed a check of it on `day`; otherwise None."""
        now = self._standing().retention
        checked = now.outcome_on(day) in (CheckOutcome.RETAINED, CheckOutcome.NOT_TODAY)
        return now if checked and now != self._retention_before else None

    def tires(self, day: date) -> bool:
        """Whether the scores on this level on `day` have fallen over the newest twelve."""
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
        # Nothing is read first: where the history is damaged, what is being written is kept.
        self._number = None if self._history is None else add_repetition(self._history, record)
        verdict, before = record.verdict, self._stands
        self._stands = self._standing()
        self.achieved = achieved(self.level, before, self._stands, record)
        self.marks.append(mark_of(verdict))
        self.faults.update(faults_of(verdict))
        if (cause := cause_of(record)) is not None:
            self.causes[cause] += 1
        self._feet = self._feet and record.feet
        # The trace is in the history now.
        record = replace(record, trace=None)
        self._newest.append(record)
        if verdict.void:
            self.voids.add(verdict.reason)
        else:
            self._counting.append(record)
            self._progress = self._progress.after(verdict.clean, self.level.rule)
            self._streak = clean_streak(self._streak, verdict.clean)
        if verdict.score is not None:
            self.scores.append(verdict.score)

    def add_guess(self, value: float, measure: str) -> None:
        """Store the guess of a measure of the newest repetition, in its unit. Raises StoreError."""
        if self._history is not None and self._number is not None:
            keep_guess(self._history, self._number, value, measure)

    def announce(self, place: Place, stage: Stage) -> None:
        """Tell listeners the newest verdict."""
        stage.conclude(place.number, self._number, self._newest[-1])

    def clean_streak(self, at: datetime) -> int:
        """Number of clean repetitions in a row over all sets; in a try-out, in this set alone."""
        if self._history is not None and self._feet:
            return ledger.streaks(self._history, at.date()).clean_streak
        return self._streak

    def with_pictures(self, pictures: Iterable[Deviation]) -> Self:
        """This log, given the pictures that the end of the set draws over each other."""
        self.pictures = tuple(pictures)
        return self

    def _standing(self) -> Standing:
        """How the player stands on the level now; in a try-out as one who never played."""
        history = self._history
        if history is None:
            return Standing()
        retention = all_retention(history).get(self.level.id, Retention())
        progress = ledger.level_progress(history, self.level.id)
        return Standing(progress, retention, ledger.clean_row(history))


def set_tally(log: SetLog, now: Callable[[], datetime]) -> Tally:
    """Counts and results of the set in `log`; `now` is the local clock. Raises StoreError."""
    progress, before, rule = log.streaks, log.before, log.level.rule
    errors = log.guess_errors
    return Tally(
        counted=log.counted,
        clean=log.marks.count(Mark.CLEAN),
        void=log.played - log.counted,
        score=median(log.scores) if log.scores else None,
        clean_streak=log.clean_streak(now()),
        latest_clean=sum(progress.latest[-rule.of :]),
        passed=progress.passed,
        passed_now=progress.passed and not before.passed,
        best=progress.best,
        best_before=before.best,
        missed=most_frequent(log.faults),
        cause=leading_cause(log.causes, log.counted, log.marks.count(Mark.MISSED)),
        why_void=next(iter(log.voids)) if len(log.voids) == 1 else None,
        clean_to_pass=progress.clean_to_pass(rule),
        marks=tuple(log.marks),
        given_up=log.given_up,
        shown=log.retention_check(now().date()),
        personal=log.personal_words(now().date()),
        tires=log.tires(now().date()),
        is_tryout=log.is_tryout,
        guessed_off=None if errors is None else errors.now,
        guessed_off_first=None if errors is None else errors.first,
        counting=log.cost_words(now().date()),
        sense=log.sense_fault,
    )
