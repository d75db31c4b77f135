"""The end of a set: how it went, whether the level is passed, and what to do now."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from drills.deviation import Deviation, median_of
from drills.level import Level
from engine.kit import deviation_plot, theme, widgets
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.kit.repetition_marks import Mark, draw_marks
from engine.kit.widgets import Figure
from engine.practice.retention import Retention


class Then(Enum):
    """What follows a set, other than a level."""

    HOME = "home"


@dataclass(frozen=True)
class Missed:
    """What was missed most often."""

    label: str
    """A word or two: the measure over its limit, or what was not done as asked."""
    times: int
    """count of repetitions."""


@dataclass(frozen=True)
class Tally:
    """How a set went."""

    counted: int
    """count of repetitions that counted."""
    clean: int
    """count of clean ones."""
    void: int
    """count of those that did not count."""
    score: float | None
    """0 to 100, median of those that counted; None where none did."""
    clean_streak: int
    """count of clean repetitions in a row, over all sets."""
    latest_clean: int
    """count of clean ones among the latest that the pass rule looks at."""
    passed: bool
    """Whether the level is passed."""
    passed_now: bool = False
    """Whether this set passed it."""
    best: int = 0
    """count of clean ones among so many, the most there ever were on this level."""
    best_before: int = 0
    """count, the same before this set."""
    missed: Missed | None = None
    """What was missed most; None where nothing was."""
    marks: tuple[Mark, ...] = ()
    """Every repetition in order."""
    given_up: bool = False
    """Whether it ended because too many in a row did not count."""
    is_tryout: bool = False
    """Whether none of it counts."""
    shown: Retention | None = None
    """How the level is kept, where this set showed it again or not; None where it was not due."""
    tires: bool = False
    """Whether the scores of the day fall as those of a tired foot do."""
    guessed_off: float | None = None
    """points, mean error of the newest guesses on the level; None where there are none."""
    guessed_off_first: float | None = None
    """points, mean error of the first ones; None while there are too few to tell them apart."""

    @property
    def is_beaten(self) -> bool:
        """Whether there was a best before, and this is better."""
        return not self.is_tryout and self.best > self.best_before > 0


class SetEnd(Menu[Level | Then]):
    """Ends with a level to go on with, or Then.HOME."""

    name = "set end"
    back_word = "home"

    def __init__(
        self,
        level: Level,
        tally: Tally,
        following: Level,
        pictures: Sequence[Deviation] = (),
        *,
        home_first: bool = False,
    ) -> None:
        """`pictures` are those of its repetitions, to be laid on top of each other.

        `home_first`: home is the obvious choice, as after a demo.
        """
        choices: list[Choice[Level | Then]] = [Choice(f"Once more: {level.title}", level)]
        if following.id != level.id:
            why = "passed now" if tally.passed_now else "passed before" if tally.passed else ""
            choices.insert(0, Choice(f"Go on: {following.title}", following, why))
        home = Choice[Level | Then]("Home", Then.HOME)
        ordered = [home, *choices] if home_first or tally.tires else [*choices, home]
        super().__init__(ordered, back=Then.HOME)
        self._level = level
        self._tally = tally
        measured = [picture for picture in pictures if picture.is_measured]
        self._pictures = [one for one in measured if one.span == measured[-1].span]

    def details(self) -> Mapping[str, object]:
        """How the set went: names of the events file, which stay as they are."""
        tally = self._tally
        return {
            **super().details(),
            "counted": tally.counted,
            "clean": tally.clean,
            "void": tally.void,
            "score": tally.score,
            "clean_row": tally.clean_streak,
            "latest_clean": tally.latest_clean,
            "passed": tally.passed,
            "passed_now": tally.passed_now,
            "best": tally.best,
            "best_before": tally.best_before,
            "missed": None if tally.missed is None else vars(tally.missed),
            "marks": tally.marks,
            "given_up": tally.given_up,
            "is_tryout": tally.is_tryout,
            "shown": None if tally.shown is None else _shown_words(tally.shown),
            "tires": tally.tires,
            "guessed_off": tally.guessed_off,
            "guessed_off_first": tally.guessed_off_first,
            "level": self._level.id,
        }

    def picture(self, canvas: Canvas) -> None:
        """A dot for each repetition, the figures, the pass rule in words, and the curves."""
        width = theme.WIDTH - 2 * theme.MARGIN
        title(canvas, f"{self._level.title}: the set is over")
        y = draw_marks(canvas, (theme.MARGIN, 190), self._tally.marks)
        widgets.figures(canvas, (theme.MARGIN, y + 12), width, self._figures())
        y = canvas.text(self._said, (theme.MARGIN, y + 168), theme.BODY, width=width)
        room = self.choices_top - y - 10
        if self._pictures and room > 200:
            middle = median_of(self._pictures)
            deviation_plot.deviation(
                canvas, (theme.MARGIN, y), (width, room), middle, self._pictures
            )

    def _figures(self) -> list[Figure]:
        tally, rule = self._tally, self._level.rule
        missed = Figure("Missed most", "nothing", "all was kept" if tally.counted else "")
        if tally.missed is not None:
            times = f"{tally.missed.times} of {tally.counted}"
            missed = Figure("Missed most", tally.missed.label, times)
        best = Figure("Best so far", f"{tally.best} of {rule.of}", "clean on this level")
        if tally.is_tryout:
            best = Figure("Try-out", "nothing is kept", "only feet on pedals count")
        return [
            Figure("Clean", f"{tally.clean} of {tally.counted}", "repetitions"),
            Figure(
                "Score",
                "-" if tally.score is None else f"{math.floor(tally.score)}",
                "middle of them",
            ),
            missed,
            best,
        ]

    @property
    def _said(self) -> str:
        """Whether the level is passed, and what there is to know beside."""
        tally, rule = self._tally, self._level.rule
        wanted = f"{rule.clean} clean of the last {rule.of}"
        if tally.is_tryout and tally.passed:
            said = "With feet on pedals that would pass."
        elif tally.is_tryout:
            said = f"With feet on pedals {wanted} would pass."
        elif tally.passed_now:
            said = "Passed. Whether it is learned shows on another day."
        elif tally.shown is not None:
            said = _shown_words(tally.shown)
        elif tally.passed:
            said = f"Passed before; {tally.latest_clean} of the last {rule.of} clean now."
        else:
            said = f"Not passed yet: {wanted} pass it, you have {tally.latest_clean}."
        if tally.is_beaten:
            said += " More than ever before."
        if tally.guessed_off is not None and self._level.guess:
            said += f" Your guesses are {tally.guessed_off:.1f} points off on average"
            first = tally.guessed_off_first
            said += "." if first is None else f", {first:.1f} at first."
        if tally.void:
            some = "One repetition" if tally.void == 1 else f"{tally.void} repetitions"
            said += f" {some} did not count."
        if tally.tires:
            said += " Your scores fall as those of a tired foot do: it has done enough for today."
        return said + (" The set was given up." if tally.given_up else "")


def _shown_words(retention: Retention) -> str:
    """What a set showed of a level that was due, and when it comes again."""
    if retention.missed:
        return "Not shown today: it stays passed, and comes again tomorrow."
    days = (
        0
        if retention.due is None or retention.day is None
        else (retention.due - retention.day).days
    )
    word = "Kept well" if retention.is_well_retained else "Kept"
    return f"{word}: it was there on another day, and comes again in {days} days."
