"""Choosing a level."""

from __future__ import annotations

from collections.abc import Sequence

from drills.level import Level
from engine.practice.progress import is_open
from engine.screens import theme
from engine.screens.canvas import Canvas
from engine.screens.screen import Choice, Menu, title


class Levels(Menu):
    """Ends with the level chosen, or True to go back."""

    name = "levels"

    def __init__(self, levels: Sequence[Level], done: frozenset[str]) -> None:
        names = {level.id: level.title for level in levels}
        opened = [level for level in levels if is_open(level, done)]
        self._closed = [level for level in levels if not is_open(level, done)]
        self._needs = {
            level.id: ", ".join(names[need] for need in level.needs if need not in done)
            for level in self._closed
        }
        choices = [
            Choice(level.title, level, "passed" if level.id in done else level.purpose)
            for level in opened
        ]
        super().__init__([*choices, Choice("Back", True)], back=True)

    def picture(self, canvas: Canvas) -> None:
        """What is closed yet, and what opens it."""
        y = title(canvas, "Levels")
        for level in self._closed:
            if y > self.choices_top - 50:
                return
            text = f"{level.title}: opens after {self._needs[level.id]}"
            width = theme.WIDTH - 2 * theme.MARGIN
            shown = canvas.fitted(text, width, theme.SMALL)
            y = canvas.text(shown, (theme.MARGIN, y), theme.SMALL, theme.QUIET) + 8
