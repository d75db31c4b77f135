"""Screen at the end of a set: its results, and the choice of what to play next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum

from drills.deviation import Deviation
from drills.level import Level
from drills.remark import Headline
from engine.drill.set_words import (
    figure_words,
    lead_words,
    more_words,
    retention_words,
)
from engine.drill.tally import Tally
from engine.kit import deviation_plot, theme
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Canvas
from engine.kit.curve_overlay import comparable, median_curve, typical_words
from engine.kit.opening import draw_opening
from engine.kit.repetition_marks import LARGE_MIDDLE, draw_large_marks

PLOT = 496
"""Top of the picture of the curves, in canvas units."""
FAINT = 5
"""Most curves drawn faintly with the typical one, the newest, as a count."""
APART = 50
"""Smallest gap between words and what stands beside them, in canvas units."""


class Then(Enum):
    """What the player can choose after a set, other than a level to play."""

    HOME = "home"


class SetEnd(Menu[Level | Then]):
    """Menu with the results of a set. Its outcome is a level to play next, or Then.HOME."""

    name = "set end"
    back_word = "home"
    in_a_bar = True

    def __init__(
        self,
        level: Level,
        tally: Tally,
        following: Level,
        pictures: Sequence[Deviation] = (),
        *,
        home_first: bool = False,
    ) -> None:
        """`pictures` are those of the repetitions of the set, drawn over each other.

        `home_first`: home is selected, as after a demo.
        """
        choices: list[Choice[Level | Then]] = [Choice("Once more", level)]
        if following.id != level.id:
            choices.insert(0, Choice("Go on", following, following.title))
        super().__init__([*choices, Choice("Home", Then.HOME)], back=Then.HOME)
        if home_first or tally.tires:
            self._selected = len(choices)
        self._level = level
        self._tally = tally
        self._pictures = comparable(pictures)

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: how the set went; their names stay as they are."""
        tally = self._tally
        return {
            **super().details(),
            "selected": self._selected,
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
            "cause": None if tally.cause is None else vars(tally.cause),
            "marks": tally.marks,
            "given_up": tally.given_up,
            "is_tryout": tally.is_tryout,
            "shown": None if tally.shown is None else retention_words(tally.shown),
            "tires": tally.tires,
            "guessed_off": tally.guessed_off,
            "guessed_off_first": tally.guessed_off_first,
            "level": self._level.id,
        }

    def picture(self, canvas: Canvas) -> None:
        """Draw what the set came to, a mark for each repetition, and the typical curve."""
        tally, level, left = self._tally, self._level, float(theme.MARGIN)
        right = float(theme.WIDTH - theme.MARGIN)
        figure = Headline(f"{tally.clean}", figure_words(tally, level)) if tally.counted else None
        lead, more = lead_words(tally, level), more_words(tally, level)
        draw_opening(canvas, level.title, lead, more, figure)
        caption = typical_words(len(self._pictures)) if self._pictures else ""
        canvas.text(caption, (right, LARGE_MIDDLE - 26), theme.SMALL, theme.QUIET, "right")
        width = right - left - canvas.measure(caption, theme.SMALL) - APART
        draw_large_marks(canvas, tally.marks, width)
        if self._pictures:
            deviation_plot.deviation(
                canvas,
                (left, PLOT),
                (right - left, self.choices_top - PLOT - 20),
                median_curve(self._pictures),
                self._pictures[-FAINT:],
            )
