"""A surface for charts that becomes inline SVG, for a page that loads nothing.

Colours are classes, so that the page says what they are on a screen and in print. Widths of text
are those of a common typeface without serifs, rounded up: a page is read with whatever typeface
there is.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from engine.kit import theme
from engine.kit.canvas import LEADING, Align, Colour, Point, wrapped

NAMES = {
    theme.GROUND: "ground",
    theme.RAISED: "raised",
    theme.BAND: "band",
    theme.FAINT: "faint",
    theme.EARLIER: "earlier",
    theme.QUIET: "quiet",
    theme.TEXT: "text",
    theme.BRAKE: "brake",
    theme.THROTTLE: "throttle",
    theme.CLUTCH: "clutch",
}
"""What the colours of the theme are called in a page."""
NARROW, WIDE = frozenset(" .,:;'|!ijlI()[]-ftr"), frozenset("mwMW%@")
"""Letters by their width."""
WIDTHS = (0.33, 0.58, 0.9)
"""1, widths of narrow, usual and wide letters as shares of the size of the typeface."""
LETTERS = 0.8
"""1, size of the typeface as a share of a line, so that its capitals are as tall as the game's."""
BASE = 0.66
"""1, where the letters stand, as a share of a line."""
ANCHORS = {"left": "start", "centre": "middle", "right": "end"}
"""Where text stands about its place."""


class SvgCanvas:
    """One picture, in units of the theme."""

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
    ) -> float:
        """Write text with its top at `at`, in lines no wider than `width`; where the next goes."""
        x, y = at
        lines = [text]
        if width is not None:
            lines = wrapped(text, width, lambda line: self.measure(line, size))
        for line in lines:
            self._parts.append(
                f'<text x="{x:.1f}" y="{y + BASE * size:.1f}" font-size="{LETTERS * size:.1f}"'
                f' text-anchor="{ANCHORS[align]}" class="f-{NAMES[colour]}">{escape(line)}</text>'
            )
            y += size * LEADING
        return y

    def measure(self, text: str, size: float = theme.BODY) -> float:
        """Width of a line of text in units, rather too much."""
        narrow, usual, wide = WIDTHS
        widths = (narrow if one in NARROW else wide if one in WIDE else usual for one in text)
        return LETTERS * size * sum(widths)

    def box(
        self, corner: Point, size: Point, colour: Colour, radius: float = 0.0, line: float = 0.0
    ) -> None:
        """A rectangle, filled where `line` is 0; a line lies inside it."""
        left, top = corner[0] + line / 2, corner[1] + line / 2
        self._parts.append(
            f'<rect x="{left:.1f}" y="{top:.1f}" width="{max(size[0] - line, 0):.1f}"'
            f' height="{max(size[1] - line, 0):.1f}" rx="{radius:g}"{_drawn(colour, line)}/>'
        )

    def line(self, start: Point, end: Point, colour: Colour, width: float = 2.0) -> None:
        """A straight line."""
        self.curve([start, end], colour, width)

    def curve(self, points: Sequence[Point], colour: Colour, width: float = 2.0) -> None:
        """A line through points."""
        if len(points) > 1:
            self._parts.append(f'<polyline points="{_joined(points)}"{_drawn(colour, width)}/>')

    def disc(self, centre: Point, radius: float, colour: Colour, line: float = 0.0) -> None:
        """A circle, filled where `line` is 0; a line lies inside it."""
        self._parts.append(
            f'<circle cx="{centre[0]:.1f}" cy="{centre[1]:.1f}" r="{radius - line / 2:.1f}"'
            f"{_drawn(colour, line)}/>"
        )

    def shape(self, points: Sequence[Point], colour: Colour) -> None:
        """A filled polygon."""
        self._parts.append(f'<polygon points="{_joined(points)}"{_drawn(colour, 0.0)}/>')

    def done(self, said: str) -> str:
        """The picture; `said` is what it shows, for who does not see it."""
        return (
            f'<svg viewBox="0 0 {self._width:g} {self._height:g}" role="img"'
            f' aria-label="{escape(said)}">\n' + "\n".join(self._parts) + "\n</svg>"
        )


def _drawn(colour: Colour, line: float) -> str:
    """How something is drawn: filled, or as a line of some width."""
    if line:
        return f' class="s-{NAMES[colour]}" stroke-width="{line:g}"'
    return f' class="f-{NAMES[colour]}"'


def _joined(points: Sequence[Point]) -> str:
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
