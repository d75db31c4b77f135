"""Home: the one number to watch, the rows, the climb, and one obvious thing to do."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum

from drills.level import Level
from engine.five.streak_rows import has_any, rows
from engine.kit import theme, widgets
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Canvas
from engine.kit.steadiness_chart import SOME, BandShown, band, band_days
from engine.ladder.climb_picture import Area, climb_picture, done_words
from engine.ladder.ladder import Flight
from engine.practice.results import Standing
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
NOT_YET = f"How steady you are shows after some {SOME} steadiness blips"


class Go(Enum):
    """Where to go from home."""

    FIVE = "five"
    """Five minutes that run by themselves."""
    WARM_UP = "warm-up"
    PLACE = "place"
    """Find the stage to begin at."""
    LEVELS = "levels"
    HISTORY = "history"
    """How practice went on."""
    TRIAL = "trial"
    """Two foot positions, fairly compared."""
    MORE = "more"
    """What is needed now and then."""
    PEDALS = "pedals"
    SOUND = "sound"
    RECORD = "record"
    """Record a drive."""
    DEMO = "demo"
    QUIT = "quit"
    AGAIN = "again"
    """Pedals came or went, or nothing was chosen: what home says may have changed."""


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
        five: str,
        steadiness: BandShown | None,
        blips: int = 0,
        pedals: str,
        placing: bool = False,
        trial: str = "",
    ) -> None:
        """`following` is what to practise next, `flights` the stages as they stand.

        `five` says what the five minutes will be; it is empty in a try-out, which has none and
        of which no history is kept.
        `steadiness` is None before there is a band, which takes some `blips`. `pedals` says in a
        few words what is played with, "ready" where there is nothing to say. `placing` offers to
        find the stage to begin at. `trial` says how far the one under way is; it is empty where
        none is.
        """
        by_itself: list[Choice[Level | Go]] = [
            Choice("Five minutes", Go.FIVE, five),
            Choice("Warm-up", Go.WARM_UP, "two to three minutes, before driving"),
        ]
        place = Choice[Level | Go](
            "Find my place", Go.PLACE, "up to 12 repetitions, stage by stage"
        )
        on = Choice[Level | Go]("Go on with the trial", Go.TRIAL, trial)
        choices: list[Choice[Level | Go]] = [
            *(by_itself if five else []),
            *([on] if trial else []),
            Choice(f"Practise: {following.title}", following, following.purpose),
            *([place] if placing else []),
            Choice("Choose a level", Go.LEVELS, done_words(flights)),
            *([Choice[Level | Go]("History", Go.HISTORY)] if five else []),
            Choice("More", Go.MORE),
            Choice("Leave", Go.QUIT),
        ]
        super().__init__(choices, back=Go.QUIT)
        self.beside = 4 if five else 3
        self._standing = standing
        self._following = following
        self._flights = tuple(flights)
        self._five = five
        self._steadiness = steadiness
        self._blips = blips
        self._pedals = pedals

    def details(self) -> Mapping[str, object]:
        """The labels of the choices, and what the five minutes will be."""
        return {**super().details(), "five": self._five}

    def on_action(self, action: Action) -> None:
        """Choose; brake and throttle together do not end the game from here."""
        if action is not Action.MENU:
            super().on_action(action)

    def on_devices(self, *, cut: bool) -> None:
        """Look again at what there is to play with."""
        self.outcome = Go.AGAIN

    def picture(self, canvas: Canvas) -> None:
        """The mark, the band, the rows and the climb."""
        canvas.text("stillfoot", (theme.MARGIN, HEAD), theme.LARGE * 0.8)
        if self._pedals == "ready":
            widgets.level(canvas, (theme.MARGIN + 300, HEAD + 32), 180, 0.0)
        else:
            beside = (theme.MARGIN + 210, HEAD + 16)
            canvas.text(self._pedals, beside, theme.SMALL, theme.QUIET)
        if self._steadiness is not None:
            band(canvas, (theme.MARGIN, BAND), BAND_WIDTH, self._steadiness)
            label = theme.SMALL if self.means.label else 0
            (x, y), (width, height) = DAYS, DAYS_SIZE
            band_days(canvas, (x, y + label), (width, height - label), self._steadiness)
        elif self._five:
            canvas.text(not_yet(self._blips), (theme.MARGIN, BAND), theme.SMALL, theme.QUIET)
        begun = has_any(self._standing)
        if begun:
            rows(canvas, ROWS, theme.WIDTH - theme.MARGIN - ROWS[0], self._standing)
        area = Area(CLIMB if begun else FIRST_CLIMB, self.choices_top - 24)
        climb_picture(canvas, area, self._flights, self._following)


def not_yet(blips: int) -> str:
    """How far it is to the steadiness band, after so many blips of it."""
    if not blips:
        return NOT_YET
    if blips >= SOME:
        return "How steady you are shows soon"
    return f"{NOT_YET}: {blips} so far"
