"""Screen after a retention check: whether the level was retained, and when it is checked next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from drills.capitals import capitalised
from drills.deviation import Deviation
from drills.level import Level
from drills.remark import Headline
from engine.drill.set_log import SetLog
from engine.drill.set_words import fault_words, next_check_words
from engine.drill.tally import Missed, cause_among, missed_most
from engine.five.player_state import PlayerState
from engine.five.reasons import check_parts
from engine.kit import theme
from engine.kit.base import Place
from engine.kit.canvas import Canvas
from engine.kit.curve_overlay import draw_overlay
from engine.kit.opening import draw_opening
from engine.kit.repetition_marks import Mark, draw_large_marks
from engine.kit.timed_screen import TimedOutcome, TimedScreen
from engine.practice import retention
from engine.practice.diagnosis import FaultShare

STAY = 5.0
"""Seconds the screen after a retention check stays up: it sums up several repetitions."""
TOP = 510
"""Top edge of the brake curves, in canvas units from the top of the screen."""
BOTTOM = 990
"""Bottom edge of the brake curves, in canvas units from the top of the screen."""


@dataclass(frozen=True)
class RetentionCheck:
    """Retention check of one level that has been decided, as the screen shows it."""

    title: str
    """Title of the checked level."""
    outcome: retention.CheckOutcome
    """Outcome of the check: whether the level was retained; never OPEN."""
    marks: tuple[Mark, ...]
    """Mark of each repetition of the check (clean or missed), in order."""
    well: bool
    """Whether the level is well retained now: also after a week without a check."""
    due_days: int
    """Days from today until the level's next retention check."""
    missed: Missed | None = None
    """Most frequent fault of the repetitions; None if there was none."""
    cause: FaultShare | None = None
    """Fault of a blip behind more than half of the misses; None where there is none."""
    asks: str = "check-up"
    """What the check was, such as "check-up again"."""
    when: str = ""
    """How long after the level was passed, retained or missed it was; empty: not known."""
    drawn: int = 0
    """Number of its repetitions whose brake curves are drawn: all of them or, after an
    interruption, none."""

    @property
    def word(self) -> str:
        """Outcome of the check in a word or two, for the screen."""
        if self.outcome is not retention.CheckOutcome.RETAINED:
            return "Not today: it stays passed."
        return "Well retained." if self.well else "Retained."

    @property
    def heading(self) -> str:
        """What was checked and how long after, such as "Check-up: First blip, 8 days later"."""
        asks = self.asks if self.asks.endswith("?") else f"{self.asks}:"
        return capitalised(", ".join(filter(None, [f"{asks} {self.title}", self.when])))

    @property
    def clean(self) -> int:
        """Clean repetitions of the check, as a count."""
        return self.marks.count(Mark.CLEAN)

    @property
    def counted(self) -> int:
        """Repetitions of the check that count, as a count."""
        return len(self.marks) - self.marks.count(Mark.VOID)

    @property
    def sentences(self) -> str:
        """Sentences: what went wrong, and when the level is checked next."""
        fault = fault_words(self.cause, self.missed, self.counted, self.clean)
        return f"{fault} {next_check_words(self.due_days)}".strip()


def check_of(
    level: Level,
    log: SetLog,
    player: PlayerState,
    now: retention.Retention | None,
) -> RetentionCheck | None:
    """The check of a level that its newest repetition decided; None if it did not.

    `player` is the state of the player before that repetition, `now` the level's retention after
    it. `log` holds those played since the session was begun or resumed.
    """
    before, day = player.retention.get(level.id), None if now is None else now.day
    if now is None or now == before or now.due is None or day is None:
        return None
    outcome = now.outcome_on(day)
    if outcome is None or outcome is retention.CheckOutcome.OPEN:
        return None
    records = [record for record in log.counting if record.at.date() == day]
    whole = len(records) == len(now.first)
    asks, when = check_parts(before, player.day, player.rested)
    return RetentionCheck(
        level.title,
        outcome,
        tuple(Mark.CLEAN if clean else Mark.MISSED for clean in now.first),
        now.is_well_retained,
        (now.due - day).days,
        missed=missed_most(record.verdict for record in records) if whole else None,
        cause=cause_among(records) if whole else None,
        asks=asks,
        when=when,
        drawn=len(records) if whole else 0,
    )


class RetentionScreen(TimedScreen[TimedOutcome]):
    """Outcome of a retention check; the screen ends by itself, or opens the menu on request."""

    name = "shown"

    def __init__(self, check: RetentionCheck, pictures: Sequence[Deviation], place: Place) -> None:
        """`pictures` are the brake curves of the check's repetitions, drawn over each other."""
        super().__init__(TimedOutcome.ON, TimedOutcome.MENU, STAY, place)
        self._check = check
        self._pictures = tuple(pictures)

    def details(self) -> Mapping[str, object]:
        """Title, outcome, clean repetitions, and days to the next check, for the events file."""
        return {
            "title": self._check.title,
            "word": self._check.word,
            "clean": self._check.clean,
            "due_days": self._check.due_days,
        }

    def picture(self, canvas: Canvas) -> None:
        """Draw the check's outcome, the marks of its repetitions, the next date, and the curves."""
        check = self._check
        figure = Headline(f"{check.clean}", f"of {check.counted} clean")
        draw_opening(canvas, check.heading, check.word, check.sentences, figure)
        draw_large_marks(canvas, check.marks, theme.ACROSS)
        draw_overlay(canvas, (theme.MARGIN, TOP), (theme.ACROSS, BOTTOM - TOP), self._pictures)
