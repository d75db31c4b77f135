"""Home and More: the screens with the two menus of entries."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from dataclasses import replace

from drills.trace import Sample
from engine.game import home_figure, home_words
from engine.game.entry import LEAVE, LOOK_AGAIN, Entry
from engine.game.facts import Facts
from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.kit.settling import SettlingMenu
from engine.kit.typeface import Weight
from engine.ladder.climb_picture import LIFT, ClimbArea, climb_picture
from engine.ladder.rise import Rise
from engine.practice.remeasuring import Remeasuring
from engine.stage.actions import Action

NAME_TOP = 62
"""Top of the name of the game on home, in canvas units."""
NAME_SIZE = 64
"""Height of the name of the game on home, in canvas units."""
WAITS_TOP = 196
"""Top of the words that say how far the history is remeasured, in canvas units."""
LINES = ((412, 1160), (466, 880))
"""Top of each quiet line of home and its width before the climb begins, in canvas units."""
CORNER = 1240
"""Width of the quiet words beside the name of the game, in canvas units."""
BESIDE = 60
"""Gap between whose game it is and the clean repetitions beside it, in canvas units."""
CLIMB_TOP = 440
"""Top of the picture of the ladder on home, in canvas units."""
ABOVE_BAR = 26
"""Gap between the climb and the bar of choices, in canvas units."""
MOVING_AREA = (
    (0.0, CLIMB_TOP - LIFT),
    (float(theme.WIDTH), theme.BAR - ABOVE_BAR - CLIMB_TOP + LIFT),
)
"""Corner and size of the area in which the climb moves, in canvas units."""
NOTE_ROOM = 262
"""Room for the note of Five minutes, in canvas units: the choices stand alike on every day."""


class Home(SettlingMenu[Entry]):
    """Home screen with steadiness, streaks and ladder. Its outcome is the chosen entry."""

    name = "home"
    back_word = "leave"
    in_a_bar = True
    moving_area = MOVING_AREA

    def __init__(
        self,
        facts: Facts,
        choices: Sequence[Choice[Entry]],
        remeasuring: Callable[[], Remeasuring | None] | None = None,
        rise: Rise | None = None,
    ) -> None:
        """`choices` are those of the entries on offer now.

        `rise` is what moved on the climb since home was last shown; None if nothing did.

        `remeasuring` tells how far the history is remeasured while this screen is shown; without
        it that stays as it is in the facts.
        """
        super().__init__(choices, back=LEAVE, has_motion=rise is not None)
        self.note_room = NOTE_ROOM if facts.five else 0.0
        self._facts = facts
        self._remeasuring = remeasuring or (lambda: facts.remeasuring)
        self._rise = rise

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
        super().on_sample(sample, now)
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
        """Draw how steady the player is, the quiet lines, and where on the climb they stand."""
        facts = self._facts
        name = (theme.MARGIN, NAME_TOP)
        canvas.text("stillfoot", name, NAME_SIZE, weight=Weight.BOLD)
        pedals = "" if facts.pedals == "ready" or not facts.five else facts.pedals
        whose = ", ".join(filter(None, [facts.player, pedals]))
        right, y = float(theme.WIDTH - theme.MARGIN), NAME_TOP + 12
        canvas.text(whose, (right, y), theme.SMALL, theme.QUIET, "right")
        taken = canvas.measure(whose, theme.SMALL) + BESIDE if whose else 0.0
        clean = _fitting(canvas, home_words.clean_line(facts.streaks), CORNER - taken)
        canvas.text(clean, (right - taken, y), theme.SMALL, theme.QUIET, "right")
        self._figure(canvas)
        for (top, width), words in zip(LINES, self._lines(), strict=True):
            line = _fitting(canvas, words, width)
            canvas.text(line, (theme.MARGIN, top), theme.SMALL, theme.QUIET)
        area = ClimbArea(CLIMB_TOP, self.choices_top - ABOVE_BAR)
        rise = None if self._rise is None else replace(self._rise, share=self.share)
        climb_picture(canvas, area, facts.stages, facts.following, rise=rise)

    def _figure(self, canvas: Canvas) -> None:
        """Draw the steadiness, or what will stand in its place and when."""
        facts, waits = self._facts, self._remeasuring()
        if waits is not None:
            width = theme.WIDTH - 2 * theme.MARGIN
            canvas.text(waits.words, (theme.MARGIN, WAITS_TOP), theme.BODY, width=width)
        elif not facts.five:
            home_figure.draw_sentences(canvas, home_words.TRY_OUT, home_words.EVERY_LEVEL)
        elif facts.steadiness is not None and facts.today is not None:
            home_figure.draw_steadiness(canvas, facts.steadiness, facts.today)
        else:
            home_figure.draw_waiting(canvas, facts.blips)

    def _lines(self) -> tuple[Iterator[str], Iterator[str]]:
        """The quiet lines, each as wordings from the longest to the shortest.

        They tell of what matters most today, and of what today's session plays.
        """
        facts = self._facts
        first = home_words.first_line(
            facts.streaks, facts.focus, placing=facts.placing, warm_up_counts=facts.warm_up_counts
        )
        return first, home_words.plan_line(facts.five)


def _fitting(canvas: Canvas, wordings: Iterator[str], width: float) -> str:
    """First of several wordings that fits a width in canvas units; empty if none does."""
    return next((line for line in wordings if canvas.measure(line, theme.SMALL) <= width), "")


class More(Menu[Entry]):
    """Menu of entries that are needed only now and then. Its outcome is the chosen entry."""

    name = "more"
    list_top = theme.BELOW + 20

    def __init__(self, choices: Sequence[Choice[Entry]], begin: Entry | None = None) -> None:
        """`choices` are those of the entries on offer now; `begin` is selected at first, if given.

        Without it that is the first choice.
        """
        super().__init__(choices, back=LOOK_AGAIN)
        entries = [choice.outcome for choice in choices]
        self._selected = entries.index(begin) if begin in entries else 0

    def details(self) -> Mapping[str, object]:
        """Labels of the choices and the number of the selected one, for the events file."""
        return {**super().details(), "selected": self._selected}

    def on_devices(self, *, cut: bool) -> None:
        """End when devices come or go, so that the pedals are looked for again."""
        self.outcome = LOOK_AGAIN

    def picture(self, canvas: Canvas) -> None:
        """Draw the heading of the menu."""
        title(canvas, "More")
