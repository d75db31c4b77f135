"""Home and More: the screens with the two menus of entries."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping, Sequence

from drills.trace import Sample
from engine.five.steadiness_words import waiting_words
from engine.five.streak_rows import has_any, rows
from engine.game.entry import LEAVE, LOOK_AGAIN, Entry
from engine.game.facts import Facts
from engine.kit import theme, widgets
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.kit.steadiness_chart import steadiness_chart, steadiness_figure
from engine.ladder.climb_picture import ClimbArea, climb_picture
from engine.practice.remeasuring import Remeasuring
from engine.stage.actions import Action

NAME_TOP = 34
"""Top of the name of the game on home, in canvas units."""
BESIDE = 210
"""Left of the words beside the name of the game, from its own left, in canvas units."""
BESIDE_WIDTH = 430
"""Room for the words beside the name of the game, in canvas units."""
STEADINESS_TOP = 112
"""Top of the steadiness figure on home, in canvas units."""
STEADINESS_WIDTH = 620
"""Width of the steadiness figure and its explanation on home, in canvas units."""
WAITS_WIDTH = 1100
"""Width of the lines that say how far the history is remeasured, in canvas units."""
CHART_AT = (740.0, 30.0)
"""Left and top of the steadiness chart on home, in canvas units."""
CHART_SIZE = (470.0, 320.0)
"""Width and height of the steadiness chart on home, in canvas units."""
STREAKS_AT = (1270.0, 30.0)
"""Left and top of the streaks in days and clean repetitions on home, in canvas units."""
CLIMB_TOP_ALONE = 130
"""Top of the picture of the ladder on a home without streaks to show, in canvas units."""
CLIMB_TOP = 322
"""Top of the picture of the ladder on a home with streaks above it, in canvas units."""


class Home(Menu[Entry]):
    """Home screen with steadiness, streaks and ladder. Its outcome is the chosen entry."""

    name = "home"
    back_word = "leave"

    def __init__(
        self,
        facts: Facts,
        choices: Sequence[Choice[Entry]],
        remeasuring: Callable[[], Remeasuring | None] | None = None,
    ) -> None:
        """`choices` are those of the entries on offer now.

        `remeasuring` tells how far the history is remeasured while this screen is shown; without
        it that stays as it is in the facts.
        """
        super().__init__(choices, back=LEAVE)
        self.beside = 4 if facts.five else 3
        self._facts = facts
        self._remeasuring = remeasuring or (lambda: facts.remeasuring)

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the choices, the session's forecast, and whose game it is."""
        facts = self._facts
        says = {} if facts.remeasuring is None else {"remeasuring": facts.remeasuring.words}
        return {**super().details(), "five": facts.five, "player": facts.player, **says}

    def appearance(self) -> Hashable:
        """State that the drawn home depends on: that of the menu, and how far is remeasured."""
        return super().appearance(), self._remeasuring()

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """End when the history is remeasured, so that home is shown with all there is to tell."""
        if self._facts.remeasuring is not None and self._remeasuring() is None:
            self.outcome = LOOK_AGAIN

    def on_action(self, action: Action) -> None:
        """Choose an entry; ignore brake and throttle together, which would leave the game."""
        if action is not Action.MENU:
            super().on_action(action)

    def on_devices(self, *, cut: bool) -> None:
        """End when devices come or go, so that the pedals are looked for again."""
        self.outcome = LOOK_AGAIN

    def picture(self, canvas: Canvas) -> None:
        """Draw the mark of the game, the steadiness, the streaks and the ladder."""
        facts = self._facts
        canvas.text("stillfoot", (theme.MARGIN, NAME_TOP), theme.LARGE * 0.8)
        beside = "" if facts.pedals == "ready" else facts.pedals
        if facts.player:
            beside = f"{facts.player}, {beside}" if beside else facts.player
        if beside:
            words = canvas.cut(beside, BESIDE_WIDTH, theme.SMALL)
            canvas.text(words, (theme.MARGIN + BESIDE, NAME_TOP + 16), theme.SMALL, theme.QUIET)
        else:
            widgets.level(canvas, (theme.MARGIN + 300, NAME_TOP + 32), 180, 0.0)
        corner = (theme.MARGIN, STEADINESS_TOP)
        waits = self._remeasuring()
        if waits is not None:
            canvas.text(waits.words, corner, theme.SMALL, theme.QUIET, width=WAITS_WIDTH)
        elif facts.steadiness is not None:
            steadiness_figure(canvas, corner, STEADINESS_WIDTH, facts.steadiness)
            label = theme.SMALL if self.means.label else 0
            (x, y), (width, height) = CHART_AT, CHART_SIZE
            steadiness_chart(canvas, (x, y + label), (width, height - label), facts.steadiness)
        elif facts.five:
            words = f"Steadiness: {waiting_words(facts.blips)} so far"
            canvas.text(words, corner, theme.SMALL, theme.QUIET)
        has_streaks = has_any(facts.streaks)
        if has_streaks:
            width = theme.WIDTH - theme.MARGIN - STREAKS_AT[0]
            rows(canvas, STREAKS_AT, width, facts.streaks)
        top = CLIMB_TOP if has_streaks else CLIMB_TOP_ALONE
        area = ClimbArea(top, self.choices_top - 24)
        climb_picture(canvas, area, facts.stages, facts.following)


class More(Menu[Entry]):
    """Menu of entries that are needed only now and then. Its outcome is the chosen entry."""

    name = "more"

    def __init__(self, choices: Sequence[Choice[Entry]]) -> None:
        """`choices` are those of the entries on offer now."""
        super().__init__(choices, back=LOOK_AGAIN)

    def on_devices(self, *, cut: bool) -> None:
        """End when devices come or go, so that the pedals are looked for again."""
        self.outcome = LOOK_AGAIN

    def picture(self, canvas: Canvas) -> None:
        """Draw the heading of the menu."""
        title(canvas, "More")
