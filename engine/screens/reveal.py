"""The verdict on one repetition: a word, a sentence, a few numbers and a picture."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum

from drills.coach import sentence
from drills.deviation import Deviation
from drills.level import Level
from drills.score import Limit
from engine.screens import plot, theme, widgets
from engine.screens.base import Choice, Menu
from engine.screens.canvas import Canvas
from engine.screens.widgets import Figure
from engine.store.records import Record

SHOWN = {
    "dip": ("Dip", "{:.0f} %"),
    "surge": ("Over", "{:.0f} %"),
    "settle": ("Steady in", "{:.2f} s"),
    "reaction": ("Reaction", "{:.2f} s"),
    "constant_error": ("Off target", "{:+.1f} %"),
    "variable_error": ("Wander", "{:.1f} %"),
    "total_error": ("Error", "{:.1f} %"),
    "drift": ("Drift", "{:+.1f} %/s"),
}
"""Measures worth a place on the screen: their name for a person, and how they are written."""
MOST = 5
"""figures in a row, the score included."""


class After(Enum):
    """What follows a reveal."""

    ON = "on"
    LEAVE = "leave"


class Reveal(Menu):
    """Ends with what follows."""

    name = "reveal"

    def __init__(
        self,
        level: Level,
        record: Record,
        pictures: tuple[Deviation | None, Sequence[Deviation]],
        place: tuple[int, int],
    ) -> None:
        """`pictures` are this one's and those before; `place` its number and those in the set."""
        on = "Next repetition" if place[0] < place[1] else "See the set"
        choices = [Choice(on, After.ON)]
        if place[0] < place[1]:
            choices.append(Choice("Leave the set", After.LEAVE))
        super().__init__(choices, back=After.LEAVE)
        self._level = level
        self._record = record
        self._pictures = pictures
        self._place = place

    def details(self) -> Mapping[str, object]:
        """The verdict in short."""
        verdict = self._record.verdict
        return {**super().details(), "rep": self._place[0], "reason": verdict.reason.value}

    def picture(self, canvas: Canvas) -> None:
        """From the word down to the picture."""
        verdict = self._record.verdict
        word = "Does not count" if verdict.void else "Clean" if verdict.clean else "Not clean"
        canvas.text(word, (theme.MARGIN, 60), theme.HUGE * 0.8)
        if not verdict.void:
            lean = 0.0 if verdict.clean else 2.6
            widgets.level(canvas, (theme.WIDTH - theme.MARGIN - 180, 110), 360, lean)
        said = sentence(self._record.kind, verdict)
        width = theme.WIDTH - 2 * theme.MARGIN
        canvas.text(said, (theme.MARGIN, 190), theme.BODY + 2, width=width)
        if not verdict.void:
            row = figures(verdict.score, verdict.measures, self._level.limits)
            widgets.figures(canvas, (theme.MARGIN, 316), width, row)
        now, before = self._pictures
        if now is not None and not verdict.void:
            top = 486
            size = (width, self.choices_top - top - 16)
            plot.deviation(canvas, (theme.MARGIN, top), size, now, before, self._level.tolerance)


def figures(
    score: float | None, measures: Mapping[str, float | None], limits: Mapping[str, Limit]
) -> list[Figure]:
    """The score, then the measures worth a place, limited ones first, each with its limit."""
    names = [name for name in SHOWN if name in measures]
    names.sort(key=lambda name: name not in limits)
    row = [Figure("Score", "-" if score is None else f"{score:.0f}", "of 100")]
    for name in names[: MOST - 1]:
        label, form = SHOWN[name]
        value = measures[name]
        note = ""
        if name in limits:
            limit = limits[name]
            unit = form[form.index("}") + 1 :]
            note = f"{'within' if limit.kept(value) else 'over'} {limit.at:g}{unit}"
        row.append(Figure(label, "never" if value is None else _written(value, form), note))
    return row


def _written(value: float, form: str) -> str:
    """The value as it is shown; one that rounds to nothing has no sign."""
    shown = form.format(value)
    unsigned = form.replace("+", "").format(0.0)
    return unsigned if shown.lstrip("+-") == unsigned else shown
