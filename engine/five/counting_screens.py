"""Screens of the session of counting: the offer before it, and what counting costs after it."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from enum import Enum

from drills.level import Level
from drills.number_words import number_words
from engine.drill.cost_chart import cost_chart
from engine.drill.cost_words import QUESTION, answers_words, beside_words, lead_words
from engine.five.counting_plan import PAIRS
from engine.five.day_end import Done
from engine.kit import theme
from engine.kit.area import Area
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Canvas
from engine.kit.opening import draw_opening
from engine.practice.counting_cost import LEAST, CostOverTime

TODAY = "Today: does it go by itself?"
"""Heading of the offer."""
OFFER = "Count the high knocks while you blip."
"""What the session asks, in a sentence."""
ABOUT = f"{number_words(PAIRS).capitalize()} pairs of blips, one of each while counting."
"""What the session is made of, in a sentence."""
STEAD = "Once a week, in place of the warm-up."
"""Why the session comes, in a sentence."""
WAITS = "Old repetitions are being measured again: no cost yet."
"""What stands in place of the cost while the history is remeasured."""
PICTURE = 24
"""Gap between the words and the chart, in canvas units."""
DOT, PITCH = 20.0, 96.0
"""Radius of the mark of a pair and distance to the next, in canvas units."""


class WarmUpChoice(Enum):
    """What the player plays before driving: a session of counting, the warm-up, or nothing."""

    COUNTING = "counting"
    WARM_UP = "warm-up"
    HOME = "home"


class CountingOffer(Menu[WarmUpChoice]):
    """Offer of a session of counting in place of today's warm-up."""

    name = "counting offer"
    back_word = "home"
    in_a_bar = True

    def __init__(self, level: Level) -> None:
        """`level` is the one that is played."""
        choices = [
            Choice("Begin", WarmUpChoice.COUNTING),
            Choice("Usual warm-up", WarmUpChoice.WARM_UP),
            Choice("Home", WarmUpChoice.HOME),
        ]
        super().__init__(choices, back=WarmUpChoice.HOME)
        self._level = level

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the choices, and the level that is played."""
        return {**super().details(), "level": self._level.id}

    def picture(self, canvas: Canvas) -> None:
        """Draw what the session asks and why, and a pair of marks for each of its pairs."""
        y = draw_opening(canvas, TODAY, OFFER, f"{ABOUT} {STEAD}")
        middle = (y + self.choices_top) / 2
        for number in range(PAIRS):
            x = theme.WIDTH / 2 + (number - (PAIRS - 1) / 2) * 2 * PITCH
            canvas.disc((x - PITCH / 4, middle), DOT, theme.BRAKE)
            canvas.disc((x + PITCH / 4, middle), DOT, theme.BRAKE, 5)


class CountingEnd(Menu[Done]):
    """Screen at the end of a session of counting; its outcome is leaving the game or home."""

    name = "counted"
    back_word = "home"
    in_a_bar = True

    def __init__(self, cost: CostOverTime | None, today: date) -> None:
        """`cost` is what counting costs; None while the history is remeasured."""
        choices = [Choice("Leave", Done.LEAVE), Choice("Home", Done.HOME)]
        super().__init__(choices, back=Done.HOME)
        self._cost = cost
        self._today = today

    @property
    def lead(self) -> str:
        """The sentence that says what counting costs, or why it is not told yet."""
        if self._cost is None:
            return WAITS
        return lead_words(self._cost) or f"Too early to say: no pair yet of {LEAST}."

    @property
    def more(self) -> str:
        """What it cost before, or what would be found; then how well was counted."""
        if self._cost is None:
            return ""
        beside = beside_words(self._cost, self._today)
        return " ".join(filter(None, (beside, answers_words(self._cost))))

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the choices and what is said."""
        pairs = 0 if self._cost is None else self._cost.pairs
        return {**super().details(), "lead": self.lead, "more": self.more, "pairs": pairs}

    def picture(self, canvas: Canvas) -> None:
        """Draw what counting costs and its chart, or a mark for each pair that it waits for."""
        top = draw_opening(canvas, QUESTION, self.lead, self.more) + PICTURE
        if self._cost is None:
            return
        foot = self.choices_top - PICTURE
        area = Area(float(theme.MARGIN), top, theme.ACROSS, foot - top)
        if self._cost.now is not None:
            cost_chart(canvas, area, self._cost, self._today)
            return
        for number in range(LEAST):
            x = theme.WIDTH / 2 + (number - (LEAST - 1) / 2) * PITCH
            line = 0 if number < self._cost.pairs else 4
            colour = theme.FAINT if line else theme.BRAKE
            canvas.disc((x, area.top + area.height / 2), DOT, colour, line)
