"""Screens at the end of a trial: the table of figures, and the blips of both arms."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from drills.deviation import Deviation, median_of
from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.kit.charts import Area
from engine.kit.charts_blips import beyond_words, blips_chart, blips_reach, halves
from engine.trial.outcome import Outcome
from engine.trial.trial import Arm
from engine.trial.words import HEADINGS, OF_LUCK, WrittenDifference, count_words, table_row

BELOW = 20
"""Space under the charts, in canvas units."""
TOP = 70
"""Where the heading begins, in canvas units from the top."""
COLUMNS = (0.0, 400.0, 640.0, 880.0, 1130.0, 1440.0)
"""Where each column of the table begins, in canvas units from the left margin."""
LINE = 62
"""Height of a row of the table, in canvas units."""


@dataclass(frozen=True)
class Curves:
    """Curves of the repetitions of one arm."""

    name: str
    """Name of the set-up."""
    pictures: tuple[Deviation, ...]
    """Every repetition with a trace, all over the same stretch of time."""


class ResultPage(Enum):
    """Pages of the result of a trial."""

    CURVES = "curves"
    FIGURES = "figures"
    DONE = "done"


class TrialFigures(Menu[ResultPage]):
    """The outcome in words and as a table; ends with the page to show next."""

    name = "trial result"

    def __init__(
        self, lines: Sequence[str], outcome: Outcome, names: tuple[str, str], *, curves: bool
    ) -> None:
        """`lines` are a heading and what is under it; `names` are those of A and of B.

        `curves`: there are curves to look at.
        """
        more = [Choice("See the curves", ResultPage.CURVES, "all of A beside all of B")]
        super().__init__(
            [*(more if curves else []), Choice("Done", ResultPage.DONE)], back=ResultPage.DONE
        )
        self._lines = tuple(lines)
        self._outcome = outcome
        self._names = names

    def details(self) -> Mapping[str, object]:
        """The labels of the choices, the outcome in words, and the table with the counts."""
        texts = {"said": self._lines, "table": self.table, "counts": self.counts}
        return {**super().details(), **texts}

    @property
    def table(self) -> tuple[tuple[str, ...], ...]:
        """Rows of the table, one for each measure."""
        outcome = self._outcome
        return tuple(map(table_row, (outcome.dip, outcome.rebound, outcome.settle)))

    @property
    def counts(self) -> tuple[str, ...]:
        """Meaning of the last column, and a line about the repetitions of each arm."""
        arms = zip(Arm, self._names, self._outcome.counts, strict=True)
        return (OF_LUCK, *(count_words(*arm) for arm in arms))

    def picture(self, canvas: Canvas) -> None:
        """The outcome in words, the table, and the counts."""
        left, width = theme.MARGIN, theme.WIDTH - 2 * theme.MARGIN
        heading, *lines = self._lines
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


class TrialCurves(Menu[ResultPage]):
    """The curves of both arms side by side; ends with the page to show next."""

    name = "trial curves"

    def __init__(self, dip: WrittenDifference, arms: tuple[Curves, Curves]) -> None:
        """`dip` is the row of the table about the dip."""
        super().__init__(
            [Choice("Back to the figures", ResultPage.FIGURES), Choice("Done", ResultPage.DONE)],
            back=ResultPage.FIGURES,
        )
        self._dip = dip
        self._arms = arms

    def picture(self, canvas: Canvas) -> None:
        """The charts of A and of B, on the same scale."""
        top = title(canvas, f"{self._dip.label}: {self._dip.a} with A, {self._dip.b} with B")
        pictures = [picture for arm in self._arms for picture in arm.pictures]
        reach = blips_reach(pictures)
        beyond = beyond_words(pictures, reach)
        if beyond:
            top = canvas.text(beyond, (theme.MARGIN, top - 16), theme.SMALL, theme.QUIET) + 8
        width = theme.WIDTH - 2 * theme.MARGIN
        area = Area(theme.MARGIN, top, width, self.choices_top - BELOW - top)
        for arm, half, curves in zip(Arm, halves(area), self._arms, strict=True):
            count = len(curves.pictures)
            heading = f"{arm.value}, {count} {'blip' if count == 1 else 'blips'}: {curves.name}"
            blips_chart(canvas, half, heading, curves.pictures, median_of(curves.pictures), reach)
