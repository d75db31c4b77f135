"""Screen at the end of a day: what went better than ever, in one picture; then rest."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from enum import Enum

from drills.remark import Headline
from drills.trace import Sample, nanoseconds
from engine.five.day import Day
from engine.five.day_best import Better, better_of, lead_of
from engine.five.day_figures import draw_lines, draw_parts
from engine.five.day_pictures import draw_day, has_motion
from engine.five.day_words import FIGURES, PICTURE
from engine.kit import theme
from engine.kit.area import Area
from engine.kit.base import Choice
from engine.kit.canvas import Canvas
from engine.kit.opening import FIGURE_FOOT, draw_opening
from engine.kit.repetition_marks import Mark
from engine.kit.settling import SettlingMenu
from engine.kit.timed_screen import READING

HELD = nanoseconds(0.8)
"""Time after which a throttle that stays pressed asks for all figures, in ns: a tap is shorter."""
PARTS = 400
"""Smallest top of the list of the session's parts, in canvas units."""
LINES = 1240
"""Left edge of what is said beside the parts, in canvas units."""
PICTURE_TOP = FIGURE_FOOT + 24
"""Smallest top of the picture, in canvas units."""
REST = 844
"""Top of the last line of the day, in canvas units."""
AIMS = 796
"""Top of the line that says what the repetitions were for, in canvas units."""
MOVING_AREA = ((0.0, 260.0), (float(theme.WIDTH), theme.BAR - 270.0))
"""Corner and size of the area in which the picture moves, in canvas units."""


class Done(Enum):
    """Where the player goes from the end of a session: out of the game, or home."""

    LEAVE = "leave"
    HOME = "home"


class DayEnd(SettlingMenu[Done]):
    """Screen at the end of the five minutes; its outcome is leaving the game or going home.

    All figures come on request: by their choice, or while the throttle is held.
    """

    name = "day end"
    back_word = "home"
    in_a_bar = True
    moving_area = MOVING_AREA

    def __init__(self, day: Day) -> None:
        choices = [Choice("Leave", Done.LEAVE), Choice("Home", Done.HOME)]
        if day.parts:
            choices.insert(1, Choice(FIGURES, Done.HOME))
        super().__init__(choices, back=Done.HOME, has_motion=has_motion(day))
        self._day = day
        self._lead = lead_of(day)
        self._asked = False
        self._let_go = False
        self._pressed_at: int | None = None
        self._holds = False

    @property
    def shows_figures(self) -> bool:
        """Whether all figures are shown in place of the picture."""
        return bool(self._day.parts) and (self._asked or self._holds)

    def details(self) -> Mapping[str, object]:
        """Labels of the choices and the numbers of the day, for the events file."""
        day = self._day
        return {
            **super().details(),
            "better": better_of(day).value,
            "lead": self._lead.sentence,
            "parts": [(part.label, len(part.marks)) for part in day.parts],
            "seconds": day.seconds,
            "clean": day.clean,
            "counted": day.counted,
            "kept": day.retained,
            "passed": day.passed,
            "beaten": day.beaten,
            "due_tomorrow": day.due_tomorrow,
            "all_due": day.all_due,
            "early": day.is_early,
        }

    def choose(self, choice: Choice[Done]) -> None:
        """Leave or go home, or show all figures and then the picture again."""
        if choice.label not in (FIGURES, PICTURE):
            super().choose(choice)
            return
        self._asked = not self._asked
        label = PICTURE if self._asked else FIGURES
        self._choices[1] = Choice(label, Done.HOME)

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Move the picture on, and note whether the throttle is held, once it was let go."""
        super().on_sample(sample, now)
        if sample is None or sample.throttle < READING:
            self._let_go, self._pressed_at = self._let_go or sample is not None, None
        elif self._let_go and self._pressed_at is None:
            self._pressed_at = now
        self._holds = self._pressed_at is not None and now - self._pressed_at >= HELD

    def appearance(self) -> Hashable:
        """State that the drawn screen depends on: that of the menu, and what is shown."""
        return super().appearance(), self._asked, self._holds

    def picture(self, canvas: Canvas) -> None:
        """Draw what went better than ever with its picture, or all figures on request."""
        if self.shows_figures:
            self._draw_figures(canvas)
            return
        day, lead, left = self._day, self._lead, float(theme.MARGIN)
        colour = theme.TEXT if better_of(day) is Better.NOTHING else theme.BRAKE
        still = "" if better_of(day) is Better.RETAINED else " ".join(day.still_there)
        y = draw_opening(canvas, day.heading, lead.sentence, still, lead.figure, colour)
        top, foot = max(y + 24, PICTURE_TOP), AIMS if day.aims else REST
        draw_day(canvas, Area(left, top, theme.ACROSS, foot - 24 - top), day, self.share)
        rest = canvas.fullest(day.rest, theme.ACROSS, theme.SMALL)
        for words, line in ((day.aims, AIMS), (rest, REST)):
            canvas.text(words, (left, line), theme.SMALL, theme.QUIET)

    def _draw_figures(self, canvas: Canvas) -> None:
        """Draw all that went better, the parts with a mark for each repetition, and what comes."""
        day, left = self._day, float(theme.MARGIN)
        lead, *more = day.sentences
        colour = theme.BRAKE if day.news else theme.TEXT
        y = draw_opening(canvas, day.heading, lead, " ".join(more), self._clean, colour)
        top = max(y + 20, PARTS)
        draw_parts(canvas, (left, top), self.choices_top - 20 - top, day.parts)
        corner = (LINES if day.parts else left, top)
        draw_lines(canvas, corner, self.choices_top - top, day.lines)

    @property
    def _clean(self) -> Headline | None:
        """Clean repetitions, those of a staircase left out; None where none is left."""
        marks = [mark for part in self._day.parts if not part.is_staircase for mark in part.marks]
        counted = len(marks) - marks.count(Mark.VOID)
        return Headline(f"{marks.count(Mark.CLEAN)}", f"of {counted} clean") if counted else None
