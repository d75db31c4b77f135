"""Screens at the end of a trial: what it found, the blips of both arms, and all measures."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from drills.deviation import Deviation
from drills.typical import median_of
from engine.kit import theme
from engine.kit.area import Area
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.kit.charts_blips import beyond_words, blips_chart, blips_reach, halves
from engine.kit.opening import FIGURE_FOOT, UNDER_LEAD, draw_figure, draw_lead
from engine.kit.typeface import Weight
from engine.trial.difference_picture import draw_difference
from engine.trial.measure_table import CHANCE, NO, Row, WrittenDifference
from engine.trial.result_texts import ResultTexts
from engine.trial.trial import Arm

GAP = 30
"""Space above the picture of a result, and below it, in canvas units."""
BESIDE = 60
"""Space between the names of the two set-ups, in canvas units."""
COLUMNS = (0.0, 480.0, 640.0, 800.0, 1000.0, 1240.0)
"""Left edge of each column of the table of a trial's measures, in canvas units from the margin."""
LINE = 56
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

    RESULT = "result"
    CURVES = "curves"
    MEASURES = "measures"
    DONE = "done"


LABELS = {
    ResultPage.RESULT: "The result",
    ResultPage.CURVES: "The curves",
    ResultPage.MEASURES: "All figures",
    ResultPage.DONE: "Done",
}
"""Labels of the choices that lead to the pages of a result."""


def _to(*pages: ResultPage) -> list[Choice[ResultPage]]:
    """Choices that lead to some pages of a result, and the one that leaves it."""
    return [Choice(LABELS[page], page) for page in (*pages, ResultPage.DONE)]


class TrialResult(Menu[ResultPage]):
    """What a trial found: a sentence, a figure, a picture. Its outcome is the page to show next."""

    name = "trial result"
    in_a_bar = True

    def __init__(self, texts: ResultTexts, *, curves: bool) -> None:
        """`curves`: whether there are curves to look at."""
        pages = [ResultPage.CURVES] if curves else []
        super().__init__(_to(*pages, ResultPage.MEASURES), back=ResultPage.DONE)
        self._texts = texts

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the choices, the outcome in words, the table and counts."""
        texts = self._texts
        said = {"said": texts.lines, "table": texts.table[1:], "counts": texts.counts}
        return {**super().details(), **said}

    def picture(self, canvas: Canvas) -> None:
        """Draw the lead sentence and the lines under it, the large figure, and the difference."""
        left, texts = theme.MARGIN, self._texts
        width = draw_figure(canvas, texts.figure)
        lead, *lines = texts.lines
        y = draw_lead(canvas, _names(canvas, texts.names, width) + 22, lead, width) + 6
        for line in lines:
            y = canvas.text(line, (left, y), theme.BODY, theme.QUIET, width=width) + 6
        if texts.rows:
            top = (y if texts.figure is None else max(y, FIGURE_FOOT)) + GAP
            area = Area(left, top, theme.WIDTH - 2 * left, self.choices_top - GAP - top)
            draw_difference(canvas, area, texts.rows)


class DaysResult(TrialResult):
    """What a trial by days found. Its outcome is the page to show next."""

    name = "trial by days result"


class TrialMeasures(Menu[ResultPage]):
    """Table of all measures of a trial. Its outcome is the page of the result to show next."""

    name = "trial measures"
    in_a_bar = True

    def __init__(self, texts: ResultTexts) -> None:
        super().__init__(_to(ResultPage.RESULT, ResultPage.CURVES), back=ResultPage.RESULT)
        self._texts = texts

    def picture(self, canvas: Canvas) -> None:
        """Draw the table of measures, how the repetitions ended, and what its last column is."""
        left, width, texts = theme.MARGIN, theme.WIDTH - 2 * theme.MARGIN, self._texts
        y = title(canvas, "All figures")
        for number, line in enumerate(_arms(texts.names)):
            line = canvas.cut(line, width - COLUMNS[1], theme.SMALL)
            at = (left + COLUMNS[1], theme.TITLE + number * theme.SMALL)
            canvas.text(line, at, theme.SMALL, theme.QUIET)
        first, *rows = texts.table
        _row(canvas, y, first, bold=(), quiet=True)
        for row in rows:
            y += LINE
            _row(canvas, y, row, bold=(3,) if row is rows[0] else ())
        y += LINE + 14
        for row in texts.counts:
            _row(canvas, y, row, bold=(), quiet=True)
            y += LINE
        canvas.text(CHANCE, (left, y + 14), theme.SMALL, theme.QUIET, width=width)


class TrialCurves(Menu[ResultPage]):
    """Brake curves of A and B side by side. Its outcome is the page of the result to show next."""

    name = "trial curves"
    in_a_bar = True

    def __init__(
        self,
        off: WrittenDifference,
        arms: tuple[Curves, Curves],
        blip: WrittenDifference | None = None,
        *,
        by_days: bool = False,
    ) -> None:
        """`off` is the row of the table about the dip, `blip` that about the throttle, if any.

        `by_days`: `off` is how far the brake was off to either side, and not the dip.
        """
        super().__init__(_to(ResultPage.MEASURES, ResultPage.RESULT), back=ResultPage.RESULT)
        self._off = off
        self._word = "off" if by_days else "dipped"
        self._blip = blip
        self._arms = arms

    @property
    def heading(self) -> str:
        """Sentence with the typical dips of A and B."""
        off = self._off
        return f"{off.a} points {self._word} with A, {off.b} with B."

    @property
    def at_blips(self) -> str:
        """Sentence with the typical blips of A and B that made these dips; empty if unknown."""
        blip = self._blip
        return "" if blip is None or blip.a == NO else f"At blips of {blip.a} and {blip.b} %."

    def picture(self, canvas: Canvas) -> None:
        """Draw the charts of the blips with A and with B, on the same scale."""
        left, width = theme.MARGIN, theme.WIDTH - 2 * theme.MARGIN
        top = draw_lead(canvas, theme.TITLE, self.heading)
        pictures = [picture for arm in self._arms for picture in arm.pictures]
        reach = blips_reach(pictures)
        for line in filter(None, (self.at_blips, beyond_words(pictures, reach))):
            top = canvas.text(line, (left, top + 2), theme.SMALL, theme.QUIET, width=width)
            top += UNDER_LEAD
        top += GAP - UNDER_LEAD
        area = Area(left, top, width, self.choices_top - GAP - top)
        for arm, half, curves in zip(Arm, halves(area), self._arms, strict=True):
            count = len(curves.pictures)
            of = f"typical of {count} blips" if count > 1 else "one blip"
            heading = f"{arm.value}: {of}, {curves.name}"
            blips_chart(canvas, half, heading, curves.pictures, median_of(curves.pictures), reach)


def _arms(names: Sequence[str]) -> list[str]:
    """What A and B are, a line each, such as "A: ball of the foot"; the letter without a name."""
    return [f"{arm}: {name}" if name else f"{arm}" for arm, name in zip(Arm, names, strict=True)]


def _names(canvas: Canvas, names: Sequence[str], width: float) -> float:
    """Write what A and B are, side by side, or below each other where that is too wide.

    Returns the top of what comes below.
    """
    x, y, lines = float(theme.MARGIN), float(theme.TITLE), _arms(names)
    ends = [canvas.measure(line, theme.BODY) + BESIDE for line in lines]
    if sum(ends) - BESIDE <= width:
        for line, end in zip(lines, ends, strict=True):
            canvas.text(line, (x, y), theme.BODY, theme.QUIET)
            x += end
        return y + theme.BODY
    for line in lines:
        canvas.text(canvas.cut(line, width, theme.SMALL), (x, y), theme.SMALL, theme.QUIET)
        y += theme.SMALL
    return y


def _row(canvas: Canvas, y: float, row: Row, *, bold: Sequence[int], quiet: bool = False) -> None:
    """Write a row of the table, some of its cells bold."""
    for number, (cell, x) in enumerate(zip(row, COLUMNS, strict=False)):
        weight = Weight.BOLD if number in bold else Weight.REGULAR
        colour = theme.QUIET if quiet or number == 0 else theme.TEXT
        canvas.text(cell, (theme.MARGIN + x, y), theme.SMALL, colour, weight=weight)
