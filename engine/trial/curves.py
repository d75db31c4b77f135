"""All blips of A beside all blips of B on one scale, against what was held, their median bold."""

from __future__ import annotations

from dataclasses import dataclass

from drills.deviation import Deviation, median_of
from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.kit.charts import Area
from engine.kit.charts_blips import beyond_words, blips, halves, reach_of
from engine.trial.outcome_words import Written
from engine.trial.result_screens import Page
from engine.trial.trial import Arm

BELOW = 20
"""units kept under the charts."""


@dataclass(frozen=True)
class Curves:
    """The pictures of one arm."""

    name: str
    """What its set-up is called."""
    pictures: tuple[Deviation, ...]
    """Each repetition that was measured, of one span of time; at least one."""


class TrialCurves(Menu[Page]):
    """Ends with what to look at next."""

    name = "trial curves"

    def __init__(self, dip: Written, arms: tuple[Curves, Curves]) -> None:
        """`dip` is what the figures say of it."""
        super().__init__(
            [Choice("Back to the figures", Page.FIGURES), Choice("Done", Page.DONE)],
            back=Page.FIGURES,
        )
        self._dip = dip
        self._arms = arms

    def picture(self, canvas: Canvas) -> None:
        """The two charts."""
        top = title(canvas, f"{self._dip.label}: {self._dip.a} with A, {self._dip.b} with B")
        pictures = [one for arm in self._arms for one in arm.pictures]
        reach = reach_of(pictures)
        beyond = beyond_words(pictures, reach)
        if beyond:
            top = canvas.text(beyond, (theme.MARGIN, top - 16), theme.SMALL, theme.QUIET) + 8
        width = theme.WIDTH - 2 * theme.MARGIN
        area = Area(theme.MARGIN, top, width, self.choices_top - BELOW - top)
        for arm, half, curves in zip(Arm, halves(area), self._arms, strict=True):
            count = len(curves.pictures)
            said = f"{arm.value}, {count} {'blip' if count == 1 else 'blips'}: {curves.name}"
            blips(canvas, half, said, curves.pictures, median_of(curves.pictures), reach)
