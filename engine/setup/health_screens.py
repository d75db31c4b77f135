"""Screens of the health check: what comes, the led half minute, and what was found."""

from __future__ import annotations

import math
from collections.abc import Hashable, Mapping, Sequence
from enum import Enum

from drills.health.pedal import BoundPedal, RawCounts
from drills.trace import Sample
from engine.kit import theme, widgets
from engine.kit.base import Choice, Menu, Screen, notice, title
from engine.kit.canvas import Canvas
from engine.setup.health_course import CourseReader, asked_in
from engine.setup.health_words import HealthWords
from engine.stage.actions import Action
from engine.stage.scene import Pace
from engine.stage.speaker import Speaker

COMING = (
    "For half a minute the screen says what to do with one pedal after another: press it slowly, "
    "hold it, stab it. Then it says what your pedals can show, and which levels ask for more."
)
NOTHING = "No pedals that were set up are plugged in, so there is nothing to check."
DOT = 16
"""Radius of a dot of the countdown, in canvas units."""
DOTS_APART = 80
"""Distance from one dot of the countdown to the next, in canvas units."""
DOTS_AT = 640
"""Height of the countdown's dots, in canvas units."""
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
    UNFOCUSED = "Another window came to the front, so this begins once more."
    TOO_LITTLE = "The pedals were read too seldom. Close what else is running."


class BeforeHealth(Menu[HealthChoice]):
    """Menu before the health check: what comes, or why it begins once more."""

    name = "before health"

    def __init__(self, *, possible: bool, note: str = "") -> None:
        """`possible` is whether pedals are there to check; `note` is why it begins once more."""
        begin = [Choice("Begin", HealthChoice.BEGIN, "thirty seconds")] if possible else []
        super().__init__([*begin, Choice("Back", HealthChoice.DONE)], back=HealthChoice.DONE)
        self._text = COMING if possible else NOTHING
        self._note = note

    def picture(self, canvas: Canvas) -> None:
        """Draw what comes."""
        notice(canvas, "What can my pedals show?", self._text, self._note)


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
        canvas.text(asked.do, (middle, 330), theme.HUGE * 0.8, theme.TEXT, "centre")
        canvas.text(asked.how, (middle, 490), theme.BODY, theme.TEXT, "centre")
        count = math.ceil(part.lasts)
        left = middle - DOTS_APART * (count - 1) / 2
        for number in range(count):
            at = (left + DOTS_APART * number, DOTS_AT)
            if number < self.left:
                canvas.disc(at, DOT, theme.TEXT)
            else:
                canvas.disc(at, DOT, theme.FAINT, 3)
        if following is not None:
            words = f"Next: {asked_in(following).do.lower()}"
            canvas.text(words, (middle, 760), theme.BODY, theme.QUIET, "centre")
        widgets.foot(canvas, "Brake and throttle pressed together for a second, or Esc: leave")


class HealthFound(Menu[HealthChoice]):
    """Menu after the health check: what the pedals can show, and which levels ask for more."""

    name = "health found"

    def __init__(self, words: HealthWords) -> None:
        choices = [Choice("Done", HealthChoice.DONE), Choice("Once more", HealthChoice.BEGIN)]
        super().__init__(choices, back=HealthChoice.DONE)
        self._words = words

    def details(self) -> Mapping[str, object]:
        """Labels of the choices, and everything that is told."""
        return {**super().details(), "says": list(self._words.lines)}

    def picture(self, canvas: Canvas) -> None:
        """Draw what the pedals can show, a line for each pedal, and what is wrong with them.

        Sentences about single pedals that have no room are left out: `stillfoot pedals` has all.
        """
        words, width = self._words, theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, "What your pedals can show")
        for line in words.pedals:
            y = canvas.text(line, (theme.MARGIN, y), theme.SMALL, theme.QUIET) + GAP
        y += GAP
        for sentence in filter(None, (words.limits, words.levels)):
            y = canvas.text(sentence, (theme.MARGIN, y), theme.BODY, width=width) + GAP
        y += GAP
        for sentence in words.odd:
            rows = math.ceil(canvas.measure(sentence, theme.SMALL) / width)
            if y + rows * theme.SMALL > self.choices_top - GAP:
                return
            y = canvas.text(sentence, (theme.MARGIN, y), theme.SMALL, width=width) + GAP
