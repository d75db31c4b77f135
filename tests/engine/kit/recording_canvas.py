"""Canvas that draws and records everything it draws."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import pygame

from engine.kit import theme
from engine.kit.base import Screen
from engine.kit.canvas import Align, Canvas, Colour, Fonts, Point
from engine.kit.typeface import Weight


@dataclass(frozen=True)
class Text:
    """Line of text as it was drawn."""

    text: str
    """Content of the line."""
    size: float
    """Text size in canvas units."""
    ink: pygame.Rect
    """Rectangle that its letters cover, in pixels."""


class RecordingCanvas(Canvas):
    """Canvas that records every line of text, box, curve, shape and disc it draws."""

    def __init__(self, size: tuple[int, int], fonts: Fonts) -> None:
        self.surface = pygame.Surface(size)
        super().__init__(self.surface, fonts)
        self.texts: list[Text] = []
        self.boxes: list[pygame.Rect] = []
        self.curves: list[tuple[Colour, list[Point]]] = []
        self.discs: list[tuple[Point, Colour]] = []
        self.lines: list[tuple[Point, Point]] = []
        self.fills: list[tuple[Colour, list[Point]]] = []

    @property
    def picture(self) -> pygame.Rect:
        """Area of the 16:9 picture, in pixels."""
        left, top = self._pixel((0, 0))
        width, height = theme.WIDTH * self.scale, theme.HEIGHT * self.scale
        return pygame.Rect(round(left), round(top), round(width), round(height))

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
        """Write text, and record where its letters are."""
        font = self._font(size, weight)
        lines = [text] if width is None else self._wrap(font, text, width)
        for number, line in enumerate(lines):
            ink = font.render(line, colour).get_bounding_rect()
            left, top = self._pixel((at[0], at[1] + number * size))
            shift = {"left": 0.0, "centre": 0.5, "right": 1.0}[align] * font.size(line)[0]
            placed = ink.move(round(left - shift), round(top) - font.above)
            self.texts.append(Text(line, size, placed))
        return super().text(text, at, size, colour, align, width, weight)

    def box(
        self,
        corner: Point,
        size: Point,
        colour: Colour,
        radius: float = 0.0,
        line: float = 0.0,
    ) -> pygame.Rect:
        """Draw it, and record its place."""
        self.boxes.append(super().box(corner, size, colour, radius, line))
        return self.boxes[-1]

    def curve(self, points: Sequence[Point], colour: Colour, width: float = 2.0) -> None:
        """Draw it, and record its points."""
        self.curves.append((colour, list(points)))
        super().curve(points, colour, width)

    def line(self, start: Point, end: Point, colour: Colour, width: float = 2.0) -> None:
        """Draw it, and record its points."""
        self.lines.append((start, end))
        super().line(start, end, colour, width)

    def shape(self, points: Sequence[Point], colour: Colour) -> None:
        """Draw it, and record its points."""
        self.fills.append((colour, list(points)))
        super().shape(points, colour)

    def disc(self, centre: Point, radius: float, colour: Colour, line: float = 0.0) -> None:
        """Draw it, and record its place."""
        self.discs.append((centre, colour))
        super().disc(centre, radius, colour, line)


def recorded(screen: Screen[Any]) -> RecordingCanvas:
    """Recording of a screen, drawn at one pixel per canvas unit."""
    pygame.font.init()
    canvas = RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())
    screen.paint(canvas, 0.0)
    return canvas


def said(screen: Screen[Any]) -> list[str]:
    """All texts on a screen."""
    return [text.text for text in recorded(screen).texts]
