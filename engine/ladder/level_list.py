"""Screens for choosing a level: first its stage on the ladder, then the level from a list."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum

import pygame

from drills.health.words import PARTLY_LUCK
from drills.level import Level
from drills.trace import Pedal
from engine.kit import theme, widgets
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.ladder.climb_picture import (
    ClimbArea,
    climb_picture,
    done_words,
    frame,
    is_aside,
    mark,
    stage_of,
)
from engine.ladder.ladder import DONE, LadderLevel, LadderStage, State
from engine.practice.passes import ALL_PEDALS

CLIMB = 130
"""Top of the picture of the climb on the ladder screen, in canvas units."""
LEGEND = 220
"""Top of the legend of the level marks on the ladder screen, in canvas units."""
LATER = {
    State.RETAINED: ": clean again on a later day",
    State.WELL_RETAINED: ": and after a week too",
}
"""Words in the legend that explain the mark of a retained level, by its state."""
LEGEND_LINE = 54
"""Distance from one line of the marks' legend to the next, in canvas units."""
LEGEND_ROOM = 384
"""Height of the marks' legend, in canvas units: down to a shoe on the lowest step."""


class Back(Enum):
    """Outcome of a choosing screen that the player leaves without a choice."""

    HOME = "home"


class Ladder(Menu[LadderStage | Back]):
    """Screen of the climb with one stage selected; its outcome is a stage chosen, or going back.

    A closed stage says why it is closed.
    """

    name = "ladder"

    def __init__(
        self,
        stages: Sequence[LadderStage],
        following: Level,
        pedals: frozenset[Pedal] = ALL_PEDALS,
        begin: LadderStage | None = None,
    ) -> None:
        """`following` is the level to practise next, `pedals` are those of the rig.

        The stage selected at first is `begin`, or that of `following` where it is None.
        """
        choices: list[Choice[LadderStage | Back]] = [
            Choice(ladder_stage.name, ladder_stage, _stage_note(stages, number, pedals))
            for number, ladder_stage in enumerate(stages)
        ]
        super().__init__([*choices, Choice("Back", Back.HOME)], back=Back.HOME)
        self._stages = tuple(stages)
        self._following = following
        self._pedals = pedals
        start = stage_of(stages, following) if begin is None else self._stages.index(begin)
        self._selected = self._stage = start
        self._row = pygame.Rect(0, 0, 0, 0)

    def details(self) -> Mapping[str, object]:
        """Labels of the choices and the index of the selected one, for the events file."""
        return {**super().details(), "selected": self._selected}

    def choose(self, choice: Choice[LadderStage | Back]) -> None:
        """End the screen if the player goes back or chooses a stage with a level to play."""
        outcome = choice.outcome
        if outcome is Back.HOME or any(_is_playable(rung, self._pedals) for rung in outcome.rungs):
            super().choose(choice)

    def on_pointer(self, at: tuple[int, int], *, pressed: bool) -> None:
        """Select the step or the line that the pointer is on, and choose it when pressed."""
        if self._row.collidepoint(at):
            self._selected = self._stage
            if pressed:
                self.choose(self._choices[self._stage])
        super().on_pointer(at, pressed=pressed)

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw the climb with the selected stage marked, the stage in words, and the way back."""
        last = len(self._stages)
        if self._selected < last:
            self._stage = self._selected
        title(canvas, "Levels")
        self._legend(canvas)
        area = ClimbArea(CLIMB, widgets.choices_top(2) - 30)
        marked = self._selected if self._selected < last else None
        steps = climb_picture(canvas, area, self._stages, self._following, marked)
        rows = [self._choices[self._stage], self._choices[last]]
        labels = [(choice.label, choice.note) for choice in rows]
        self._row, back = widgets.choices(canvas, labels, int(self._selected == last), press)
        self._places = [*steps, back]
        widgets.foot(canvas, self.hint)

    def _legend(self, canvas: Canvas) -> None:
        """Draw the legend of the marks that levels have on the climb."""
        drawn = {rung.state for ladder_stage in self._stages for rung in ladder_stage.rungs}
        states = [state for state in State if state in drawn]
        words = [*(f"{state.value}{LATER.get(state, '')}" for state in states), "next"]
        line = min(LEGEND_LINE, LEGEND_ROOM / len(words))
        for row, word in enumerate(words):
            x, y = theme.MARGIN, LEGEND + row * line
            canvas.text(word, (x + 60, y), theme.SMALL, theme.QUIET)
            if row < len(states):
                mark(canvas, (x + 22, y + 16), states[row])
            else:
                frame(canvas, (x + 22, y + 16))


class LevelList(Menu[Level | Back]):
    """List of the levels of one stage; its outcome is the level chosen, or going back."""

    name = "levels"

    def __init__(
        self,
        ladder_stage: LadderStage,
        stages: Sequence[LadderStage],
        pedals: frozenset[Pedal] = ALL_PEDALS,
        due: Mapping[str, str] | None = None,
        lucky: frozenset[str] = frozenset(),
    ) -> None:
        """`ladder_stage` is the one listed, of all `stages`; `pedals` are those of the rig.

        `due` has the words for when a level is asked again, such as "again tomorrow", by its id;
        `lucky` are the ids of levels that are partly luck with the pedals.
        """
        due_words = due or {}
        opened = [rung for rung in ladder_stage.rungs if _is_playable(rung, pedals)]
        self._closed = [
            f"{_marked(rung.level, lucky)}: {_why_closed(rung.level, stages, pedals)}"
            for rung in ladder_stage.rungs
            if rung not in opened
        ]
        choices: list[Choice[Level | Back]] = [
            Choice(rung.level.title, rung.level, _level_note(rung, due_words, lucky))
            for rung in opened
        ]
        super().__init__([*choices, Choice("Back", Back.HOME)], back=Back.HOME)
        self._title = ladder_stage.name[:1].upper() + ladder_stage.name[1:]

    def picture(self, canvas: Canvas) -> None:
        """Draw the title of the list, and each closed level with what would open it."""
        width = theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, canvas.cut(self._title, width, theme.LARGE))
        for text in self._closed:
            if y > self.choices_top - 50:
                return
            line = canvas.fitted(text, width, theme.SMALL)
            y = canvas.text(line, (theme.MARGIN, y), theme.SMALL, theme.QUIET) + 8


def _is_playable(rung: LadderLevel, pedals: frozenset[Pedal]) -> bool:
    """Whether a level can be chosen: it is open or done, and its pedals are on the rig now."""
    return rung.state in (*DONE, State.OPEN) and pedals.issuperset(rung.level.pedals)


def _level_note(rung: LadderLevel, due: Mapping[str, str], lucky: frozenset[str]) -> str:
    """Purpose of a level, after what is to be known of it first.

    That is the state of one that is done, when it is checked next, and whether it is partly luck.
    """
    level, done = rung.level, rung.state in DONE
    first = [rung.state.value, due.get(level.id, "")] if done else []
    marks = ", ".join(filter(None, [*first, PARTLY_LUCK if level.id in lucky else ""]))
    return f"{marks}: {level.purpose}" if marks else level.purpose


def _marked(level: Level, lucky: frozenset[str]) -> str:
    """Title of a closed level, and whether it is partly luck."""
    return f"{level.title} ({PARTLY_LUCK})" if level.id in lucky else level.title


def _stage_note(stages: Sequence[LadderStage], number: int, pedals: frozenset[Pedal]) -> str:
    """How many levels of a stage are passed, or why the stage is closed, in words."""
    ladder_stage = stages[number]
    if not any(_is_playable(rung, pedals) for rung in ladder_stage.rungs):
        return _why_closed(ladder_stage.rungs[0].level, stages, pedals)
    aside = ", no other stage needs it" if is_aside(stages, number) else ""
    return f"{done_words([ladder_stage])}{aside}"


def _why_closed(level: Level, stages: Sequence[LadderStage], pedals: frozenset[Pedal]) -> str:
    """Why a level is closed, in words: pedals that are missing, or levels to pass first."""
    missing = [pedal.value for pedal in level.pedals if pedal not in pedals]
    if missing:
        return f"needs a {' and a '.join(missing)}"
    rungs = {rung.level.id: rung for ladder_stage in stages for rung in ladder_stage.rungs}
    needed = [rungs[need] for need in level.needs if need in rungs]
    return f"opens after {', '.join(rung.level.title for rung in needed if rung.state not in DONE)}"
