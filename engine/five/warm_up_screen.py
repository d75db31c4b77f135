"""The end of a warm-up: whether today's foot is the usual foot, without a score to chase."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from drills.deviation import Deviation
from engine.five.day_end import Done
from engine.kit import theme
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Align, Canvas, Colour, Point
from engine.kit.curve_overlay import draw_overlay

HEAD = 60
"""units from the top, where the word is."""
KEY = 56
"""units, height of the line that says what the marks are."""
TALL = 76
"""units, height of the strip with the days."""
INSIDE = 40
"""units, kept free at both its ends."""
TODAY = 20
"""units, radius of the mark of today."""
EARLIER: tuple[float, Colour, float] = (11, theme.TEXT, 3)
"""Radius, colour and line of the mark of an earlier day."""
USUAL = 14
"""units, half the height of the interval."""
STEPS = (1.0, 2.0, 5.0, 10.0, 20.0)
"""points, from one number on the line to the next."""
MOST_STEPS = 10
"""count of numbers on the line after 0."""


@dataclass(frozen=True)
class WarmUpWords:
    """What a warm-up says of today's foot."""

    heading: str
    """In a few words, such as "The usual foot"."""
    said: tuple[str, ...] = ()
    """Lines under it."""
    usual: tuple[float, float] | None = None
    """points, the interval of a usual day; None where there are not enough days yet."""
    today: float | None = None
    """points, mean of today's blips; None where there is none."""
    earlier: tuple[float, ...] = ()
    """points, the same of earlier days."""


class WarmUpScreen(Menu[Done]):
    """Ends with leaving or home."""

    name = "warmed up"
    back_word = "home"
    beside = 2

    def __init__(self, word: WarmUpWords, pictures: Sequence[Deviation] = ()) -> None:
        """`pictures` are those of its blips, to be laid on top of each other."""
        choices = [Choice("Leave", Done.LEAVE), Choice("Home", Done.HOME)]
        super().__init__(choices, back=Done.HOME)
        self._word = word
        self._pictures = tuple(pictures)

    def details(self) -> Mapping[str, object]:
        """The choices and the word."""
        word = self._word
        told = {
            "heading": word.heading,
            "usual": word.usual,
            "today": word.today,
            "said": word.said,
        }
        return {**super().details(), **told, "days": len(word.earlier)}

    def picture(self, canvas: Canvas) -> None:
        """The word, today on a line beside earlier days, and the curves of the blips."""
        width = theme.WIDTH - 2 * theme.MARGIN
        canvas.text(self._word.heading, (theme.MARGIN, HEAD), theme.LARGE)
        y = HEAD + theme.LARGE * 1.3
        for line in self._word.said:
            y = canvas.text(line, (theme.MARGIN, y), theme.BODY, width=width) + 6
        y = days_line(canvas, (theme.MARGIN, y + 14), width, self._word) + 14
        room = self.choices_top - y - 14
        draw_overlay(canvas, (theme.MARGIN, y), (width, room), self._pictures, judged=False)


def days_line(canvas: Canvas, corner: Point, width: float, word: WarmUpWords) -> float:
    """Today and earlier days on one line of points; where the next thing may begin."""
    today = () if word.today is None else (word.today,)
    values: list[float] = [*word.earlier, *(word.usual or ()), *today]
    if not values:
        return corner[1]
    left, top = corner[0], corner[1] + KEY
    step = next((one for one in STEPS if MOST_STEPS * one >= max(values)), STEPS[-1])
    reach = step * max(math.ceil(max(values) / step), 1)
    inner, middle = width - 2 * INSIDE, top + TALL / 2

    def across(points: float) -> float:
        return left + INSIDE + inner * min(max(points, 0.0), reach) / reach

    _key(canvas, corner, word)
    canvas.box((left, top), (width, TALL), theme.RAISED, 8)
    if word.usual is not None:
        low, high = word.usual
        _usual(canvas, (across(low), middle), across(high) - across(low))
    canvas.line((across(0), middle), (across(reach), middle), theme.FAINT, 2)
    for number in range(round(reach / step) + 1):
        x = across(number * step)
        canvas.line((x, top + TALL), (x, top + TALL + 10), theme.FAINT, 2)
        label = f"{number * step:g}" + (" points" if number == 0 else "")
        align: Align = "left" if number == 0 else "centre"
        canvas.text(
            label, (x - (8 if number == 0 else 0), top + TALL + 12), theme.SMALL, theme.QUIET, align
        )
    for points in word.earlier:
        canvas.disc((across(points), middle), *EARLIER)
    if word.today is not None:
        canvas.disc((across(word.today), middle), TODAY, theme.BRAKE)
    return top + TALL + 12 + theme.SMALL


def _usual(canvas: Canvas, start: Point, width: float) -> None:
    """The interval of a usual day: a band with ends."""
    x, y = start
    canvas.box((x, y - USUAL), (width, 2 * USUAL), theme.FAINT)
    for end in (x, x + width):
        canvas.line((end, y - USUAL - 6), (end, y + USUAL + 6), theme.TEXT, 4)


def _key(canvas: Canvas, corner: Point, word: WarmUpWords) -> None:
    """What the marks on the line are."""
    x, y = corner
    middle = y + 20
    if word.today is not None:
        canvas.disc((x + TODAY, middle), TODAY, theme.BRAKE)
        x = _said(canvas, (x + 2 * TODAY + 12, y), f"today: {word.today:.1f} off what was held")
    if word.earlier:
        canvas.disc((x + TODAY, middle), *EARLIER)
        days = len(word.earlier)
        said = f"{days} earlier days" if days > 1 else "one earlier day"
        x = _said(canvas, (x + 2 * TODAY + 12, y), said)
    if word.usual is not None:
        _usual(canvas, (x + 6, middle), 50)
        low, high = word.usual
        _said(canvas, (x + 74, y), f"a usual day by now: {low:.1f} to {high:.1f}")


def _said(canvas: Canvas, corner: Point, words: str) -> float:
    """Write quiet words; where the next mark may be."""
    canvas.text(words, corner, theme.SMALL, theme.QUIET)
    return corner[0] + canvas.measure(words, theme.SMALL) + 60
