"""Screens of the health check: what comes, the led half minute, and what was found."""

from __future__ import annotations

import math
from collections.abc import Hashable, Mapping, Sequence
from enum import Enum

from drills.capitals import uncapitalised
from drills.health.pedal import BoundPedal, RawCounts
from drills.trace import Sample
from engine.kit import theme, widgets
from engine.kit.base import Choice, Menu, Screen, title
from engine.kit.canvas import Canvas
from engine.kit.statement import even_lines, statement
from engine.kit.typeface import Weight
from engine.setup.finding_screens import COLOURS
from engine.setup.health_course import CourseReader, asked_in
from engine.setup.health_words import COLUMNS, HealthWords
from engine.setup.search_screen import instruct
from engine.stage.actions import Action
from engine.stage.scene import Pace
from engine.stage.speaker import Speaker

COMING = "Press, hold and stab each pedal as the screen says."
AFTER = "Then you see which levels your pedals can show."
NOTHING = "Plug in the pedals that you set up."
DOT = 16
"""Radius of a dot of the countdown, in canvas units."""
DOTS_APART = 80
"""Distance from one dot of the countdown to the next, in canvas units."""
DOTS_AT = 660
"""Height of the countdown's dots, in canvas units."""
NEXT_TOP = 800
"""Top of the line that says what comes next, in canvas units."""
FOUND = "What your pedals can show"
COLUMNS_AT = (theme.MARGIN, 480, 860, 1300)
"""Left edges of the columns of the table of pedals, in canvas units."""
GAP = 14
"""Gap between two sentences about what was found, in canvas units."""


class HealthChoice(Enum):
    """What the player can choose on the screens of the health check."""

    BEGIN = "begin"
    DONE = "done"


class CheckEnd(Enum):
    """How the led half minute ended without a result; each holds the note that tells of it."""

    LEFT = ""
    GONE = "The pedals were unplugged. Plug them in and begin once more."
    UNFOCUSED = "Another window came to the front. This begins once more."
    TOO_LITTLE = "The pedals were read too seldom. Close what else is running."


class BeforeHealth(Menu[HealthChoice]):
    """Menu before the health check: what comes, or why it begins once more."""

    name = "before health"
    in_a_bar = True

    def __init__(self, *, possible: bool, note: str = "") -> None:
        """`possible` is whether pedals are there to check; `note` is why it begins once more."""
        begin = [Choice("Begin", HealthChoice.BEGIN, "30 seconds")] if possible else []
        super().__init__([*begin, Choice("Back", HealthChoice.DONE)], back=HealthChoice.DONE)
        self._lines = (COMING, AFTER) if possible else (NOTHING,)
        self._note = note

    def picture(self, canvas: Canvas) -> None:
        """Draw what comes."""
        statement(canvas, "What can my pedals show?", *self._lines, note=self._note)


class HealthCourse(Screen[RawCounts | CheckEnd]):
    """The led half minute: says what to do now, for how long, and what comes next.

    It is drawn once a second only, as nothing is read meanwhile.
    """

    name = "health course"

    def __init__(self, pedals: Sequence[BoundPedal], speaker: Speaker) -> None:
        """`speaker` clicks when something else is asked for."""
        super().__init__()
        self._reader = CourseReader(pedals)
        self._speaker = speaker
        self._part = self._reader.part

    @property
    def pace(self) -> Pace:
        """Live, so that the pedals are read as often as possible."""
        return Pace.LIVE

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the step of the course and its pedal."""
        part = self._reader.part
        pedal = {} if part.pedal is None else {"pedal": part.pedal.value}
        return {"step": part.step.value, **pedal}

    def on_action(self, action: Action) -> None:
        """Leave the health check."""
        if action in (Action.BACK, Action.MENU):
            self.outcome = CheckEnd.LEFT

    def on_focus(self, focused: bool, now: int) -> None:
        """End once another window has the focus: the player is not there to be led."""
        if not focused:
            self.outcome = CheckEnd.UNFOCUSED

    def on_devices(self, *, cut: bool) -> None:
        """End if the pedals were unplugged, even if they are back by now."""
        if cut:
            self.outcome = CheckEnd.GONE

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Read the pedals, and end when the course is over."""
        if sample is None:
            self.outcome = CheckEnd.GONE
            return
        self._reader.take(sample)
        if self._reader.is_over:
            self.outcome = self._reader.raw or CheckEnd.TOO_LITTLE
        elif self._reader.part is not self._part:
            self._part = self._reader.part
            self._speaker.count()

    @property
    def left(self) -> int:
        """Seconds until something else is asked for, rounded up."""
        return max(math.ceil(self._reader.part.ends - self._reader.seconds), 1)

    def appearance(self) -> Hashable:
        """State that the picture depends on: what is asked, and the seconds left for it."""
        return self._reader.part, self.left

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw what to do, the seconds left as dots, and what comes next."""
        part, following, middle = self._reader.part, self._reader.following, theme.WIDTH / 2
        asked = asked_in(part)
        colour = theme.QUIET if part.pedal is None else COLOURS[part.pedal]
        over = "all pedals" if part.pedal is None else part.pedal.value
        instruct(canvas, (over, colour), asked.short, [asked.how])
        count = math.ceil(part.lasts)
        left = middle - DOTS_APART * (count - 1) / 2
        for number in range(count):
            at = (left + DOTS_APART * number, DOTS_AT)
            if number < self.left:
                canvas.disc(at, DOT, theme.TEXT)
            else:
                canvas.disc(at, DOT, theme.FAINT, 3)
        if following is not None:
            words = f"next: {uncapitalised(asked_in(following).do)}"
            canvas.text(words, (middle, NEXT_TOP), theme.BODY, theme.QUIET, "centre")
        widgets.foot(canvas, "Brake and throttle for a second, or Esc: leave")


class HealthFound(Menu[HealthChoice]):
    """Menu after the health check: what the pedals can show, and which levels ask for more."""

    name = "health found"
    in_a_bar = True

    def __init__(self, words: HealthWords) -> None:
        choices = [Choice("Done", HealthChoice.DONE), Choice("Once more", HealthChoice.BEGIN)]
        super().__init__(choices, back=HealthChoice.DONE)
        self._words = words

    def details(self) -> Mapping[str, object]:
        """Labels of the choices, and everything that is told."""
        return {**super().details(), "says": list(self._words.lines)}

    def picture(self, canvas: Canvas) -> None:
        """Draw the lead sentence, a table of the pedals, and what is wrong with single ones.

        Sentences about single pedals that have no room are left out: `stillfoot pedals` has all.
        """
        words = self._words
        y = title(canvas, FOUND)
        for line in even_lines(canvas, words.lead, theme.LEAD, Weight.BOLD):
            y = canvas.text(line, (theme.MARGIN, y), theme.LEAD, weight=Weight.BOLD)
        for sentence in words.rest:
            for line in even_lines(canvas, sentence, theme.BODY):
                y = canvas.text(line, (theme.MARGIN, y + GAP), theme.BODY, theme.QUIET)
        y += 3 * GAP
        for number, row in enumerate((COLUMNS, *words.rows)):
            size, colour = (theme.BODY, theme.TEXT) if number else (theme.SMALL, theme.QUIET)
            for cell, x in zip(row, COLUMNS_AT, strict=True):
                canvas.text(cell, (x, y), size, colour)
            y += size + 0.5 * GAP
        y += GAP
        for sentence in words.odd:
            lines = even_lines(canvas, sentence, theme.SMALL)
            if y + len(lines) * theme.SMALL > self.choices_top:
                return
            for line in lines:
                y = canvas.text(line, (theme.MARGIN, y), theme.SMALL)
