"""Basics of all charts: the interface of the surface they are drawn on, axes, and their scales.

The same chart is drawn in the window, in a picture file and in a page of the report. All sizes and
positions are in canvas units (see `theme.py`).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from engine.kit import theme
from engine.kit.area import Area
from engine.kit.canvas import Align, Colour, Point
from engine.kit.typeface import Weight

LEFT = 104
"""Space left of a chart's frame for the numbers of the vertical scale, in canvas units."""
ABOVE = 64
"""Space above a chart's frame for the unit of the vertical scale, in canvas units."""
BELOW = 56
"""Space below a chart's frame for the labels of the horizontal scale, in canvas units."""
LETTER = 16
"""Distance from the top of a line of small text to the middle of its capitals, in canvas units."""
ROUND = (1.0, 2.0, 5.0)
"""Steps that the scale of a chart may have: these numbers times a power of ten."""
PARTS = 3
"""Largest number of steps on the vertical scale of a chart from 0: few lines, each numbered."""
BOTH_WAYS = 4
"""Largest number of steps on the vertical scale of a chart that has values below 0."""
LEAST_STEP = 0.1
"""Smallest step of a chart's scale, in the unit of its measure; none is shown with more digits."""
GAP = 24
"""Smallest gap between two labels under a chart's frame, in canvas units."""


class Paper(Protocol):
    """Interface of a surface that charts are drawn on; `engine.kit.canvas.Canvas` is one."""

    def text(
        self,
        text: str,
        at: Point,
        size: float = ...,
        colour: Colour = ...,
        align: Align = ...,
        width: float | None = ...,
        weight: Weight = ...,
    ) -> float:
        """Write text with its top at `at`, in lines no wider than `width`, in canvas units.

        Returns the top of the line that would come after it.
        """

    def measure(self, text: str, size: float = ..., weight: Weight = ...) -> float:
        """Width of a line of text in canvas units."""

    def box(
        self, corner: Point, size: Point, colour: Colour, radius: float = ..., line: float = ...
    ) -> object:
        """Draw a rectangle: filled if `line` is 0, else an outline `line` wide."""

    def line(self, start: Point, end: Point, colour: Colour, width: float = ...) -> None:
        """Draw a straight line."""

    def curve(self, points: Sequence[Point], colour: Colour, width: float = ...) -> None:
        """Draw a line through points."""

    def disc(self, centre: Point, radius: float, colour: Colour, line: float = ...) -> None:
        """Draw a circle: filled if `line` is 0, else an outline `line` wide."""

    def shape(self, points: Sequence[Point], colour: Colour) -> None:
        """Draw a filled polygon."""


@dataclass(frozen=True)
class Axes:
    """Axes of a chart: its frame with a horizontal and a vertical scale."""

    frame: Area
    """Rectangle of the chart that the data are drawn in, without the labels around it."""
    first: float
    """Value at the left edge of the frame, in the unit of the horizontal scale."""
    last: float
    """Value at the right edge of the frame, in the unit of the horizontal scale."""
    low: float
    """Value at the lower edge of the frame, in the unit of the vertical scale."""
    high: float
    """Value at the upper edge of the frame, in the unit of the vertical scale."""

    def across(self, value: float) -> float:
        """Position of a value on a chart's horizontal scale, in canvas units from the left.

        Values outside the scale lie on the edge of the frame.
        """
        share = (value - self.first) / (self.last - self.first)
        return self.frame.left + self.frame.width * min(max(share, 0.0), 1.0)

    def down(self, value: float) -> float:
        """Position of a value on a chart's vertical scale, in canvas units from the top.

        Values outside the scale lie on the edge of the frame.
        """
        share = (value - self.low) / (self.high - self.low)
        return self.frame.bottom - self.frame.height * min(max(share, 0.0), 1.0)

    def place(self, across: float, up: float) -> Point:
        """Position in the picture of a data point of a chart, in canvas units."""
        return self.across(across), self.down(up)


def framed(area: Area) -> Area:
    """Rectangle left for the frame of a chart in its area, inside the margins for its labels."""
    return area.within(LEFT, ABOVE, 0.0, BELOW)


def step_of(reach: float, parts: int = PARTS) -> float:
    """Smallest round step of a chart's scale that divides `reach` into at most so many parts."""
    finest = max(reach / parts, LEAST_STEP)
    decade = 10.0 ** math.floor(math.log10(finest))
    steps = (decade * factor for factor in (*ROUND, 10.0))
    return next(step for step in steps if step >= finest * (1 - 1e-9))


def top_of(most: float, parts: int = PARTS) -> float:
    """Upper end of a chart's scale from 0 that contains `most`: at most `parts` round steps."""
    reach = max(most, parts * LEAST_STEP)
    step = step_of(reach, parts)
    return step * math.ceil(reach / step - 1e-9)


def numbers_up(axes: Axes) -> list[float]:
    """Numbers of the vertical scale of a chart, the lowest first."""
    room = max(int(axes.frame.height // theme.SMALL), 1)
    parts = PARTS if axes.low >= 0 else BOTH_WAYS
    step = step_of(axes.high - axes.low, min(parts, room))
    first, last = math.ceil(axes.low / step - 1e-9), math.floor(axes.high / step + 1e-9)
    return [number * step for number in range(first, last + 1)]


def scale_up(paper: Paper, axes: Axes, name: str, legend: float = 0.0, zero: str = "0") -> None:
    """Draw the vertical scale of a chart: a faint line at each number, and its unit above.

    A low chart has fewer numbers, so that none touches the next.
    `name` is the unit of the scale, `legend` the extra space between it and the frame in canvas
    units, and `zero` the label at 0.
    """
    frame = axes.frame
    for value in numbers_up(axes):
        at = axes.down(value)
        colour = theme.BAND if value else theme.FAINT
        paper.line((frame.left, at), (frame.right, at), colour, 2)
        label = f"{value:g}" if value else zero
        paper.text(label, (frame.left - 20, at - LETTER), theme.SMALL, theme.QUIET, "right")
    paper.text(name, (frame.left, frame.top - ABOVE - legend), theme.SMALL, theme.QUIET)


def scale_across(paper: Paper, axes: Axes, marks: Sequence[tuple[float, str]]) -> None:
    """Write the labels under a chart at their values: the first, the last, and what has room."""
    frame, taken = axes.frame, list[tuple[float, float]]()
    for value, word in [*marks[:1], *marks[1:][-1:], *marks[1:-1]]:
        half = paper.measure(word, theme.SMALL) / 2
        middle = min(max(axes.across(value), frame.left + half - LEFT), frame.right - half)
        if all(abs(middle - other) >= half + reach + GAP for other, reach in taken):
            corner = (middle, frame.bottom + 14)
            paper.text(word, corner, theme.SMALL, theme.QUIET, "centre")
            taken.append((middle, half))


def fitted(paper: Paper, text: str, width: float) -> str:
    """Line of small text, cut and ended with "..." if it is wider than `width` canvas units."""
    if paper.measure(text, theme.SMALL) <= width:
        return text
    while text and paper.measure(f"{text}...", theme.SMALL) > width:
        text = text[:-1].rstrip()
    return f"{text}..."


def nothing_yet(paper: Paper, area: Area, after: str, heading: str = "Nothing yet") -> None:
    """Write in place of a chart that it has no data yet; `after` says when it will have some."""
    middle = area.left + area.width / 2
    top = area.top + area.height / 2 - theme.LEAD
    paper.text(heading, (middle, top), theme.LEAD, theme.TEXT, "centre", weight=Weight.BOLD)
    below = (middle, top + theme.LEAD + 12)
    paper.text(after, below, theme.BODY, theme.QUIET, "centre", area.width - 80)
