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
from engine.trial.trial import Arm
from engine.trial.words import HEADINGS, NO, WrittenDifference

BELOW = 20
"""Space under the charts of a trial's blips, in canvas units."""
TOP = 70
"""Top of the heading of a trial's result, in canvas units."""
COLUMNS = (0.0, 400.0, 640.0, 880.0, 1130.0, 1440.0)
"""Left edge of each column of the table of a trial's measures, in canvas units from the margin."""
LINE = 50
"""Height of a row of the table of a trial's measures, in canvas units."""


@dataclass(frozen=True)
class Curves:
    """Brake curves of the repetitions played with one set-up."""

    name: str
    """Name of the set-up that they were played with."""
    pictures: tuple[Deviation, ...]
    """Curve of every repetition that has a trace, all over the same span of time."""


class ResultPage(Enum):
    """Pages of the result of a trial."""

    CURVES = "curves"
    FIGURES = "figures"
    DONE = "done"


class TrialFigures(Menu[ResultPage]):
    """Outcome of a trial in words and as a table. Its outcome is the page to show next."""

    name = "trial result"

    def __init__(
        self,
        lines: Sequence[str],
        table: Sequence[Sequence[str]],
        counts: Sequence[str],
        *,
        curves: bool,
    ) -> None:
        """`lines` are a heading and the text under it, `counts` the lines below the table.

        `table` has a row for each compared measure, with a cell for each heading. `curves`: whether
        there are curves to look at.
        """
        more = [Choice("See the curves", ResultPage.CURVES, "all of A beside all of B")]
        super().__init__(
            [*(more if curves else []), Choice("Done", ResultPage.DONE)], back=ResultPage.DONE
        )
        self._lines = tuple(lines)
        self._table = tuple(table)
        self._counts = tuple(counts)

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the choices, the outcome in words, the table and counts."""
        texts = {"said": self._lines, "table": self._table, "counts": self._counts}
        return {**super().details(), **texts}

    def picture(self, canvas: Canvas) -> None:
        """Draw the outcome of the trial in words, the table of measures, and the counts."""
        left, width = theme.MARGIN, theme.WIDTH - 2 * theme.MARGIN
        heading, *lines = self._lines
        y = canvas.text(heading, (left, TOP), theme.LARGE * 0.8, width=width) + 12
        for line in lines:
            y = canvas.text(line, (left, y), theme.BODY, width=width) + 4
        y += 20
        for x, word in zip(COLUMNS, HEADINGS, strict=True):
            canvas.text(word, (left + x, y), theme.SMALL, theme.QUIET)
        for row in self._table:
            y += LINE
            for x, cell in zip(COLUMNS, row, strict=True):
                canvas.text(cell, (left + x, y), theme.SMALL)
        y += LINE + 10
        for line in self._counts:
            y = canvas.text(line, (left, y), theme.SMALL, theme.QUIET, width=width) + 6


class TrialCurves(Menu[ResultPage]):
    """Brake curves of A and B side by side. Its outcome is the page of the result to show next."""

    name = "trial curves"

    def __init__(
        self,
        dip: WrittenDifference,
        arms: tuple[Curves, Curves],
        blip: WrittenDifference | None = None,
    ) -> None:
        """`dip` is the row of the table about the dip, `blip` that about the throttle, if any."""
        super().__init__(
            [Choice("Back to the figures", ResultPage.FIGURES), Choice("Done", ResultPage.DONE)],
            back=ResultPage.FIGURES,
        )
        self._dip = dip
        self._blip = blip
        self._arms = arms

    @property
    def heading(self) -> str:
        """Typical dips of A and B, with the typical blips that made them."""
        dip, blip = self._dip, self._blip
        dips = f"{dip.label}: {dip.a} with A, {dip.b} with B"
        if blip is None or blip.a == NO:
            return dips
        return f"{dips}, at blips of {blip.a} and {blip.b} %"

    def picture(self, canvas: Canvas) -> None:
        """Draw the charts of the blips with A and with B, on the same scale."""
        top = title(canvas, self.heading)
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
