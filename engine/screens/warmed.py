"""The end of a warm-up: whether today's foot is the usual foot, without a score to chase."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from drills.deviation import Deviation
from engine.screens import theme
from engine.screens.base import Choice, Menu, title
from engine.screens.canvas import Canvas
from engine.screens.dayend import Done
from engine.screens.together import together


@dataclass(frozen=True)
class Word:
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


class Warmed(Menu[Done]):
    """Ends with leaving or home."""

    name = "warmed up"
    back_word = "home"
    beside = 2

    def __init__(self, word: Word, pictures: Sequence[Deviation] = ()) -> None:
        """`pictures` are those of its blips, to be laid on top of each other."""
        choices = [Choice("Leave", Done.LEAVE), Choice("Home", Done.HOME)]
        super().__init__(choices, back=Done.HOME)
        self._word = word
        self._pictures = tuple(pictures)

    def details(self) -> Mapping[str, object]:
        """The choices and the word."""
        word = self._word
        told = {"heading": word.heading, "usual": word.usual, "today": word.today}
        return {**super().details(), **told, "days": len(word.earlier)}

    def picture(self, canvas: Canvas) -> None:
        """The word, today on a line beside earlier days, and the curves of the blips."""
        width = theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, self._word.heading)
        for line in self._word.said:
            y = canvas.text(line, (theme.MARGIN, y), theme.BODY, width=width) + 6
        together(canvas, (theme.MARGIN, y), (width, self.choices_top - y - 10), self._pictures)
