"""A line of text typed on the keyboard, which is never needed to go on."""

from __future__ import annotations

from collections.abc import Hashable, Mapping

from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas

BOX = 110
"""units, height of the line that is typed in."""
CARET = 4
"""units, width of the mark where the next character goes."""


class TextEntry(Menu[bool]):
    """Ends with whether to keep what was typed."""

    name = "typing"
    hears_text = True

    def __init__(self, heading: str, text: str, most: int) -> None:
        """`text` is what stands there so far; it may have so many characters at most."""
        super().__init__([Choice("Keep it", True), Choice("Leave it as it was", False)], back=False)
        self.text = text
        """What stands there now."""
        self._heading = heading
        self._most = most

    def on_text(self, text: str) -> None:
        """Take what was typed, as far as there is room."""
        self.text = edited(self.text, text, self._most)

    def details(self) -> Mapping[str, object]:
        """The labels of the choices."""
        return {**super().details(), "heading": self._heading}

    def appearance(self) -> Hashable:
        """What is selected, and what stands there."""
        return super().appearance(), self.text

    def picture(self, canvas: Canvas) -> None:
        """The line, with a mark where the next character goes."""
        left, width = theme.MARGIN, theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, self._heading) + 20
        canvas.box((left, y), (width, BOX), theme.RAISED, 10)
        room = width - 80
        shown = self.text
        while canvas.measure(shown) > room:
            shown = shown[1:]
        canvas.text(shown, (left + 30, y + 34))
        x = left + 36 + canvas.measure(shown)
        canvas.line((x, y + 24), (x, y + BOX - 24), theme.BRAKE, CARET)
        said = f"Type on the keyboard, up to {self._most} characters. It may stay empty."
        canvas.text(said, (left, y + BOX + 30), theme.SMALL, theme.QUIET)


def edited(text: str, more: str, most: int) -> str:
    """A text of at most so many characters after more was typed; "\\b" takes the last one back.

    What cannot be seen, or not be drawn, is refused, and so is a space at the beginning.
    """
    for letter in more:
        if letter == "\b":
            text = text[:-1]
        elif len(text) < most and letter.isprintable() and letter <= "\uffff":
            text = (text + letter).lstrip()
    return text
