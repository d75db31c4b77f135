"""Lesson: the movement of a drill shown by a moving foot, with a word on its effect."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence

from drills.trace import SECOND
from engine.drill.lesson_moves import LASTS, MOVES
from engine.drill.lesson_rows import AREA, draw_playhead, draw_rows
from engine.drill.lesson_words import EXPLAINED, WORDS, Term, skip_hint
from engine.drill.reveal import BEFORE_READING, READ_EACH
from engine.kit import theme
from engine.kit.base import Place
from engine.kit.canvas import Canvas, Point
from engine.kit.foot import draw_foot
from engine.kit.foot_pose import Way
from engine.kit.opening import draw_opening
from engine.kit.timed_screen import TimedScreen
from engine.kit.typeface import Weight
from engine.stage.actions import Action

FOOT_TOP = 272.0
"""Top of the foot, in canvas units."""
FOOT_HEIGHT = 430.0
"""Height of the picture of the foot, in canvas units."""
FOOT_WIDTH = 1000.0
"""Width of the picture of the foot, in canvas units."""
STAGE_TOP = 712.0
"""Top of the word of the moment, in canvas units."""
STAGE_HEIGHT = 84.0
"""Height of the area of the word of the moment, in canvas units."""
TERMS_LEFT = 1200.0
"""Left edge of the terms that are explained, in canvas units."""
TERM_GAP = 22.0
"""Gap below the explanation of a term, in canvas units."""
STILL_HEIGHT = 390.0
"""Greatest height of a still picture of the foot, in canvas units."""
BOTH_FEET = 0.75
"""Height to width of a still picture of both feet."""
APART = 30.0
"""Gap between still pictures of the foot, in canvas units."""
TICKS = 60
"""Number of places per second at which the foot is drawn while it moves."""


class Lesson(TimedScreen[bool]):
    """Screen that shows the movement of a drill; ends by itself, or at once on any action.

    It moves on and on while it stays. Where nothing may move, the stages stand side by side.
    """

    name = "lesson"

    def __init__(
        self,
        lesson: str,
        heading: str,
        way: Way,
        terms: Sequence[Term] = (),
        place: Place | None = None,
    ) -> None:
        """`lesson` is the name of the lesson, `terms` are those that it explains."""
        self._words, self._moves = WORDS[lesson], MOVES[lesson]
        stages = [self._words.stage(index, way) for index in range(len(self._words.stages))]
        explained = [f"{term.value} {EXPLAINED[term]}" for term in terms]
        stay = lesson_time(" ".join((heading, self._words.effect, *explained)))
        super().__init__(True, True, stay, place)
        self._lesson = lesson
        self._heading = heading
        self._way = way
        self._terms = tuple(terms)
        self._stages = stages

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: name of the lesson, and the terms that it explains."""
        return {"lesson": self._lesson, "terms": [term.value for term in self._terms]}

    def on_action(self, action: Action) -> None:
        """End the lesson, whatever the action: there is nothing to choose."""
        self.outcome = True

    @property
    def seconds(self) -> float:
        """Time since the movement began, in s."""
        return 0.0 if self._opened is None else (self._time - self._opened) / SECOND

    @property
    def is_moving(self) -> bool:
        """Whether the foot moves now: where motion is allowed, and somebody looks."""
        return self.moves and self._focused

    @property
    def moving_areas(self) -> Sequence[tuple[Point, Point]]:
        """The foot, the word of the moment and the playhead; none where nothing may move."""
        if not self.moves:
            return ()
        across = theme.ACROSS if not self._terms else FOOT_WIDTH
        word = (float(theme.MARGIN), STAGE_TOP), (across, STAGE_HEIGHT)
        return ((self._corner, (FOOT_WIDTH, FOOT_HEIGHT)), word, AREA)

    def movement(self) -> Hashable:
        """Place in the movement, in sixtieths of a second; None where nothing may move."""
        return round(self.seconds * TICKS) if self.moves else None

    def appearance(self) -> Hashable:
        """State that the still parts depend on: ring, hint, and whether anything moves."""
        return super().appearance(), self.moves

    def picture(self, canvas: Canvas) -> None:
        """Draw the opening, the terms, and the courses of the pedals; stages if nothing moves."""
        draw_opening(canvas, self._heading, self._words.effect)
        self._draw_terms(canvas)
        draw_rows(canvas, self._moves, self._words.signs, is_moving=self.moves)
        if not self.moves:
            self._draw_stages(canvas)

    def paint_moving(self, canvas: Canvas) -> None:
        """Draw the foot as it is now, the word of the moment, and the playhead."""
        if not self.moves:
            return
        seconds, size = self.seconds, (FOOT_WIDTH, FOOT_HEIGHT)
        draw_foot(canvas, self._corner, size, self._moves.at(seconds), self._way)
        word = self._stages[self._moves.stage_at(seconds)]
        at = (self._corner[0] + FOOT_WIDTH / 2, STAGE_TOP)
        canvas.text(word, at, theme.LEAD, align="centre", weight=Weight.BOLD)
        draw_playhead(canvas, seconds)

    @property
    def hint(self) -> str:
        """Line at the foot of the screen: how to go on, and how to stay."""
        if not self._focused or self._reading:
            return super().hint
        return skip_hint(self.means)

    @property
    def _corner(self) -> Point:
        """Corner of the picture of the foot: in the middle, or left of the terms."""
        left = float(theme.MARGIN) if self._terms else (theme.WIDTH - FOOT_WIDTH) / 2
        return (left, FOOT_TOP)

    def _draw_terms(self, canvas: Canvas) -> None:
        """Write each term, bold, and below it what it means."""
        y, width = FOOT_TOP + 24, theme.WIDTH - theme.MARGIN - TERMS_LEFT
        for term in self._terms:
            at = (TERMS_LEFT, y)
            y = canvas.text(term.value, at, theme.SMALL, weight=Weight.BOLD)
            explained, at = EXPLAINED[term], (TERMS_LEFT, y)
            y = canvas.text(explained, at, theme.SMALL, theme.QUIET, width=width) + TERM_GAP

    def _draw_stages(self, canvas: Canvas) -> None:
        """Draw the pose of each stage that has one, side by side, its word below."""
        posed = [
            (stage.pose, word)
            for stage, word in zip(self._moves.stages, self._stages, strict=True)
            if stage.pose is not None
        ]
        room = FOOT_WIDTH + 40 if self._terms else theme.ACROSS
        width = (room - APART * (len(posed) - 1)) / len(posed)
        height = STILL_HEIGHT if self._moves.clutch is None else BOTH_FEET * width
        height = min(height, STILL_HEIGHT)
        top = FOOT_TOP + STILL_HEIGHT - height
        for number, (pose, word) in enumerate(posed):
            left = theme.MARGIN + number * (width + APART)
            draw_foot(canvas, (left, top), (width, height), self._moves.at(pose), self._way)
            at = (left + width / 2, top + height + 12)
            canvas.text(word, at, align="centre", width=width)


def lesson_time(text: str) -> float:
    """Time that a lesson with this text stays up, in s: as long as reading takes, and LASTS."""
    return max(LASTS, BEFORE_READING + len(text) / READ_EACH)
