"""Sentences of a screen as they are written, before they are broken into lines."""

import re
from typing import Any

import pygame

from engine.kit import theme
from engine.kit.base import Screen
from engine.kit.canvas import Align, Colour, Fonts, Point
from engine.kit.typeface import Weight
from tests.engine.kit.recording_canvas import RecordingCanvas

MOST_WORDS = 12
"""Largest number of words in a sentence on a screen."""


class Paragraphs(RecordingCanvas):
    """Canvas that records each text whole."""

    def __init__(self) -> None:
        super().__init__((theme.WIDTH, theme.HEIGHT), Fonts())
        self.whole: list[str] = []

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
        """Write text, and record it."""
        self.whole.append(text)
        return super().text(text, at, size, colour, align, width, weight)


def whole_texts(screen: Screen[Any]) -> list[str]:
    """All texts on a screen, each as it was written; without the hint at the foot."""
    pygame.font.init()
    canvas = Paragraphs()
    screen.paint(canvas, 0.0)
    return [text for text in canvas.whole if not re.search(r": (choose|go on|next)( |$)", text)]


def too_long(screen: Screen[Any]) -> list[str]:
    """Sentences of a screen that have too many words."""
    sentences = [
        one for text in whole_texts(screen) for one in re.split(r"(?<=[.?!])\s", text) if one
    ]
    return [one for one in sentences if len(one.split()) > MOST_WORDS]
