"""The verdict on one repetition: a word, a sentence, a few numbers and a picture."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum

from drills.deviation import Deviation
from drills.level import Level
from drills.measures.catalogue import CATALOGUE
from drills.score import Verdict, kept
from engine.screens import plot, theme, widgets
from engine.screens.base import Choice, Menu, Place
from engine.screens.canvas import Canvas
from engine.screens.widgets import Figure

MOST_FIGURES = 5
"""figures in a row, the score included."""
TIPPED = 2.6
"""1, lean of the bubble where a repetition was not clean: well past a line."""


class After(Enum):
    """What follows a reveal."""

    ON = "on"
    LEAVE = "leave"


class Reveal(Menu[After]):
    """Ends with what follows."""

    name = "reveal"

    def __init__(
        self,
        level: Level,
        verdict: Verdict,
        now: Deviation | None,
        earlier: Sequence[Deviation],
        place: Place,
        *,
        more: bool,
    ) -> None:
        """`now` is the picture of this repetition, `earlier` are those of some before it.

        `more` says whether another repetition follows.
        """
        choices = [Choice("Next repetition" if more else "See the set", After.ON)]
        if more:
            choices.append(Choice("Leave the set", After.LEAVE))
        super().__init__(choices, back=After.LEAVE)
        self._level = level
        self._verdict = verdict
        self._now = now
        self._earlier = earlier
        self._place = place

    def details(self) -> Mapping[str, object]:
        """The verdict in short."""
        reason = self._verdict.reason.value
        return {**super().details(), "rep": self._place.number, "reason": reason}

    def picture(self, canvas: Canvas) -> None:
        """From the word down to the picture."""
        verdict = self._verdict
        word = "Does not count" if verdict.void else "Clean" if verdict.clean else "Not clean"
        canvas.text(word, (theme.MARGIN, 60), theme.HUGE * 0.8)
        if not verdict.void:
            lean = 0.0 if verdict.clean else TIPPED
            widgets.level(canvas, (theme.WIDTH - theme.MARGIN - 180, 110), 360, lean)
        width = theme.WIDTH - 2 * theme.MARGIN
        said = self._level.kind.sentence(self._level, verdict)
        canvas.text(said, (theme.MARGIN, 190), theme.BODY + 2, width=width)
        if verdict.void:
            return
        row = figures(verdict, self._level.kind.shown, self._level.limits)
        widgets.figures(canvas, (theme.MARGIN, 316), width, row)
        if self._now is not None:
            top = 486
            size = (width, self.choices_top - top - 16)
            corner = (theme.MARGIN, top)
            plot.deviation(canvas, corner, size, self._now, self._earlier, self._level.tolerance)


def figures(verdict: Verdict, shown: Sequence[str], limits: Mapping[str, float]) -> list[Figure]:
    """The score, then the measures worth a place, limited ones first, each with its limit."""
    names = [name for name in shown if name in verdict.measures]
    names.sort(key=lambda name: name not in limits)
    score = "-" if verdict.score is None else f"{verdict.score:.0f}"
    row = [Figure("Score", score, "of 100")]
    for name in names[: MOST_FIGURES - 1]:
        measure, value = CATALOGUE[name], verdict.measures[name]
        note = ""
        if name in limits:
            limit = limits[name]
            side = "within" if kept(value, limit) else "over"
            note = f"{side} {measure.with_unit(f'{limit:g}')}"
        row.append(Figure(measure.label, measure.written(value), note))
    return row
