"""All blips of A beside all blips of B on one scale, against what was held, their middle bold."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from drills.deviation import Deviation, median_of
from engine.practice.outcome_words import Written
from engine.practice.trial import Arm
from engine.screens import theme
from engine.screens.base import Choice, Menu, title
from engine.screens.canvas import Canvas, Point
from engine.screens.plot import TICK_AT_MOST, TICKS, Frame
from engine.screens.trial_result import Page

SCALE = 150
"""units kept left of the panels, for the scale of points."""
APART = 60
"""units between the panels."""
TOP = 268
"""units from the top, where the panels begin."""
BELOW = 58
"""units kept under them, for the scale of time."""
MARK = 0.5
"""s from one time mark to the next."""
INSIDE = 95.0
"""%, share of the curves that the scale has room for: a wild one squeezes none."""
WILD = 1.5
"""1, how many times as wide as those it gets at most for the others."""
SPARE = 1.1
"""1, how much wider the scale is than what it has room for."""
FIVE = 5.0
"""points, the scale is a multiple of it."""
POINTS = 300
"""count of points a curve is drawn with at most: a panel is no wider in units than twice that."""


@dataclass(frozen=True)
class Curves:
    """The pictures of one arm."""

    name: str
    """What its set-up is called."""
    pictures: tuple[Deviation, ...]
    """Each repetition that was measured, of one span of time."""


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
        """The two panels."""
        left, width = theme.MARGIN, theme.WIDTH - 2 * theme.MARGIN
        title(canvas, f"{self._dip.label}: {self._dip.a} with A, {self._dip.b} with B")
        panel = (width - SCALE - APART) / 2
        size = (panel, self.choices_top - 20 - TOP - BELOW)
        reach = reach_of([one for arm in self._arms for one in arm.pictures])
        for number, (arm, curves) in enumerate(zip(Arm, self._arms, strict=True)):
            corner = (left + SCALE + number * (panel + APART), float(TOP))
            said = f"{arm.value}: {curves.name}"
            count = f"{len(curves.pictures)} blips, middle bold"
            room = panel - canvas.measure(count, theme.SMALL) - 30
            canvas.text(canvas.cut(said, room, theme.SMALL), (corner[0], TOP - 52), theme.SMALL)
            where = (corner[0] + panel, TOP - 52)
            canvas.text(count, where, theme.SMALL, theme.QUIET, "right")
            _panel(canvas, corner, size, curves.pictures, reach, scaled=not number)


def reach_of(pictures: Sequence[Deviation]) -> float:
    """points, the scale up and down that has room for nearly all of some pictures."""
    if not pictures:
        return FIVE
    farthest = [float(np.abs(one.deviation).max()) for one in pictures]
    widest = min(max(farthest), WILD * float(np.percentile(farthest, INSIDE)))
    return max(FIVE * math.ceil(SPARE * widest / FIVE), FIVE)


def _panel(
    canvas: Canvas,
    corner: Point,
    size: Point,
    pictures: Sequence[Deviation],
    reach: float,
    *,
    scaled: bool,
) -> None:
    """One arm; `scaled`: the scale of points is written beside it."""
    canvas.box(corner, size, theme.RAISED, 8)
    if not pictures:
        return
    frame = Frame(*corner, *size, *pictures[0].span, reach, 0.0)
    tick = max(one for one in TICKS if one <= TICK_AT_MOST * reach)
    for points in (-tick, 0.0, tick):
        at = frame.down(points)
        colour = theme.BAND if points else theme.FAINT
        canvas.line((frame.left, at), (frame.left + frame.width, at), colour, 2)
        if scaled:
            word = f"{points:+g}" if points else "held"
            canvas.text(word, (frame.left - 16, at - 16), theme.SMALL, theme.QUIET, "right")
    if scaled:
        canvas.text("points", (frame.left - 16, frame.top), theme.SMALL, theme.QUIET, "right")
    for number in range(math.ceil(frame.start / MARK), math.floor(frame.stop / MARK) + 1):
        x = frame.across(number * MARK)
        canvas.line((x, frame.floor), (x, frame.floor + 10), theme.FAINT, 2)
        if frame.start < number * MARK < frame.stop:
            word = f"{number * MARK:g} s" if number else "blip"
            canvas.text(word, (x, frame.floor + 16), theme.SMALL, theme.QUIET, "centre")
    for one in pictures:
        canvas.curve(_points(frame, one), theme.EARLIER, 2)
    canvas.curve(_points(frame, median_of(pictures)), theme.BRAKE, 7)


def _points(frame: Frame, one: Deviation) -> list[Point]:
    step = max(one.time.size // POINTS, 1)
    time, points = one.time[::step].tolist(), one.deviation[::step].tolist()
    return [(frame.across(x), frame.down(y)) for x, y in zip(time, points, strict=True)]
