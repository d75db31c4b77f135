"""Home: today, the streaks, the next level, and one obvious thing to do."""

from __future__ import annotations

from enum import Enum

from drills.level import Level
from engine.practice.results import Standing
from engine.screens import theme, widgets
from engine.screens.base import Choice, Menu
from engine.screens.canvas import Canvas
from engine.screens.widgets import Figure
from engine.stage.actions import Action


class Go(Enum):
    """Where to go from home."""

    LEVELS = "levels"
    PEDALS = "pedals"
    SOUND = "sound"
    DEMO = "demo"
    QUIT = "quit"
    AGAIN = "again"
    """Pedals came or went: what home says may have changed."""


class Home(Menu[Level | Go]):
    """Ends with the level to practise, or where to go."""

    name = "home"
    back_word = "leave"

    def __init__(
        self,
        standing: Standing,
        following: Level,
        *,
        passed: int,
        levels: int,
        pedals: str,
        sound: str,
    ) -> None:
        """`following` is what to practise next; `passed` of `levels` are passed.

        `pedals` says in a few words what is played with, `sound` how loud it is.
        """
        choices: list[Choice[Level | Go]] = [
            Choice(f"Practise: {following.title}", following),
            Choice("Choose a level", Go.LEVELS, f"{passed} of {levels} passed"),
            Choice("Set up the pedals", Go.PEDALS, pedals),
            Choice("Sound and light", Go.SOUND, sound),
            Choice("Watch the demo", Go.DEMO, "a simulated foot plays a set"),
            Choice("Leave", Go.QUIT),
        ]
        super().__init__(choices, back=Go.QUIT)
        self._standing = standing
        self._following = following

    def on_action(self, action: Action) -> None:
        """Choose; brake and throttle together do not end the game from here."""
        if action is not Action.MENU:
            super().on_action(action)

    def on_devices(self, *, cut: bool) -> None:
        """Look again at what there is to play with."""
        self.outcome = Go.AGAIN

    def picture(self, canvas: Canvas) -> None:
        """The mark, the figures and the next level."""
        standing = self._standing
        canvas.text("stillfoot", (theme.MARGIN, 84), theme.HUGE * 0.8)
        widgets.level(canvas, (theme.WIDTH - theme.MARGIN - 200, 122), 400, 0.0)
        row = [
            Figure("Today", f"{standing.clean_today} of {standing.today}", "repetitions clean"),
            Figure("In a row", f"{standing.clean_row}", "clean repetitions"),
            Figure("Days", f"{standing.days_row}", "practised in a row"),
        ]
        widgets.figures(canvas, (theme.MARGIN, 226), theme.WIDTH - 2 * theme.MARGIN, row)
        canvas.text("Next", (theme.MARGIN, 400), theme.SMALL, theme.QUIET)
        width = theme.WIDTH - 2 * theme.MARGIN
        canvas.text(self._following.purpose, (theme.MARGIN, 442), theme.BODY, width=width)
