"""Reveal: the verdict on one repetition, one sentence, one figure, and the picture of the brake."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from drills.deviation import Deviation
from drills.level import Level
from drills.measures.jumps import Jump
from drills.measures.sampling import Sampling
from drills.score import Reason, Verdict
from engine.drill.reveal_figures import figures
from engine.drill.reveal_words import guess_words, pedal_note
from engine.drill.tally import mark_of
from engine.kit import deviation_plot, theme, widgets
from engine.kit.base import Place
from engine.kit.canvas import Canvas
from engine.kit.repetition_marks import draw_mark
from engine.kit.set_marks import draw_set_marks
from engine.kit.timed_screen import TimedOutcome, TimedScreen
from engine.kit.typeface import Weight

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
"""Smallest gap between the sentence and the large figure, in canvas units."""
UNDER_FIGURE = 372
"""Height from which on a line may be as wide as the screen, in canvas units."""
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

    def __init__(
        self,
        level: Level,
        verdict: Verdict,
        now: Deviation | None,
        earlier: Sequence[Deviation],
        place: Place,
        sampling: Sampling | None = None,
        guess: float | None = None,
        jumps: Sequence[Jump] = (),
        *,
        is_luck: bool = False,
        repeats: int = 0,
    ) -> None:
        """`now` is the picture of this repetition, `earlier` those of some before it.

        `guess` is what the player guessed before the reveal, in points; None without a guess.
        `jumps` are those of the pedals that were left out; `is_luck` is whether the level is partly
        luck with them. `repeats` is how many remarks on the same topic were shown just before.
        """
        remark = level.kind.remark(level, verdict)
        self._sentence, self._cue = remark.sentence(repeats), remark.cue(repeats)
        stay = reading_time(self._sentence, self._cue) if verdict.clean else STAY
        super().__init__(TimedOutcome.ON, TimedOutcome.MENU, stay, place)
        self.has_details = not verdict.void
        self._level = level
        self._verdict = verdict
        self._now = now if not verdict.void or verdict.reason in SEEN_IF_VOID else None
        self._earlier = [picture for picture in earlier if picture.is_measured]
        self._at = place
        self._sampling = sampling
        self._headline = level.kind.headline(level, verdict)
        self._guess = "" if guess is None else guess_words(level, verdict, guess)
        self.note = "" if verdict.void else pedal_note(sampling, jumps, is_luck=is_luck)
        """Sentence about what the pedals had to do with the verdict; empty for nothing."""

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: number of the repetition, and reason of the verdict."""
        return {"rep": self._at.number, "reason": self._verdict.reason.value}

    def picture(self, canvas: Canvas) -> None:
        """Draw the verdict and its sentence, figure and picture, or all figures on request."""
        if self._verdict.clean:
            canvas.box((0, 0), (theme.WIDTH, LIGHT), theme.TEXT)
        self._draw_verdict(canvas)
        if self.shows_details:
            self._draw_details(canvas)
        else:
            self._draw_one_thing(canvas)
        marks = self._at.marks
        if marks:
            draw_set_marks(canvas, marks, len(marks) - 1, self._at.to_come)

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

    def _draw_one_thing(self, canvas: Canvas) -> None:
        """Draw the sentence and its cue, the large figure, and the picture of what decided."""
        right, headline = float(theme.WIDTH - theme.MARGIN), self._headline
        room = right - theme.MARGIN
        if headline is not None and not self._verdict.void:
            room = widgets.large_figure(canvas, headline.value, headline.words)
            room -= APART + theme.MARGIN
        wide = canvas.measure(self._sentence, theme.LEAD, Weight.BOLD)
        lead = theme.LEAD * room / wide if room < wide <= room * theme.LEAD / CUE else theme.LEAD
        at = (theme.MARGIN, SENTENCE)
        y = canvas.text(self._sentence, at, lead, width=room, weight=Weight.BOLD)
        y = self._say(canvas, self._cue, y + 12, room, CUE)
        for line in (self._guess, self.note):
            y = self._say(canvas, line, y + 12, room, theme.SMALL)
        if self._now is not None:
            top = max(y + 16, PICTURE)
            corner, size = (float(theme.MARGIN), top), (right - theme.MARGIN, BOTTOM - top)
            deviation_plot.decisive(canvas, corner, size, self._now)

    def _say(self, canvas: Canvas, line: str, y: float, room: float, size: float) -> float:
        """Write a quiet line at a height if there is one; returns the y below it."""
        if not line:
            return y
        width = room if y < UNDER_FIGURE else theme.WIDTH - 2.0 * theme.MARGIN
        return canvas.text(line, (theme.MARGIN, y), size, theme.QUIET, width=width)

    def _draw_details(self, canvas: Canvas) -> None:
        """Draw all figures with their limits, and all limits and the last curves in the picture."""
        width, y = theme.WIDTH - 2.0 * theme.MARGIN, float(SENTENCE)
        row = figures(self._level, self._verdict, self._sampling)
        columns = math.ceil(len(row) / math.ceil(len(row) / IN_A_ROW)) if row else 1
        for first in range(0, len(row), columns):
            part = row[first : first + columns]
            widgets.figures(canvas, (theme.MARGIN, y), width * len(part) / columns, part)
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
