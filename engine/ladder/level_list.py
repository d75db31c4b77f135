"""List of the levels of one stage, from which the player chooses one."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from enum import Enum

from drills.capitals import capitalised
from drills.health.words import PARTLY_LUCK
from drills.level import Level
from engine.kit import theme, widgets
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas, wrapped
from engine.ladder.ladder import DONE, LadderLevel, LadderStage, State
from engine.ladder.ladder_words import closed_words, level_note, limit_words
from engine.ladder.state_marks import draw_state
from engine.practice.passes import ALL_PEDALS, required
from engine.practice.personal_limit import PersonalLimit

BESIDE = 48
"""Distance of the mark of a level from the left margin, in canvas units."""
CLOSED_GAP = 20
"""Gap above the lines about closed levels, in canvas units."""
LIST = 352
"""Top of the list of open levels, below what the selected one asks, in canvas units."""


class Instead(Enum):
    """Outcome of a choosing screen that is neither a level nor a stage."""

    HOME = "home"
    FIND_PLACE = "find my place"


class LevelList(Menu[Level | Instead]):
    """List of the levels of one stage; its outcome is the level chosen, or going back."""

    name = "levels"

    def __init__(
        self,
        ladder_stage: LadderStage,
        stages: Sequence[LadderStage],
        pedals: frozenset[str] = ALL_PEDALS,
        due: Mapping[str, str] | None = None,
        lucky: frozenset[str] = frozenset(),
        personal: Mapping[str, PersonalLimit] | None = None,
    ) -> None:
        """`ladder_stage` is the one listed, of all `stages`; `pedals` are those of the rig.

        `due` has the words for when a level has its check-up, such as "check-up tomorrow", by its
        id; `lucky` are the ids of levels that are partly luck with the pedals; `personal` has the
        personal limits of levels by their ids.
        """
        self._open = [rung for rung in ladder_stage.rungs if is_playable(rung, pedals)]
        closed = [rung for rung in ladder_stage.rungs if rung not in self._open]
        self._closed = [
            (rung.state, closed_words(rung.level, stages, pedals, lucky)) for rung in closed
        ]
        choices: list[Choice[Level | Instead]] = [
            Choice(rung.level.title, rung.level, level_note(rung, due or {}, lucky, personal or {}))
            for rung in self._open
        ]
        super().__init__([*choices, Choice("Back", Instead.HOME)], back=Instead.HOME)
        self._title = capitalised(ladder_stage.name)
        self._described = 0
        self.list_top = LIST
        self.in_a_bar = not self._open

    def appearance(self) -> Hashable:
        """State that the drawn list depends on: that of the menu, and the selected level."""
        return super().appearance(), self._selected

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw the list with the mark of each level beside its title."""
        super().paint(canvas, press)
        top = self.choices_top
        for row, rung in enumerate(self._open[self._first :][: len(self._places)]):
            y = top + (row + 0.5) * widgets.ROW - 4
            draw_state(canvas, (theme.MARGIN - BESIDE, y), rung.state)
        if self._open:
            self._tell_closed(canvas, top + len(self._places) * widgets.ROW, theme.FOOT)

    def picture(self, canvas: Canvas) -> None:
        """Draw the stage and what the selected level asks, or what opens each closed level."""
        y = heading(canvas, self._title)
        if self._selected < len(self._open):
            self._described = self._selected
        if self._open:
            describe(canvas, self._open[self._described].level, y)
        else:
            self._tell_closed(canvas, y, theme.BAR - theme.SMALL)

    def _tell_closed(self, canvas: Canvas, top: float, bottom: float) -> None:
        """Write what opens each closed level, as far as there is room between two heights."""
        left = theme.MARGIN + widgets.PADDING
        width, y = theme.WIDTH - theme.MARGIN - left, top + CLOSED_GAP
        for state, words in self._closed:
            lines = wrapped(words, width, lambda text: canvas.measure(text, theme.SMALL))
            if y + len(lines) * theme.SMALL > bottom:
                return
            draw_state(canvas, (theme.MARGIN - BESIDE, y + 16), state, theme.QUIET)
            y = canvas.text(words, (left, y), theme.SMALL, theme.QUIET, width=width) + 6


def heading(canvas: Canvas, words: str) -> float:
    """Write a heading that may be long; returns the top of what comes below it."""
    width = theme.WIDTH - 2 * theme.MARGIN
    if canvas.measure(words, theme.LARGE) <= width * 0.94:
        return title(canvas, words)
    at = (theme.MARGIN, theme.TITLE)
    return canvas.text(words, at, theme.BODY, width=width) + theme.BODY / 2


def describe(canvas: Canvas, level: Level, top: float, is_luck: bool = False) -> float:
    """Write the purpose of a level and its limit; returns the top of what comes below.

    `is_luck`: whether the level is partly luck with the pedals.
    """
    width = theme.WIDTH - 2 * theme.MARGIN
    y = canvas.text(level.purpose, (theme.MARGIN, top), theme.BODY, width=width) + 4
    words = ", ".join(filter(None, [limit_words(level), PARTLY_LUCK if is_luck else ""]))
    canvas.text(words, (theme.MARGIN, y), theme.SMALL, theme.QUIET)
    return y + theme.SMALL


def is_playable(rung: LadderLevel, pedals: frozenset[str]) -> bool:
    """Whether a level can be chosen: it is open or done, and its pedals are on the rig now."""
    return rung.state in (*DONE, State.OPEN) and pedals.issuperset(required(rung.level))
