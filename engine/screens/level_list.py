"""Choosing a level from the list."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum

from drills.level import Level
from drills.trace import Pedal
from engine.practice.progress import ALL_PEDALS, is_open
from engine.screens import theme
from engine.screens.base import Choice, Menu, title
from engine.screens.canvas import Canvas


class Back(Enum):
    """Where to go without a level."""

    HOME = "home"


class LevelList(Menu[Level | Back]):
    """Ends with the level chosen, or with going back."""

    name = "levels"

    def __init__(
        self,
        levels: Sequence[Level],
        done: frozenset[str],
        pedals: frozenset[Pedal] = ALL_PEDALS,
        counted: frozenset[str] | None = None,
    ) -> None:
        """`done` are the levels passed, `counted` those that open others, where not the same."""
        opening = done if counted is None else counted
        names = {level.id: level.title for level in levels}
        opened = [level for level in levels if is_open(level, opening, pedals)]
        closed = [level for level in levels if not is_open(level, opening, pedals)]
        self._closed = [f"{level.title}: {_why(level, names, opening, pedals)}" for level in closed]
        choices: list[Choice[Level | Back]] = [
            Choice(level.title, level, "passed" if level.id in done else level.purpose)
            for level in opened
        ]
        super().__init__([*choices, Choice("Back", Back.HOME)], back=Back.HOME)

    def picture(self, canvas: Canvas) -> None:
        """What is closed yet, and what opens it."""
        y = title(canvas, "Levels")
        for text in self._closed:
            if y > self.choices_top - 50:
                return
            width = theme.WIDTH - 2 * theme.MARGIN
            shown = canvas.fitted(text, width, theme.SMALL)
            y = canvas.text(shown, (theme.MARGIN, y), theme.SMALL, theme.QUIET) + 8


def _why(
    level: Level, names: Mapping[str, str], done: frozenset[str], pedals: frozenset[Pedal]
) -> str:
    """Why a level is closed."""
    missing = [pedal.value for pedal in level.pedals if pedal not in pedals]
    if missing:
        return f"needs a {' and a '.join(missing)}"
    return f"opens after {', '.join(names[need] for need in level.needs if need not in done)}"
