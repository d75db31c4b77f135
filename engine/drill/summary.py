"""Screen that sums up the latest repetitions of a set, on levels without a reveal each time."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from statistics import median

from drills.deviation import Deviation, median_of
from drills.level import Level
from drills.measures.catalogue import CATALOGUE
from engine.drill.tally import RecentRepetitions
from engine.kit import deviation_plot, theme, widgets
from engine.kit.base import Place, title
from engine.kit.canvas import Canvas
from engine.kit.repetition_marks import Mark, draw_mark, draw_marks
from engine.kit.timed_screen import TimedOutcome, TimedScreen
from engine.kit.widgets import Figure

STAY = 5.0
"""Seconds that a summary of repetitions stays up."""
TOP = 450
"""Top of the picture of the curves in a summary, in canvas units."""
BOTTOM = 1000
"""Bottom of the picture of the curves in a summary, in canvas units."""


class Summary(TimedScreen[TimedOutcome]):
    """Screen with marks, figures and curves of the latest repetitions; ends by itself."""

    name = "summary"

    def __init__(
        self, level: Level, recent: RecentRepetitions, pictures: Sequence[Deviation], place: Place
    ) -> None:
        """`pictures` are those of the same repetitions, drawn over each other."""
        super().__init__(TimedOutcome.ON, TimedOutcome.MENU, STAY, place)
        self._level = level
        self._recent = recent
        measured = [picture for picture in pictures if picture.is_measured]
        self._pictures = [picture for picture in measured if picture.span == measured[-1].span]
        self._number = place.number

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: place in the set, and number of clean repetitions."""
        return {"rep": self._number, "clean": self._recent.marks.count(Mark.CLEAN)}

    def picture(self, canvas: Canvas) -> None:
        """Draw the marks and figures of the latest repetitions, and curves about their median."""
        width = theme.WIDTH - 2 * theme.MARGIN
        title(canvas, f"{self._level.title}: the last {len(self._recent.marks)}")
        y = draw_marks(canvas, (theme.MARGIN, 190), self._recent.marks)
        widgets.figures(canvas, (theme.MARGIN, y + 12), width, self._figures())
        if self._recent.named:
            self._names(canvas)
        elif self._pictures:
            corner, size = (theme.MARGIN, TOP), (width, BOTTOM - TOP)
            deviation_plot.deviation(
                canvas, corner, size, median_of(self._pictures), self._pictures
            )

    def _names(self, canvas: Canvas) -> None:
        """Draw beside each repetition's mark the title of the level it was drawn from."""
        y = float(TOP)
        room = (BOTTOM - TOP) / max(len(self._recent.named), 1)
        for name, mark in zip(self._recent.named, self._recent.marks, strict=True):
            draw_mark(canvas, (theme.MARGIN + 18, y + 28), 18, mark)
            canvas.text(name, (theme.MARGIN + 64, y), theme.BODY)
            y += min(room, 84)

    def _figures(self) -> list[Figure]:
        recent = self._recent
        total = len(recent.marks)
        missed = Figure("Missed most", "nothing", "all was kept")
        if recent.missed is not None:
            missed = Figure("Missed most", recent.missed.label, f"{recent.missed.times} of {total}")
        return [
            Figure("Clean", f"{recent.marks.count(Mark.CLEAN)} of {total}", "repetitions"),
            Figure("Score", f"{recent.score // 1:.0f}", "middle of them"),
            *self._middle(),
            missed,
        ]

    def _middle(self) -> list[Figure]:
        """Figure with the median of the first limited measure that was measured; empty without."""
        for name, limit in self._level.limits.items():
            values = [
                value
                for measures in self._recent.measures
                if (value := measures.get(name)) is not None
            ]
            if values:
                measure = CATALOGUE[name]
                note = f"middle; within {measure.with_unit(f'{limit:g}')}"
                return [Figure(measure.label, measure.written(median(values)), note)]
        return []
