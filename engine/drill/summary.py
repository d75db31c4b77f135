"""A few repetitions together: how many were clean, what they missed most, and their curves."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import median

from drills.deviation import Deviation, median_of
from drills.level import Level
from drills.measures.catalogue import CATALOGUE
from engine.drill.set_end import Missed
from engine.kit import deviation_plot, theme, widgets
from engine.kit.base import Place, title
from engine.kit.canvas import Canvas
from engine.kit.repetition_marks import Mark, draw_mark, draw_marks
from engine.kit.timed_screen import TimedOutcome, TimedScreen
from engine.kit.widgets import Figure

STAY = 5.0
"""s it stays: it is read once for several repetitions."""
TOP = 450
"""units from the top, where the picture begins."""
BOTTOM = 1000
"""units from the top, where it ends."""


@dataclass(frozen=True)
class Few:
    """How a few repetitions that counted went."""

    marks: tuple[Mark, ...]
    """Each of them in order."""
    score: float
    """0 to 100, their median."""
    measures: tuple[Mapping[str, float | None], ...]
    """Measures of each by name, in their units."""
    missed: Missed | None
    """What was missed most; None where nothing was."""
    named: tuple[str, ...] = ()
    """What each was of, where that was another each time."""


class Summary(TimedScreen[TimedOutcome]):
    """Ends with what follows."""

    name = "summary"

    def __init__(self, level: Level, few: Few, pictures: Sequence[Deviation], place: Place) -> None:
        """`pictures` are those of the same repetitions, to be laid on top of each other."""
        super().__init__(TimedOutcome.ON, TimedOutcome.MENU, STAY, place)
        self._level = level
        self._few = few
        measured = [picture for picture in pictures if picture.is_measured]
        self._pictures = [one for one in measured if one.span == measured[-1].span]
        self._number = place.number

    def details(self) -> Mapping[str, object]:
        """Where in the set it comes, and how many were clean."""
        return {"rep": self._number, "clean": self._few.marks.count(Mark.CLEAN)}

    def picture(self, canvas: Canvas) -> None:
        """Their marks, the figures, and the curves about their middle."""
        width = theme.WIDTH - 2 * theme.MARGIN
        title(canvas, f"{self._level.title}: the last {len(self._few.marks)}")
        y = draw_marks(canvas, (theme.MARGIN, 190), self._few.marks)
        widgets.figures(canvas, (theme.MARGIN, y + 12), width, self._figures())
        if self._few.named:
            self._names(canvas)
        elif self._pictures:
            corner, size = (theme.MARGIN, TOP), (width, BOTTOM - TOP)
            deviation_plot.deviation(
                canvas, corner, size, median_of(self._pictures), self._pictures
            )

    def _names(self, canvas: Canvas) -> None:
        """What each was of, beside its mark."""
        y = float(TOP)
        room = (BOTTOM - TOP) / max(len(self._few.named), 1)
        for name, mark in zip(self._few.named, self._few.marks, strict=True):
            draw_mark(canvas, (theme.MARGIN + 18, y + 28), 18, mark)
            canvas.text(name, (theme.MARGIN + 64, y), theme.BODY)
            y += min(room, 84)

    def _figures(self) -> list[Figure]:
        few = self._few
        total = len(few.marks)
        missed = Figure("Missed most", "nothing", "all was kept")
        if few.missed is not None:
            missed = Figure("Missed most", few.missed.label, f"{few.missed.times} of {total}")
        return [
            Figure("Clean", f"{few.marks.count(Mark.CLEAN)} of {total}", "repetitions"),
            Figure("Score", f"{few.score // 1:.0f}", "middle of them"),
            *self._middle(),
            missed,
        ]

    def _middle(self) -> list[Figure]:
        """The first measure that the level limits, in the middle of those that have it."""
        few = self._few.measures
        for name, limit in self._level.limits.items():
            values = [value for each in few if (value := each.get(name)) is not None]
            if values:
                measure = CATALOGUE[name]
                note = f"middle; within {measure.with_unit(f'{limit:g}')}"
                return [Figure(measure.label, measure.written(median(values)), note)]
        return []
