"""What the charts of progress share: the surface they are drawn on, and a frame with its scales.

The same chart is drawn into the window, into a picture file and into a page: a surface need only
know how to write, to measure what is written, and to draw lines and areas, in units of the theme.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from engine.kit import theme
from engine.kit.canvas import Align, Colour, Point

LEFT = 130
"""units kept left of the frame, for the numbers of its scale."""
ABOVE = 56
"""units kept above it, for what the scale counts."""
BELOW = 56
"""units kept under it, for the words of the scale across."""
TICK = 10
"""units, how far a mark of a scale stands out."""
LETTER = 16
"""units from the top of a line of small text to the middle of its capitals."""
ROUND = (1.0, 2.0, 5.0)
"""Round numbers of every decade that a scale may step by."""
PARTS = 4
"""count, steps of a scale at most."""
LEAST_STEP = 0.1
"""The finest step of a scale, in the unit of what it counts: no measure is written finer."""
GAP = 24
"""units, the least from a word under the frame to the next."""


class Paper(Protocol):
    """A surface for charts; `engine.kit.canvas.Canvas` is one."""

    def text(
        self,
        text: str,
        at: Point,
        size: float = ...,
        colour: Colour = ...,
        align: Align = ...,
        width: float | None = ...,
    ) -> float:
        """Write text with its top at `at`, in lines no wider than `width`; where the next goes."""

    def measure(self, text: str, size: float = ...) -> float:
        """Width of a line of text in units."""

    def box(
        self, corner: Point, size: Point, colour: Colour, radius: float = ..., line: float = ...
    ) -> object:
        """A rectangle, filled where `line` is 0."""

    def line(self, start: Point, end: Point, colour: Colour, width: float = ...) -> None:
        """A straight line."""

    def curve(self, points: Sequence[Point], colour: Colour, width: float = ...) -> None:
        """A line through points."""

    def disc(self, centre: Point, radius: float, colour: Colour, line: float = ...) -> None:
        """A circle, filled where `line` is 0."""

    def shape(self, points: Sequence[Point], colour: Colour) -> None:
        """A filled polygon."""


@dataclass(frozen=True)
class Area:
    """A rectangle that a chart is drawn into, words and all."""

    left: float
    """units."""
    top: float
    """units."""
    width: float
    """units."""
    height: float
    """units."""

    def within(self, left: float, top: float, right: float, bottom: float) -> Area:
        """What is left of it without some units at each side."""
        return Area(
            self.left + left,
            self.top + top,
            self.width - left - right,
            self.height - top - bottom,
        )

    @property
    def right(self) -> float:
        """units from the left of the picture."""
        return self.left + self.width

    @property
    def bottom(self) -> float:
        """units from the top of the picture."""
        return self.top + self.height


@dataclass(frozen=True)
class Axes:
    """A frame with its two scales."""

    frame: Area
    """The frame itself, without words."""
    first: float
    """At its left edge, in the unit of the scale across."""
    last: float
    """At its right edge."""
    low: float
    """At its lower edge, in the unit of the scale up."""
    high: float
    """At its upper edge."""

    def across(self, value: float) -> float:
        """units from the left of the picture; what is outside is at the edge."""
        share = (value - self.first) / (self.last - self.first)
        return self.frame.left + self.frame.width * min(max(share, 0.0), 1.0)

    def down(self, value: float) -> float:
        """units from the top of the picture; what is outside is at the edge."""
        share = (value - self.low) / (self.high - self.low)
        return self.frame.bottom - self.frame.height * min(max(share, 0.0), 1.0)

    def place(self, across: float, up: float) -> Point:
        """Where a point is."""
        return self.across(across), self.down(up)


def framed(area: Area) -> Area:
    """The frame within an area that leaves room for the words about it."""
    return area.within(LEFT, ABOVE, 0.0, BELOW)


def step_of(reach: float) -> float:
    """The round step that goes into a reach at most so many times."""
    finest = max(reach / PARTS, LEAST_STEP)
    decade = 10.0 ** math.floor(math.log10(finest))
    steps = (decade * one for one in (*ROUND, 10.0))
    return next(step for step in steps if step >= finest * (1 - 1e-9))


def top_of(most: float) -> float:
    """Where a scale from 0 ends that holds this: a whole number of its steps."""
    reach = max(most, PARTS * LEAST_STEP)
    step = step_of(reach)
    return step * math.ceil(reach / step - 1e-9)


def scale_up(paper: Paper, axes: Axes, said: str, legend: float = 0.0, zero: str = "0") -> None:
    """The ground, the numbers of the scale up with a faint line each, and what it counts.

    `legend` is how many units more are kept between that and the frame, `zero` what 0 is called.
    """
    frame = axes.frame
    paper.box((frame.left, frame.top), (frame.width, frame.height), theme.RAISED, 6)
    step = step_of(axes.high - axes.low)
    for number in range(math.ceil(axes.low / step - 1e-9), math.floor(axes.high / step + 1e-9) + 1):
        at = axes.down(number * step)
        paper.line((frame.left, at), (frame.right, at), theme.BAND, 2)
        paper.line((frame.left - TICK, at), (frame.left, at), theme.FAINT, 2)
        label = f"{number * step:g}" if number else zero
        paper.text(label, (frame.left - 20, at - LETTER), theme.SMALL, theme.QUIET, "right")
    paper.text(said, (frame.left, frame.top - ABOVE - legend), theme.SMALL, theme.QUIET)


def scale_across(paper: Paper, axes: Axes, marks: Sequence[tuple[float, str]]) -> None:
    """A mark at each value, and its word where there is room for it beside those before."""
    frame, free = axes.frame, -math.inf
    for value, word in marks:
        x = axes.across(value)
        paper.line((x, frame.bottom), (x, frame.bottom + TICK), theme.FAINT, 2)
        half = paper.measure(word, theme.SMALL) / 2
        middle = min(max(x, frame.left + half - LEFT), frame.right - half)
        if middle - half >= free:
            corner = (middle, frame.bottom + 16)
            paper.text(word, corner, theme.SMALL, theme.QUIET, "centre")
            free = middle + half + GAP


def fitted(paper: Paper, text: str, width: float) -> str:
    """A line of small text, cut and marked so where it is wider than `width` units."""
    if paper.measure(text, theme.SMALL) <= width:
        return text
    while text and paper.measure(f"{text}...", theme.SMALL) > width:
        text = text[:-1].rstrip()
    return f"{text}..."


def nothing_yet(paper: Paper, area: Area, after: str) -> None:
    """The place of a chart that there is nothing to draw in yet, and what it comes after."""
    paper.box((area.left, area.top), (area.width, area.height), theme.RAISED, 6)
    corner = (area.left + area.width / 2, area.top + area.height / 2 - theme.SMALL)
    paper.text("Nothing yet", corner, theme.BODY, theme.TEXT, "centre")
    below = (corner[0], corner[1] + theme.BODY + 12)
    paper.text(after, below, theme.SMALL, theme.QUIET, "centre", area.width - 80)
