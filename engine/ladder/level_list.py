"""Choosing a level: first its stage, by walking the ladder, then the level from a list."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum

import pygame

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
"""units from the top, where the climb may begin: its high steps are beside the heading."""
LEGEND = 220
"""units from the top, where it is said what the marks mean: over the lowest step."""

LATER = {
    State.RETAINED: ": clean again on a later day",
    State.WELL_RETAINED: ": and after a week too",
}
"""What a mark of another day means, after its word."""
LEGEND_LINE = 54
"""units, from one line of it to the next."""
LEGEND_ROOM = 384
"""units, from its top to where a shoe on the lowest step may be."""


class Back(Enum):
    """Where to go without a level."""

    HOME = "home"


class Ladder(Menu[LadderStage | Back]):
    """Ends with the stage chosen, or with going back; a stage that is closed says why."""

    name = "ladder"

    def __init__(
        self,
        stages: Sequence[LadderStage],
        following: Level,
        pedals: frozenset[Pedal] = ALL_PEDALS,
        begin: LadderStage | None = None,
    ) -> None:
        """`flights` are all stages; the walk begins at one of them, or where the player stands.

        That is the stage of `following`, the level to practise next. `pedals` are there.
        """
        choices: list[Choice[LadderStage | Back]] = [
            Choice(ladder_stage.name, ladder_stage, _note(stages, number, pedals))
            for number, ladder_stage in enumerate(stages)
        ]
        super().__init__([*choices, Choice("Back", Back.HOME)], back=Back.HOME)
        self._flights = tuple(stages)
        self._following = following
        self._pedals = pedals
        start = stage_of(stages, following) if begin is None else self._flights.index(begin)
        self._selected = self._stage = start
        self._row = pygame.Rect(0, 0, 0, 0)

    def details(self) -> Mapping[str, object]:
        """The labels of the choices, and which of them is selected."""
        return {**super().details(), "selected": self._selected}

    def choose(self, choice: Choice[LadderStage | Back]) -> None:
        """End with a stage that can be entered."""
        to = choice.outcome
        if to is Back.HOME or any(_is_playable(rung, self._pedals) for rung in to.rungs):
            super().choose(choice)

    def on_pointer(self, at: tuple[int, int], *, pressed: bool) -> None:
        """Select a step, or the stage that was selected last, and choose it when pressed."""
        if self._row.collidepoint(at):
            self._selected = self._stage
            if pressed:
                self.choose(self._choices[self._stage])
        super().on_pointer(at, pressed=pressed)

    def paint(self, canvas: Canvas, press: float) -> None:
        """The climb with the selected stage marked, its words under it, and the way back."""
        last = len(self._flights)
        if self._selected < last:
            self._stage = self._selected
        title(canvas, "Levels")
        self._legend(canvas)
        area = ClimbArea(CLIMB, widgets.choices_top(2) - 30)
        marked = self._selected if self._selected < last else None
        steps = climb_picture(canvas, area, self._flights, self._following, marked)
        rows = [self._choices[self._stage], self._choices[last]]
        labels = [(choice.label, choice.note) for choice in rows]
        self._row, back = widgets.choices(canvas, labels, int(self._selected == last), press)
        self._places = [*steps, back]
        widgets.foot(canvas, self.hint)

    def _legend(self, canvas: Canvas) -> None:
        """What the marks mean, as far as they are seen."""
        seen = {rung.state for ladder_stage in self._flights for rung in ladder_stage.rungs}
        states = [state for state in State if state in seen]
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
    """The levels of one stage: ends with the level chosen, or with going back."""

    name = "levels"

    def __init__(
        self,
        ladder_stage: LadderStage,
        stages: Sequence[LadderStage],
        pedals: frozenset[Pedal] = ALL_PEDALS,
        due: Mapping[str, str] | None = None,
    ) -> None:
        """`flight` is the stage, one of all `flights`; `pedals` are there.

        `due` says by the id of a level when it is to be shown again, such as "again tomorrow".
        """
        when = due or {}
        opened = [rung for rung in ladder_stage.rungs if _is_playable(rung, pedals)]
        self._closed = [
            f"{rung.level.title}: {_why(rung.level, stages, pedals)}"
            for rung in ladder_stage.rungs
            if rung not in opened
        ]
        choices: list[Choice[Level | Back]] = [
            Choice(rung.level.title, rung.level, _told(rung, when)) for rung in opened
        ]
        super().__init__([*choices, Choice("Back", Back.HOME)], back=Back.HOME)
        self._title = ladder_stage.name[:1].upper() + ladder_stage.name[1:]

    def picture(self, canvas: Canvas) -> None:
        """What is closed yet, and what opens it."""
        width = theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, canvas.cut(self._title, width, theme.LARGE))
        for text in self._closed:
            if y > self.choices_top - 50:
                return
            shown = canvas.fitted(text, width, theme.SMALL)
            y = canvas.text(shown, (theme.MARGIN, y), theme.SMALL, theme.QUIET) + 8


def _is_playable(rung: LadderLevel, pedals: frozenset[Pedal]) -> bool:
    """Whether a level can be chosen: what was passed with a pedal may lack it now."""
    return rung.state in (*DONE, State.OPEN) and pedals.issuperset(rung.level.pedals)


def _told(rung: LadderLevel, due: Mapping[str, str]) -> str:
    """What a level trains, after how it stands where it is done, and when it comes again."""
    if rung.state not in DONE:
        return rung.level.purpose
    stands = ", ".join(filter(None, [rung.state.value, due.get(rung.level.id, "")]))
    return f"{stands}: {rung.level.purpose}"


def _note(stages: Sequence[LadderStage], number: int, pedals: frozenset[Pedal]) -> str:
    """How much of a stage is passed, or why it is closed."""
    ladder_stage = stages[number]
    if not any(_is_playable(rung, pedals) for rung in ladder_stage.rungs):
        return _why(ladder_stage.rungs[0].level, stages, pedals)
    aside = ", no other stage needs it" if is_aside(stages, number) else ""
    return f"{done_words([ladder_stage])}{aside}"


def _why(level: Level, stages: Sequence[LadderStage], pedals: frozenset[Pedal]) -> str:
    """Why a level is closed."""
    missing = [pedal.value for pedal in level.pedals if pedal not in pedals]
    if missing:
        return f"needs a {' and a '.join(missing)}"
    rungs = {rung.level.id: rung for ladder_stage in stages for rung in ladder_stage.rungs}
    needed = [rungs[need] for need in level.needs if need in rungs]
    return f"opens after {', '.join(one.level.title for one in needed if one.state not in DONE)}"
