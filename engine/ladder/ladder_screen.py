"""Screen of the climb, from which the player practises the next level or enters a stage."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence

import pygame

from drills.capitals import capitalised
from drills.level import Level
from engine.kit import theme, widgets
from engine.kit.base import Choice, Menu
from engine.kit.buttons import draw_buttons, in_bar
from engine.kit.canvas import Canvas
from engine.ladder.climb_picture import ClimbArea, climb_picture, is_aside, underline
from engine.ladder.ladder import LadderStage, State, stage_of
from engine.ladder.ladder_words import (
    FIND_PLACE,
    LATER,
    NEXT,
    PLACING,
    done_words,
    why_closed,
)
from engine.ladder.level_list import Instead, describe, heading, is_playable
from engine.ladder.placing import MOST
from engine.ladder.state_marks import draw_state
from engine.practice.passes import ALL_PEDALS

LEGEND_TOP = 326
"""Top of the legend of the level marks, in canvas units."""
LEGEND_LINE = 48
"""Distance from one line of the legend to the next, in canvas units."""
LEGEND_GAP = 40
"""Gap between two marks of the legend with their words, in canvas units."""
CLIMB_TOP = 440
"""Top of the picture of the climb, in canvas units."""
ABOVE_BAR = 26
"""Gap between the climb and the bar of choices, in canvas units."""

Outcome = LadderStage | Level | Instead


class Ladder(Menu[Outcome]):
    """Climb on which a level or a stage is selected; its outcome is that, or going back.

    The level to practise next is selected at first, and the stages around it are a tap away. A
    closed stage says why it is closed.
    """

    name = "ladder"
    in_a_bar = True

    def __init__(
        self,
        stages: Sequence[LadderStage],
        following: Level,
        pedals: frozenset[str] = ALL_PEDALS,
        begin: LadderStage | None = None,
        *,
        placing: bool = False,
        lucky: frozenset[str] = frozenset(),
    ) -> None:
        """`following` is the level to practise next, `pedals` are those of the rig.

        `begin` is the stage selected at first, `following` is where it is None. `placing`: whether
        a placing set is offered; `lucky` are the ids of levels that are partly luck.
        """
        stands = stage_of(stages, following)
        walked: list[Choice[Outcome]] = [Choice(one.name, one) for one in stages]
        buttons: list[Choice[Outcome]] = [Choice("Practise", following)]
        if placing:
            buttons.append(Choice(FIND_PLACE, Instead.FIND_PLACE))
        back: Choice[Outcome] = Choice("Back", Instead.HOME)
        super().__init__([*walked[:stands], *buttons, *walked[stands:], back], back=Instead.HOME)
        self._bar = [*buttons, back]
        self._stages = tuple(stages)
        self._following = following
        self._pedals = pedals
        self._is_luck = following.id in lucky
        self._selected = self._described = self._index_of(following if begin is None else begin)

    def details(self) -> Mapping[str, object]:
        """Labels of the choices, index of the selected one, and next level, for the events file."""
        return {**super().details(), "selected": self._selected, "next": self._following.id}

    def appearance(self) -> Hashable:
        """State that the drawn ladder depends on: that of the menu, and the selected choice."""
        return super().appearance(), self._selected

    def choose(self, choice: Choice[Outcome]) -> None:
        """End the screen with a choice, unless it is a stage without a level to play."""
        if not isinstance(choice.outcome, LadderStage) or self._can_enter(choice.outcome):
            super().choose(choice)

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw the climb with the selected stage marked, what is selected in words, and the bar."""
        if self._choices[self._selected].outcome is not Instead.HOME:
            self._described = self._selected
        self._describe(canvas, self._choices[self._described].outcome)
        self._legend(canvas)
        area = ClimbArea(CLIMB_TOP, self.choices_top - ABOVE_BAR)
        selected = self._choices[self._selected]
        marked = next(
            (place for place, one in enumerate(self._stages) if one is selected.outcome), None
        )
        steps = climb_picture(canvas, area, self._stages, self._following, marked)
        number = self._bar.index(selected) if selected in self._bar else -1
        labels = [(choice.label, choice.note) for choice in self._bar]
        placed = in_bar(canvas, labels, leaves=True)
        places = draw_buttons(canvas, placed, number, press)
        self._places = self._in_order(steps, places)
        widgets.foot(canvas, self.hint)

    def _index_of(self, outcome: Outcome) -> int:
        """Index of the choice with this outcome."""
        return [choice.outcome for choice in self._choices].index(outcome)

    def _in_order(
        self, steps: Sequence[pygame.Rect], bar: Sequence[pygame.Rect]
    ) -> list[pygame.Rect]:
        """Pixels of all choices in their order: steps of stages, and buttons of the bar."""
        on_steps, on_bar = iter(steps), iter(bar)
        return [
            next(on_steps if isinstance(choice.outcome, LadderStage) else on_bar)
            for choice in self._choices
        ]

    def _can_enter(self, ladder_stage: LadderStage) -> bool:
        """Whether any level of a stage can be played with the pedals of the rig."""
        return any(is_playable(rung, self._pedals) for rung in ladder_stage.rungs)

    def _describe(self, canvas: Canvas, outcome: Outcome) -> None:
        """Write what is selected: a level with its purpose and limit, or a stage and its state."""
        if isinstance(outcome, Level):
            describe(canvas, outcome, heading(canvas, outcome.title), self._is_luck)
            return
        name, words = FIND_PLACE, PLACING.format(most=MOST)
        if isinstance(outcome, LadderStage):
            name, words = capitalised(outcome.name), self._stage_words(outcome)
        y = heading(canvas, name)
        width = theme.WIDTH - 2 * theme.MARGIN
        canvas.text(words, (theme.MARGIN, y), theme.BODY, width=width)

    def _stage_words(self, ladder_stage: LadderStage) -> str:
        """How many levels of a stage are passed, or why the stage is closed, in words."""
        if not self._can_enter(ladder_stage):
            why = why_closed(ladder_stage.rungs[0].level, self._stages, self._pedals)
            return f"{capitalised(why)}."
        number = self._stages.index(ladder_stage)
        aside = ", no other stage needs it" if is_aside(self._stages, number) else ""
        return f"{done_words([ladder_stage])}{aside}."

    def _legend(self, canvas: Canvas) -> None:
        """Draw the legend of the marks that are on the climb, in as many lines as it takes."""
        drawn = {rung.state for ladder_stage in self._stages for rung in ladder_stage.rungs}
        x, y = float(theme.MARGIN), float(LEGEND_TOP)
        for state in [*(state for state in State if state in drawn), None]:
            words = NEXT if state is None else f"{state.value}{LATER.get(state, '')}"
            width = canvas.measure(words, theme.SMALL) + LEGEND_GAP
            if x + width > theme.WIDTH - theme.MARGIN:
                x, y = float(theme.MARGIN), y + LEGEND_LINE
            if state is None:
                underline(canvas, (x + 14, y))
            else:
                draw_state(canvas, (x + 14, y + 16), state, theme.QUIET)
            canvas.text(words, (x + LEGEND_GAP, y), theme.SMALL, theme.QUIET)
            x += width + 34
