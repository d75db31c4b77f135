"""Screen for a line of text from the keyboard; leaving it empty is always allowed."""

from __future__ import annotations

from collections.abc import Hashable, Mapping

from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas

BOX = 110
"""Height of the box that text is typed into, in canvas units."""
CARET = 4
"""Width of the caret in a text entry, in canvas units."""


class TextEntry(Menu[bool]):
    """Menu with a line of text to edit; its outcome is whether to keep the new text."""

    name = "typing"
    hears_text = True
    in_a_bar = True

    def __init__(self, heading: str, text: str, most: int) -> None:
        """`text` is the text to begin with, `most` the largest number of characters."""
        super().__init__([Choice("Keep it", True), Choice("Leave it as it was", False)], back=False)
        self.text = text
        """Text as edited so far."""
        self._heading = heading
        self._most = most

    def on_text(self, text: str) -> None:
        """Add typed text, up to the largest number of characters."""
        self.text = edited(self.text, text, self._most)

    def details(self) -> Mapping[str, object]:
        """Labels of the choices and heading of a text entry, for the events file."""
        return {**super().details(), "heading": self._heading}

    def appearance(self) -> Hashable:
        """State that the drawn text entry depends on: that of the menu, and the typed text."""
        return super().appearance(), self.text

    def picture(self, canvas: Canvas) -> None:
        """Draw the heading, the typed text in its box with a caret, and a note on what to do."""
        left, width = theme.MARGIN, theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, self._heading) + 20
        canvas.box((left, y), (width, BOX), theme.RAISED, 10)
        room = width - 80
        visible = self.text
        while canvas.measure(visible) > room:
            visible = visible[1:]
        canvas.text(visible, (left + 30, y + 34))
        x = left + 36 + canvas.measure(visible)
        canvas.line((x, y + 24), (x, y + BOX - 24), theme.BRAKE, CARET)
        note = f"Type on the keyboard, up to {self._most} characters. It may stay empty."
        canvas.text(note, (left, y + BOX + 30), theme.SMALL, theme.QUIET)


def edited(text: str, more: str, most: int) -> str:
    """Text, cut to `most` characters, after `more` was typed; "\\b" deletes the last character.

    Characters that are invisible, turn the direction of writing or cannot be drawn are dropped, and
    so are leading spaces.
    """
    for letter in more:
        if letter == "\b":
            text = text[:-1]
        elif len(text) < most and letter.isprintable() and letter <= "\uffff":
            text = (text + letter).lstrip()
    return text
