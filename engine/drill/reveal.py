"""Reveal: the verdict on one repetition, one sentence, one figure, and the picture of the brake."""

from __future__ import annotations

import math
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import replace

from drills.deviation import Deviation
from drills.score import Reason
from drills.trace import Sample
from engine.drill.replay_view import ReplayView
from engine.drill.replay_words import FAINT
from engine.drill.reveal_facts import RevealFacts
from engine.drill.reveal_figures import figures
from engine.drill.reveal_words import guess_words, pedal_note
from engine.drill.tally import mark_of
from engine.kit import deviation_plot, theme, widgets
from engine.kit.canvas import Canvas, Colour, Point
from engine.kit.figures import draw_figures
from engine.kit.looks import Look, Looks
from engine.kit.opening import FIGURE_FOOT, draw_figure
from engine.kit.repetition_marks import draw_mark
from engine.kit.set_marks import draw_set_marks
from engine.kit.timed_screen import TimedOutcome, TimedScreen
from engine.kit.typeface import Weight
from engine.stage.actions import Action

TIPPED = 2.6
"""Position of the bubble for a repetition that was not clean; 0 is the middle, 1 at a line."""
READ_EACH = 15.0
"""Letters of a sentence read in a second: subtitles are set at 12 to 17 (Diaz Cintas & Remael
2007)."""
BEFORE_READING = 0.8
"""Seconds that pass until the sentence is read: the eyes take the mark and the word first."""
STAY_CLEAN = 3.0
"""Longest time that the reveal of a clean repetition stays up, in s."""
STAY = 4.0
"""Time that the reveal of any other repetition stays up, in s: there is a fault to see."""
LIGHT = 12
"""Height of the bar of light at the upper edge that says clean, in canvas units: it is seen out of
the corner of the eye."""
VERDICT = 120
"""Middle of the line with the verdict, in canvas units."""
WORD = 76
"""Height of the word of the verdict, in canvas units."""
MARK = 28
"""Radius of the mark of the verdict, in canvas units."""
BUBBLE = 300
"""Width of the spirit level, in canvas units."""
SENTENCE = 218
"""Top of the sentence, in canvas units."""
CUE = 60
"""Height of the cue below the sentence, in canvas units."""
APART = 60
"""Gap between the word of the verdict and the spirit level, in canvas units."""
PICTURE = 440
"""Top of the picture of the deviation, in canvas units; lower where more is said."""
BOTTOM = 992
"""Bottom of the picture of the deviation, in canvas units."""
ROW = 168
"""Height of a row of figures in the details, in canvas units."""
IN_A_ROW = 6
"""Most figures side by side in the details; more stand in rows of equal length."""
SEEN_IF_VOID = frozenset({Reason.ANTICIPATION, Reason.OFF_SIZE})
"""Outcomes of void repetitions whose picture helps: it shows when the throttle came, or how far."""


class Reveal(TimedScreen[TimedOutcome]):
    """Screen with the verdict on one repetition; ends by itself after a few seconds."""

    name = "reveal"

    def __init__(self, facts: RevealFacts) -> None:
        level, verdict = facts.level, facts.verdict
        remark = level.kind.remark(level, verdict)
        self._sentence, self._cue = remark.sentence(facts.repeats), remark.cue(facts.repeats)
        stay = reading_time(self._sentence, self._cue) if verdict.clean else STAY
        super().__init__(TimedOutcome.ON, TimedOutcome.MENU, stay, facts.place)
        self._level = level
        self._verdict = verdict
        self._now = facts.picture if not verdict.void or verdict.reason in SEEN_IF_VOID else None
        self._earlier = [picture for picture in facts.earlier if picture.is_measured]
        self._at = facts.place
        self._sampling = facts.sampling
        self._headline = level.kind.headline(level, verdict)
        self._of_limit = facts.of_limit
        self._guess = "" if facts.guess is None else guess_words(level, verdict, facts.guess)
        self._of_kind = level.kind.note(verdict)
        self.note = (
            "" if verdict.void else pedal_note(facts.sampling, facts.jumps, is_luck=facts.is_luck)
        )
        """Sentence about what the pedals had to do with the verdict; empty for nothing."""
        self._replay = None if facts.replays is None else ReplayView(facts.replays)
        if not verdict.void:
            self.looks = Looks((*(self._replay.looks if self._replay else ()), Look.FIGURES))

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: number of the repetition, reason of the verdict, and look."""
        look = {"shows": self.looks.now.value} if self.shows_more else {}
        return {"rep": self._at.number, "reason": self._verdict.reason.value, **look}

    def on_action(self, action: Action) -> None:
        """Go on, open the menu or show what is next on request."""
        super().on_action(action)
        self._follow()

    def on_pointer(self, at: tuple[int, int], *, pressed: bool) -> None:
        """Go on at once on a click, or show what is next where it is on the hint."""
        super().on_pointer(at, pressed=pressed)
        self._follow()

    def on_focus(self, focused: bool, now: int) -> None:
        """End a replay when the window loses the focus."""
        super().on_focus(focused, now)
        self._follow()

    def on_closing(self) -> None:
        """End the sound of a replay as the window is about to close."""
        if self._replay is not None:
            self._replay.stop()

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Advance the replay and the countdown, and follow the throttle."""
        if self._replay is not None and self._replay.advance(now):
            self.looks.finish()
        super().on_sample(sample, now)
        self._follow()

    def _follow(self) -> None:
        """Start the replay that was asked for, and end it with the look or with the screen.

        Raises StoreError.
        """
        if self._replay is not None:
            self._replay.follow(self.looks, is_over=self.outcome is not None)

    @property
    def is_moving(self) -> bool:
        """Whether a replay plays."""
        return self._replay is not None and self._replay.is_playing

    def movement(self) -> Hashable:
        """Place of the playhead; None without a replay."""
        return None if self._replay is None else self._replay.at

    @property
    def moving_areas(self) -> Sequence[tuple[Point, Point]]:
        """Areas of the playhead and of the foot; none without a replay."""
        return () if self._replay is None else self._replay.moving_areas

    def paint_moving(self, canvas: Canvas) -> None:
        """Draw the playhead and the foot of a replay."""
        if self._replay is not None:
            self._replay.paint_moving(canvas)

    def picture(self, canvas: Canvas) -> None:
        """Draw the verdict and what decided it, or what was asked for: a replay, or all figures."""
        if self._verdict.clean and self.looks.now is not Look.BEST:
            canvas.box((0, 0), (theme.WIDTH, LIGHT), theme.TEXT)
        match self.looks.now:
            case Look.BEST:
                self._draw_best(canvas)
            case Look.OWN:
                self._draw_verdict(canvas)
                self._draw_replay(canvas, self._sentence)
            case Look.FIGURES:
                self._draw_verdict(canvas)
                self._draw_details(canvas)
            case Look.MAIN:
                self._draw_verdict(canvas)
                self._draw_main(canvas)
        marks = self._at.marks
        if marks:
            draw_set_marks(canvas, marks, len(marks) - 1, self._at.to_come)

    def _draw_best(self, canvas: Canvas) -> None:
        """Draw the replay of the best repetition, under what it is."""
        if self._replay is not None:
            at = (float(theme.MARGIN), VERDICT - widgets.CAPITALS * WORD)
            canvas.text(self._replay.words, at, WORD, weight=Weight.BOLD)
            self._draw_replay(canvas, FAINT if self._replay.shows_behind else "", theme.QUIET)

    def _draw_replay(self, canvas: Canvas, line: str, colour: Colour = theme.TEXT) -> None:
        """Draw the replay that plays, under one line."""
        weight = Weight.BOLD if colour == theme.TEXT else Weight.REGULAR
        size = theme.LEAD if colour == theme.TEXT else theme.BODY
        y, at = float(SENTENCE), (float(theme.MARGIN), float(SENTENCE))
        if line:
            y = canvas.text(line, at, size, colour, width=theme.ACROSS, weight=weight)
        if self._replay is not None:
            self._replay.paint(canvas, y + 16, max(y + 16, PICTURE), BOTTOM)

    def _draw_verdict(self, canvas: Canvas) -> None:
        """Draw the mark and the word of the verdict, and the spirit level beside them."""
        level, verdict = self._level, self._verdict
        draw_mark(canvas, (theme.MARGIN + MARK, VERDICT), MARK, mark_of(verdict))
        word, left = level.kind.word(level, verdict), theme.MARGIN + 3 * MARK
        at = (left, VERDICT - widgets.CAPITALS * WORD)
        canvas.text(word, at, WORD, weight=Weight.BOLD)
        lean = level.kind.lean(level, verdict)
        if lean is not None and not verdict.void:
            right = left + canvas.measure(word, WORD, Weight.BOLD) + APART
            widgets.level(canvas, (right + BUBBLE / 2, VERDICT), BUBBLE, TIPPED * lean)

    def _draw_main(self, canvas: Canvas) -> None:
        """Draw the sentence and its cue, the large figure, and the picture of what decided."""
        room = draw_figure(canvas, None if self._verdict.void else self._headline)
        wide = canvas.measure(self._sentence, theme.LEAD, Weight.BOLD)
        lead = theme.LEAD * room / wide if room < wide <= room * theme.LEAD / CUE else theme.LEAD
        at = (theme.MARGIN, SENTENCE)
        y = canvas.text(self._sentence, at, lead, width=room, weight=Weight.BOLD)
        y = self._say(canvas, self._cue, y + 12, room, CUE)
        for line in (self._guess, self._of_kind, self._of_limit, self.note):
            y = self._say(canvas, line, y + 12, room, theme.SMALL)
        if self._now is not None:
            top = max(y + 16, PICTURE)
            corner, size = (float(theme.MARGIN), top), (theme.ACROSS, BOTTOM - top)
            deviation_plot.decisive(canvas, corner, size, self._now)

    def _say(self, canvas: Canvas, line: str, y: float, room: float, size: float) -> float:
        """Write a quiet line at a height if there is one; returns the y below it."""
        if not line:
            return y
        width = room if y < FIGURE_FOOT else theme.ACROSS
        return canvas.text(line, (theme.MARGIN, y), size, theme.QUIET, width=width)

    def _draw_details(self, canvas: Canvas) -> None:
        """Draw all figures with their limits, and all limits and the last curves in the picture."""
        width, y = theme.ACROSS, float(SENTENCE)
        if self._replay is not None and self._replay.words:
            at = (theme.MARGIN + width, VERDICT - widgets.CAPITALS * theme.SMALL)
            canvas.text(self._replay.words, at, theme.SMALL, theme.QUIET, "right")
        row = figures(self._level, self._verdict, self._sampling)
        columns = math.ceil(len(row) / math.ceil(len(row) / IN_A_ROW)) if row else 1
        for first in range(0, len(row), columns):
            part = row[first : first + columns]
            draw_figures(canvas, (theme.MARGIN, y), width * len(part) / columns, part)
            y += ROW
        if self._now is not None:
            before = self._earlier if self._now.is_measured else []
            corner, size = (float(theme.MARGIN), y + 24), (width, BOTTOM - y - 24)
            deviation_plot.deviation(
                canvas, corner, size, _with_limits(self._now), before, limits=True
            )


def _with_limits(picture: Deviation) -> Deviation:
    """Picture with the limit that decided, where it has no others."""
    if picture.bounds or picture.decides is None:
        return picture
    return replace(picture, bounds=(picture.decides,))


def reading_time(sentence: str, cue: str) -> float:
    """Time that the reveal of a clean repetition stays up, in s: as long as reading it takes."""
    return min(BEFORE_READING + len(f"{sentence} {cue}".strip()) / READ_EACH, STAY_CLEAN)
