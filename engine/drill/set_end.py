"""Screen at the end of a set: its results, and the choice of what to play next."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from enum import Enum

from drills.deviation import Deviation, median_of
from drills.level import Level
from engine.drill.set_words import retention_words, set_words
from engine.drill.tally import Tally
from engine.kit import deviation_plot, theme, widgets
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.kit.repetition_marks import draw_marks
from engine.kit.widgets import Figure


class Then(Enum):
    """What the player can choose after a set, other than a level to play."""

    HOME = "home"


class SetEnd(Menu[Level | Then]):
    """Menu with the results of a set. Its outcome is a level to play next, or Then.HOME."""

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
        """`pictures` are those of the repetitions of the set, drawn over each other.

        `home_first`: home is the first choice, as after a demo.
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
        self._pictures = [picture for picture in measured if picture.span == measured[-1].span]

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: how the set went; their names stay as they are."""
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
            "shown": None if tally.shown is None else retention_words(tally.shown),
            "tires": tally.tires,
            "guessed_off": tally.guessed_off,
            "guessed_off_first": tally.guessed_off_first,
            "level": self._level.id,
        }

    def picture(self, canvas: Canvas) -> None:
        """Draw the results: a mark for each repetition, figures, sentences and curves."""
        width = theme.WIDTH - 2 * theme.MARGIN
        title(canvas, f"{self._level.title}: the set is over")
        y = draw_marks(canvas, (theme.MARGIN, 190), self._tally.marks)
        widgets.figures(canvas, (theme.MARGIN, y + 12), width, self._figures())
        sentences = set_words(self._tally, self._level)
        y = canvas.text(sentences, (theme.MARGIN, y + 168), theme.BODY, width=width)
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
