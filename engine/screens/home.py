"""Home: today, the streaks, the climb with the next level, and one obvious thing to do."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum

from drills.level import Level
from engine.practice.ladder import Flight
from engine.practice.results import Standing
from engine.screens import theme, widgets
from engine.screens.base import Choice, Menu
from engine.screens.canvas import Canvas
from engine.screens.climb import Area, climb_picture, done_words
from engine.stage.actions import Action

HEAD = 62
"""units from the top, where the name and the figures are."""
CLIMB = 150
"""units from the top, where the climb may begin."""


class Go(Enum):
    """Where to go from home."""

    PLACE = "place"
    """Find the stage to begin at."""
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
        flights: Sequence[Flight],
        *,
        pedals: str,
        sound: str,
        placing: bool = False,
    ) -> None:
        """`following` is what to practise next, `flights` the stages as they stand.

        `pedals` says in a few words what is played with, `sound` how loud it is. `placing` offers
        to find the stage to begin at.
        """
        place = Choice[Level | Go](
            "Find my place", Go.PLACE, "up to 12 repetitions, stage by stage"
        )
        choices: list[Choice[Level | Go]] = [
            Choice(f"Practise: {following.title}", following, following.purpose),
            *([place] if placing else []),
            Choice("Choose a level", Go.LEVELS, done_words(flights)),
            Choice("Set up the pedals", Go.PEDALS, pedals),
            Choice("Sound and light", Go.SOUND, sound),
            Choice("Watch the demo", Go.DEMO, "a simulated foot plays a set"),
            Choice("Leave", Go.QUIT),
        ]
        super().__init__(choices, back=Go.QUIT)
        self._standing = standing
        self._following = following
        self._flights = tuple(flights)

    def on_action(self, action: Action) -> None:
        """Choose; brake and throttle together do not end the game from here."""
        if action is not Action.MENU:
            super().on_action(action)

    def on_devices(self, *, cut: bool) -> None:
        """Look again at what there is to play with."""
        self.outcome = Go.AGAIN

    def picture(self, canvas: Canvas) -> None:
        """The mark, the figures and the climb."""
        standing = self._standing
        canvas.text("stillfoot", (theme.MARGIN, HEAD), theme.LARGE)
        widgets.level(canvas, (theme.MARGIN + 380, HEAD + 32), 240, 0.0)
        figures = (
            ("Days in a row", f"{standing.days_row}"),
            ("Clean in a row", f"{standing.clean_row}"),
            ("Clean today", f"{standing.clean_today} of {standing.today}"),
        )
        right = float(theme.WIDTH - theme.MARGIN)
        for name, value in figures:
            canvas.text(value, (right, HEAD), theme.LARGE, align="right")
            right -= canvas.measure(value, theme.LARGE) + 20
            canvas.text(name, (right, HEAD + 26), theme.SMALL, theme.QUIET, "right")
            right -= canvas.measure(name, theme.SMALL) + 60
        area = Area(CLIMB, self.choices_top - 24)
        climb_picture(canvas, area, self._flights, self._following)
