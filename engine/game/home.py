"""Home and More: the two menus of entries."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from engine.five.streak_rows import has_any, rows
from engine.game.entry import LEAVE, LOOK_AGAIN, Entry
from engine.game.facts import Facts
from engine.kit import theme, widgets
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.kit.steadiness_chart import FIRST_AFTER, steadiness_chart, steadiness_figure
from engine.ladder.climb_picture import ClimbArea, climb_picture
from engine.stage.actions import Action

HEAD = 34
"""units from the top, where the name is."""
BAND = 112
"""units from the top, where the band begins."""
BAND_WIDTH = 620
"""units across, of the number and what it means."""
DAYS = (740.0, 30.0)
"""units from the left and the top, where the picture of the band begins."""
DAYS_SIZE = (470.0, 320.0)
"""units across and down, of it."""
ROWS = (1270.0, 30.0)
"""units from the left and the top, where the rows begin."""
FIRST_CLIMB = 130
"""units from the top, where the climb may begin while nothing else is shown."""
CLIMB = 322
"""units from the top, where it may else."""
NOT_YET = f"How steady you are shows after some {FIRST_AFTER} steadiness blips"


class Home(Menu[Entry]):
    """Ends with the entry that was chosen."""

    name = "home"
    back_word = "leave"

    def __init__(self, facts: Facts, choices: Sequence[Choice[Entry]]) -> None:
        """`choices` are the entries that are offered now."""
        super().__init__(choices, back=LEAVE)
        self.beside = 4 if facts.five else 3
        self._facts = facts

    def details(self) -> Mapping[str, object]:
        """The labels of the choices, and what the five minutes will be."""
        return {**super().details(), "five": self._facts.five}

    def on_action(self, action: Action) -> None:
        """Choose; brake and throttle together do not end the game from here."""
        if action is not Action.MENU:
            super().on_action(action)

    def on_devices(self, *, cut: bool) -> None:
        """Look again at what there is to play with."""
        self.outcome = LOOK_AGAIN

    def picture(self, canvas: Canvas) -> None:
        """The mark, the band, the rows and the climb."""
        canvas.text("stillfoot", (theme.MARGIN, HEAD), theme.LARGE * 0.8)
        if self._facts.pedals == "ready":
            widgets.level(canvas, (theme.MARGIN + 300, HEAD + 32), 180, 0.0)
        else:
            beside = (theme.MARGIN + 210, HEAD + 16)
            canvas.text(self._facts.pedals, beside, theme.SMALL, theme.QUIET)
        if self._facts.steadiness is not None:
            steadiness_figure(canvas, (theme.MARGIN, BAND), BAND_WIDTH, self._facts.steadiness)
            label = theme.SMALL if self.means.label else 0
            (x, y), (width, height) = DAYS, DAYS_SIZE
            steadiness_chart(
                canvas, (x, y + label), (width, height - label), self._facts.steadiness
            )
        elif self._facts.five:
            canvas.text(not_yet(self._facts.blips), (theme.MARGIN, BAND), theme.SMALL, theme.QUIET)
        begun = has_any(self._facts.streaks)
        if begun:
            rows(canvas, ROWS, theme.WIDTH - theme.MARGIN - ROWS[0], self._facts.streaks)
        area = ClimbArea(CLIMB if begun else FIRST_CLIMB, self.choices_top - 24)
        climb_picture(canvas, area, self._facts.stages, self._facts.following)


def not_yet(blips: int) -> str:
    """How far it is to the steadiness band, after so many blips of it."""
    if not blips:
        return NOT_YET
    if blips >= FIRST_AFTER:
        return "How steady you are shows soon"
    return f"{NOT_YET}: {blips} so far"


class More(Menu[Entry]):
    """Ends with the entry that was chosen."""

    name = "more"

    def __init__(self, choices: Sequence[Choice[Entry]]) -> None:
        """`choices` are the entries that are offered now."""
        super().__init__(choices, back=LOOK_AGAIN)

    def on_devices(self, *, cut: bool) -> None:
        """Look again at what there is to play with."""
        self.outcome = LOOK_AGAIN

    def picture(self, canvas: Canvas) -> None:
        """Only the heading."""
        title(canvas, "More")
