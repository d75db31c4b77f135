"""Screen at the end of a warm-up: today's foot compared with earlier days, without a score."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from drills.deviation import Deviation
from engine.drill.set_words import typical_words
from engine.five.day_end import Done
from engine.five.warm_up_words import WarmUpWords
from engine.kit import theme
from engine.kit.base import Choice, Menu, draw_lead, title
from engine.kit.canvas import Align, Canvas, Colour, Point
from engine.kit.curve_overlay import draw_overlay
from engine.practice.blip_size import BLIP

KEY = 56
"""Height of the legend above the strip that compares today with earlier days, in canvas units."""
TALL = 76
"""Height of the strip on which each day has a mark, in canvas units."""
INSIDE = 40
"""Margin at both ends of the strip of days, in canvas units."""
TODAY = 20
"""Radius of the mark that stands for today on the strip of days, in canvas units."""
EARLIER: tuple[float, Colour, float] = (11, theme.TEXT, 3)
"""Mark of an earlier day on the strip: radius in canvas units, colour, line width likewise."""
USUAL = 14
"""Half the height of the bar that shows the interval of a usual day, in canvas units."""
STEPS = (1.0, 2.0, 5.0, 10.0, 20.0)
"""Possible distances between two numbers on the axis of the strip, in points."""
MOST_STEPS = 10
"""Most numbers on the axis of the strip of days, besides 0, as a count."""


SCALED = f"at a blip of {BLIP:g} %"
"""Words that say what size of blip the deviations on the strip are scaled to."""


class WarmUpScreen(Menu[Done]):
    """Screen at the end of a warm-up; its outcome is leaving the game or going home."""

    name = "warmed up"
    back_word = "home"
    in_a_bar = True

    def __init__(self, words: WarmUpWords, pictures: Sequence[Deviation] = ()) -> None:
        """`pictures` are the brake curves of the warm-up's blips, drawn over each other."""
        choices = [Choice("Leave", Done.LEAVE), Choice("Home", Done.HOME)]
        super().__init__(choices, back=Done.HOME)
        self._words = words
        self._pictures = tuple(pictures)

    def details(self) -> Mapping[str, object]:
        """Labels of the choices and the verdict on today's foot, for the events file."""
        return {
            **super().details(),
            "heading": self._words.heading,
            "usual": self._words.usual,
            "today": self._words.today,
            "said": self._words.lines,
            "days": len(self._words.earlier),
        }

    def picture(self, canvas: Canvas) -> None:
        """Draw the words, the strip with today beside earlier days, and the curves of the blips."""
        left, width = float(theme.MARGIN), float(theme.WIDTH - 2 * theme.MARGIN)
        y = title(canvas, self._words.heading)
        lead, *more = self._words.lines or ("",)
        y = draw_lead(canvas, (left, y), lead, width)
        for line in more:
            y = canvas.text(line, (left, y), theme.BODY, theme.QUIET, width=width)
        y = days_strip(canvas, (left, y + 24), width, self._words) + 14
        room = self.choices_top - y - 14
        draw_overlay(canvas, (left, y), (width, room), self._pictures, typical_words)


def days_strip(canvas: Canvas, corner: Point, width: float, words: WarmUpWords) -> float:
    """Draw today and earlier days on one axis in points; returns the y below, in canvas units."""
    today = () if words.today is None else (words.today,)
    values: list[float] = [*words.earlier, *(words.usual or ()), *today]
    if not values:
        return corner[1]
    left, top = corner[0], corner[1] + KEY
    step = next((points for points in STEPS if MOST_STEPS * points >= max(values)), STEPS[-1])
    reach = step * max(math.ceil(max(values) / step), 1)
    inner, middle = width - 2 * INSIDE, top + TALL / 2

    def across(points: float) -> float:
        """X of a deviation, given in points, on the strip; in canvas units."""
        return left + INSIDE + inner * min(max(points, 0.0), reach) / reach

    _legend(canvas, corner, words)
    canvas.box((left, top), (width, TALL), theme.RAISED, 8)
    if words.usual is not None:
        low, high = words.usual
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
    for points in words.earlier:
        canvas.disc((across(points), middle), *EARLIER)
    if words.today is not None:
        canvas.disc((across(words.today), middle), TODAY, theme.BRAKE)
    return top + TALL + 12 + theme.SMALL


def _usual(canvas: Canvas, start: Point, width: float) -> None:
    """Draw the interval of a usual day: a bar with a tick at each end."""
    x, y = start
    canvas.box((x, y - USUAL), (width, 2 * USUAL), theme.FAINT)
    for end in (x, x + width):
        canvas.line((end, y - USUAL - 6), (end, y + USUAL + 6), theme.TEXT, 4)


def _legend(canvas: Canvas, corner: Point, words: WarmUpWords) -> None:
    """Draw the legend of the strip: what each mark drawn on it means."""
    x, y = corner
    middle = y + 20
    if words.today is not None:
        canvas.disc((x + TODAY, middle), TODAY, theme.BRAKE)
        x = _label(canvas, (x + 2 * TODAY + 12, y), f"today: {words.today:.1f} points, {SCALED}")
    if words.earlier:
        canvas.disc((x + TODAY, middle), *EARLIER)
        days = len(words.earlier)
        label = f"{days} earlier days" if days > 1 else "one earlier day"
        x = _label(canvas, (x + 2 * TODAY + 12, y), label)
    if words.usual is not None:
        _usual(canvas, (x + 6, middle), 50)
        low, high = words.usual
        _label(canvas, (x + 74, y), f"a usual day: {low:.1f} to {high:.1f}")


def _label(canvas: Canvas, corner: Point, label: str) -> float:
    """Draw one label of the legend; returns the x of the next mark, in canvas units."""
    canvas.text(label, corner, theme.SMALL, theme.QUIET)
    return corner[0] + canvas.measure(label, theme.SMALL) + 60
