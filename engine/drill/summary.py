"""Screen that sums up the latest repetitions of a set, on levels without a reveal each time."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from statistics import median

from drills.capitals import uncapitalised
from drills.deviation import Deviation
from drills.level import Level
from drills.measures.catalogue import CATALOGUE
from drills.remark import Headline
from engine.drill.set_words import fault_words
from engine.drill.tally import RecentRepetitions
from engine.kit import deviation_plot, theme
from engine.kit.base import Place
from engine.kit.canvas import Canvas
from engine.kit.curve_overlay import comparable, median_curve, typical_words
from engine.kit.opening import draw_opening
from engine.kit.repetition_marks import LARGE_MIDDLE, Mark, draw_large_marks, draw_mark
from engine.kit.timed_screen import TimedOutcome, TimedScreen

STAY = 5.0
"""Seconds that a summary of repetitions stays up."""
TOP = 500
"""Top of the picture of the curves in a summary, in canvas units."""
BOTTOM = 990
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
        self._pictures = comparable(pictures)
        self._number = place.number

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: place in the set, and number of clean repetitions."""
        return {"rep": self._number, "clean": self._recent.marks.count(Mark.CLEAN)}

    def picture(self, canvas: Canvas) -> None:
        """Draw how the latest repetitions went, a mark for each, and the typical curve."""
        left, right = float(theme.MARGIN), float(theme.WIDTH - theme.MARGIN)
        marks = self._recent.marks
        clean = marks.count(Mark.CLEAN)
        figure = Headline(f"{clean}", f"of the last {len(marks)} clean")
        draw_opening(canvas, self._level.title, self._lead, self._typical(), figure)
        draw_large_marks(canvas, marks, right - left)
        if self._recent.named:
            self._names(canvas)
        elif self._pictures:
            caption = typical_words(len(self._pictures))
            canvas.text(caption, (right, LARGE_MIDDLE - 26), theme.SMALL, theme.QUIET, "right")
            corner, size = (left, TOP), (right - left, BOTTOM - TOP)
            typical = median_curve(self._pictures)
            deviation_plot.deviation(canvas, corner, size, typical, self._pictures)

    @property
    def _lead(self) -> str:
        """Sentence that matters most: the most frequent fault, or that there is none."""
        marks = self._recent.marks
        clean = marks.count(Mark.CLEAN)
        if clean == len(marks):
            return "All clean."
        words = fault_words(self._recent.cause, self._recent.missed, len(marks), clean)
        return words or "Each miss was of another kind."

    def _names(self, canvas: Canvas) -> None:
        """Draw beside each repetition's mark the title of the level it was drawn from."""
        y = float(TOP)
        room = (BOTTOM - TOP) / max(len(self._recent.named), 1)
        for name, mark in zip(self._recent.named, self._recent.marks, strict=True):
            draw_mark(canvas, (theme.MARGIN + 18, y + 20), 18, mark)
            canvas.text(name, (theme.MARGIN + 64, y), theme.BODY)
            y += min(room, 84)

    def _typical(self) -> str:
        """Sentence on the median of the first limited measure that was measured; empty without."""
        for name, limit in self._level.limits.items():
            values = [
                value
                for measures in self._recent.measures
                if (value := measures.get(name)) is not None
            ]
            if values:
                measure = CATALOGUE[name]
                label = uncapitalised(measure.label)
                typical = measure.written(median(values))
                return f"Typical {label}: {typical}, {limit:g} allowed."
        return ""
