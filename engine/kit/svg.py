"""Surface for charts that produces inline SVG, for a page that needs no other files.

Colours are CSS classes, so that the page can set them for screen and print. Text widths are those
of a common sans-serif typeface, rounded up, as the reader's typeface is not known.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from engine.kit import theme
from engine.kit.canvas import LEADING, Align, Colour, Point, wrapped
from engine.kit.typeface import Weight

NAMES = {
    theme.GROUND: "ground",
    theme.RAISED: "raised",
    theme.BAND: "band",
    theme.FAINT: "faint",
    theme.EARLIER: "earlier",
    theme.QUIET: "quiet",
    theme.TEXT: "text",
    theme.INK: "ink",
    theme.DIP: "dip",
    theme.BRAKE: "brake",
    theme.THROTTLE: "throttle",
    theme.CLUTCH: "clutch",
}
"""Names of the theme's colours in CSS classes."""
NARROW, WIDE = frozenset(" .,:;'|!ijlI()[]-ftr"), frozenset("mwMW%@")
"""Characters that are narrow and wide in most typefaces; all others are of normal width."""
WIDTHS = (0.33, 0.58, 0.9)
"""Estimated widths of narrow, normal and wide characters, as shares of the font size."""
LETTERS = 0.8
"""Font size in SVG as a share of the line height, so that capitals are as tall as in the game."""
BASE = 0.66
"""Distance from the top of a line of text to its baseline, as a share of the line height."""
ANCHORS = {"left": "start", "centre": "middle", "right": "end"}
"""Value of SVG's `text-anchor` for each alignment of text."""


class SvgCanvas:
    """Canvas that collects what is drawn as SVG elements, in canvas units."""

    def __init__(self, width: float, height: float) -> None:
        self._width = width
        self._height = height
        self._parts: list[str] = []

    def text(
        self,
        text: str,
        at: Point,
        size: float = theme.BODY,
        colour: Colour = theme.TEXT,
        align: Align = "left",
        width: float | None = None,
        weight: Weight = Weight.REGULAR,
    ) -> float:
        """Write text with its top at `at`, in lines no wider than `width`, in canvas units.

        Returns the top of the line that would come after it.
        """
        x, y = at
        lines = [text]
        if width is not None:
            lines = wrapped(text, width, lambda line: self.measure(line, size, weight))
        bold = ' font-weight="600"' if weight is Weight.BOLD else ""
        for line in lines:
            self._parts.append(
                f'<text x="{x:.1f}" y="{y + BASE * size:.1f}" font-size="{LETTERS * size:.1f}"'
                f' text-anchor="{ANCHORS[align]}"{bold} class="f-{NAMES[colour]}">'
                f"{escape(line)}</text>"
            )
            y += size * LEADING
        return y

    def measure(
        self, text: str, size: float = theme.BODY, weight: Weight = Weight.REGULAR
    ) -> float:
        """Width of a line of text in canvas units: an upper estimate for any typeface."""
        narrow, usual, wide = WIDTHS
        widths = (
            narrow if letter in NARROW else wide if letter in WIDE else usual for letter in text
        )
        return LETTERS * size * sum(widths)

    def box(
        self, corner: Point, size: Point, colour: Colour, radius: float = 0.0, line: float = 0.0
    ) -> None:
        """Draw a rectangle, filled if `line` is 0; otherwise its outline lies inside it."""
        left, top = corner[0] + line / 2, corner[1] + line / 2
        self._parts.append(
            f'<rect x="{left:.1f}" y="{top:.1f}" width="{max(size[0] - line, 0):.1f}"'
            f' height="{max(size[1] - line, 0):.1f}" rx="{radius:g}"{_drawn(colour, line)}/>'
        )

    def line(self, start: Point, end: Point, colour: Colour, width: float = 2.0) -> None:
        """Draw a straight line."""
        self.curve([start, end], colour, width)

    def curve(self, points: Sequence[Point], colour: Colour, width: float = 2.0) -> None:
        """Draw a line through points."""
        if len(points) > 1:
            self._parts.append(f'<polyline points="{_joined(points)}"{_drawn(colour, width)}/>')

    def disc(self, centre: Point, radius: float, colour: Colour, line: float = 0.0) -> None:
        """Draw a circle, filled if `line` is 0; otherwise its outline lies inside it."""
        self._parts.append(
            f'<circle cx="{centre[0]:.1f}" cy="{centre[1]:.1f}" r="{radius - line / 2:.1f}"'
            f"{_drawn(colour, line)}/>"
        )

    def shape(self, points: Sequence[Point], colour: Colour) -> None:
        """Draw a filled polygon."""
        self._parts.append(f'<polygon points="{_joined(points)}"{_drawn(colour, 0.0)}/>')

    def done(self, label: str) -> str:
        """Finished SVG element of the picture; `label` describes it to screen readers."""
        return (
            f'<svg viewBox="0 0 {self._width:g} {self._height:g}" role="img"'
            f' aria-label="{escape(label)}">\n' + "\n".join(self._parts) + "\n</svg>"
        )


def _drawn(colour: Colour, line: float) -> str:
    """SVG attributes for the colour: filled if `line` is 0, else an outline `line` wide."""
    if line:
        return f' class="s-{NAMES[colour]}" stroke-width="{line:g}"'
    return f' class="f-{NAMES[colour]}"'


def _joined(points: Sequence[Point]) -> str:
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
