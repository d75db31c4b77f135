"""Screens of a trial's end: figures with their intervals, and the blips of both arms."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from drills.deviation import Deviation, median_of
from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.kit.charts import Area
from engine.kit.charts_blips import beyond_words, blips_chart, blips_reach, halves
from engine.trial.outcome import ArmCount, Difference, Outcome
from engine.trial.outcome_words import NO, Written, written
from engine.trial.trial import Arm

BELOW = 20
"""units kept under the charts."""
TOP = 70
"""units from the top, where the heading is."""
COLUMNS = (0.0, 400.0, 640.0, 880.0, 1130.0, 1440.0)
"""units from the left margin, where each column of the table begins."""
HEADINGS = ("", "A", "B", "B less A", "likely", "by luck alone")
"""What each column is headed by."""
LINE = 62
"""units, from one line of the table to the next."""
OF_LUCK = "By luck alone: of 100 trials of two that are alike, so many show as large a difference."
"""What the last column means."""
HUNDRED = 100
"""count of trials that chance is told of."""


@dataclass(frozen=True)
class Curves:
    """The pictures of one arm."""

    name: str
    """What its set-up is called."""
    pictures: tuple[Deviation, ...]
    """Each repetition that was measured, of one span of time; at least one."""


class ResultPage(Enum):
    """What to look at next."""

    CURVES = "curves"
    FIGURES = "figures"
    DONE = "done"


class TrialFigures(Menu[ResultPage]):
    """Ends with what to look at next."""

    name = "trial result"

    def __init__(
        self, said: Sequence[str], outcome: Outcome, names: tuple[str, str], *, curves: bool
    ) -> None:
        """`said` is what it tells, a heading first; `names` are those of A and of B.

        `curves`: there are some to look at.
        """
        more = [Choice("See the curves", ResultPage.CURVES, "all of A beside all of B")]
        super().__init__(
            [*(more if curves else []), Choice("Done", ResultPage.DONE)], back=ResultPage.DONE
        )
        self._said = tuple(said)
        self._outcome = outcome
        self._names = names

    def details(self) -> Mapping[str, object]:
        """The choices, what it tells, and its table."""
        return {**super().details(), "said": self._said, "table": self.table, "counts": self.counts}

    @property
    def table(self) -> tuple[tuple[str, ...], ...]:
        """The figures, a line a measure."""
        outcome = self._outcome
        return tuple(row_of(one) for one in (outcome.dip, outcome.rebound, outcome.settle))

    @property
    def counts(self) -> tuple[str, ...]:
        """What the last column means, and what became of the repetitions, a line an arm."""
        arms = zip(Arm, self._names, self._outcome.counts, strict=True)
        return (OF_LUCK, *(counted(*arm) for arm in arms))

    def picture(self, canvas: Canvas) -> None:
        """From the heading down to the counts."""
        left, width = theme.MARGIN, theme.WIDTH - 2 * theme.MARGIN
        heading, *lines = self._said
        y = canvas.text(heading, (left, TOP), theme.LARGE * 0.8, width=width) + 12
        for line in lines:
            y = canvas.text(line, (left, y), theme.BODY, width=width) + 4
        y += 26
        for x, word in zip(COLUMNS, HEADINGS, strict=True):
            canvas.text(word, (left + x, y), theme.SMALL, theme.QUIET)
        for row in self.table:
            y += LINE
            for x, cell in zip(COLUMNS, row, strict=True):
                canvas.text(cell, (left + x, y), theme.SMALL)
        y += LINE + 16
        for line in self.counts:
            y = canvas.text(line, (left, y), theme.SMALL, theme.QUIET, width=width) + 6


def row_of(one: Difference) -> tuple[str, ...]:
    """One measure as a line of the table."""
    row = written(one)
    return row.label, row.a, row.b, row.value, row.interval, by_luck(one.p)


def by_luck(p: float | None) -> str:
    """In how many of 100 trials of set-ups that are alike chance makes as large a difference."""
    return NO if p is None else f"{math.ceil(p * HUNDRED)} of {HUNDRED}"


def counted(arm: Arm, name: str, count: ArmCount) -> str:
    """What became of the repetitions of one arm, and what it is called."""
    parts = [f"{count.counted} counted"]
    parts += [f"{count.left} of them left after the cue"] if count.left else []
    parts += [f"{count.failed} of them not done as asked"] if count.failed else []
    return f"{arm.value} ({name}): {', '.join(parts)}; {count.void} did not count."


class TrialCurves(Menu[ResultPage]):
    """Ends with what to look at next."""

    name = "trial curves"

    def __init__(self, dip: Written, arms: tuple[Curves, Curves]) -> None:
        """`dip` is what the figures say of it."""
        super().__init__(
            [Choice("Back to the figures", ResultPage.FIGURES), Choice("Done", ResultPage.DONE)],
            back=ResultPage.FIGURES,
        )
        self._dip = dip
        self._arms = arms

    def picture(self, canvas: Canvas) -> None:
        """The two charts."""
        top = title(canvas, f"{self._dip.label}: {self._dip.a} with A, {self._dip.b} with B")
        pictures = [one for arm in self._arms for one in arm.pictures]
        reach = blips_reach(pictures)
        beyond = beyond_words(pictures, reach)
        if beyond:
            top = canvas.text(beyond, (theme.MARGIN, top - 16), theme.SMALL, theme.QUIET) + 8
        width = theme.WIDTH - 2 * theme.MARGIN
        area = Area(theme.MARGIN, top, width, self.choices_top - BELOW - top)
        for arm, half, curves in zip(Arm, halves(area), self._arms, strict=True):
            count = len(curves.pictures)
            said = f"{arm.value}, {count} {'blip' if count == 1 else 'blips'}: {curves.name}"
            blips_chart(canvas, half, said, curves.pictures, median_of(curves.pictures), reach)
