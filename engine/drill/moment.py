"""`Moment`: a screen of less than two seconds that marks what was just achieved."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence

from drills.trace import Sample, nanoseconds
from engine.drill.moment_picture import AREA, draw_changes, draw_steps
from engine.drill.moment_rules import Achievement
from engine.kit import theme
from engine.kit.base import Place, Screen
from engine.kit.canvas import Canvas, Point
from engine.kit.motion import LONG, Movement
from engine.kit.timed_screen import TimedOutcome, time_left
from engine.kit.typeface import Weight
from engine.stage.actions import Action

STAY = 1.8
"""Seconds that a moment stays up."""
STEPS_AT = 0.15
"""Seconds after which the shoe steps up, once the eye has found it."""
FILLS_AT = STEPS_AT + LONG
"""Seconds after which the mark changes: as the shoe has arrived."""
UNDER = 12
"""Gap between what was achieved and the quiet line below it, in canvas units."""


class Moment(Screen[TimedOutcome]):
    """Screen on what was achieved: the shoe steps up and a mark fills; it goes on by itself.

    Any tap, key or click goes on at once, Esc to the menu. It is no menu: in the five minutes its
    time counts as practice, like that of a reveal.
    """

    name = "moment"
    feet_choose = True

    def __init__(
        self, achievement: Achievement, line: str = "", place: Place | None = None
    ) -> None:
        """`line` is the quiet line below; of a `place` with a time the time left is shown."""
        super().__init__()
        self._achievement = achievement
        self._line = line
        self._place = place
        self._opened: int | None = None
        self._now = 0
        self._focused = True

    def details(self) -> Mapping[str, object]:
        """What was achieved and what is said, for the events file."""
        said = self._achievement
        return {"what": said.kind, "level": said.level, "words": said.words, "line": self._line}

    @property
    def is_moving(self) -> bool:
        """Whether the shoe or the mark has not come to rest yet."""
        return self.moves and self._share(FILLS_AT) < 1

    def on_action(self, action: Action) -> None:
        """Go on at once, or leave for the menu."""
        leaves = action in (Action.BACK, Action.MENU)
        self.outcome = TimedOutcome.MENU if leaves else TimedOutcome.ON

    def on_pointer(self, at: tuple[int, int], *, pressed: bool) -> None:
        """Go on at once on a click."""
        if pressed:
            self.outcome = TimedOutcome.ON

    def on_focus(self, focused: bool, now: int) -> None:
        """Begin again when the window gets the focus back, as nobody saw it without."""
        self._focused = focused
        if not focused:
            self._opened = None

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Move the shoe and the mark on, and end after STAY."""
        if not self._focused:
            return
        if self._opened is None:
            self._opened = now
        self._now = now
        if now - self._opened >= nanoseconds(STAY):
            self.outcome = TimedOutcome.ON

    def appearance(self) -> Hashable:
        """State that what stays depends on: the label of the pedals in use."""
        return self.means

    def movement(self) -> Hashable:
        """How far the shoe and the mark are."""
        return self._share(STEPS_AT), self._share(FILLS_AT)

    @property
    def moving_areas(self) -> Sequence[tuple[Point, Point]]:
        """The two steps that the shoe is on, and above."""
        return (AREA,)

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw the steps and say what was achieved."""
        draw_steps(canvas, self._achievement.kind)
        time_left(canvas, self._place, words=False)
        left, width, words = theme.MARGIN, theme.ACROSS, self._achievement.words
        at = (left, theme.TITLE)
        y = canvas.text(words, at, theme.LARGE, width=width, weight=Weight.BOLD)
        if self._line:
            canvas.text(self._line, (left, y + UNDER), theme.BODY, theme.QUIET, width=width)

    def paint_moving(self, canvas: Canvas) -> None:
        """Draw the shoe and the mark."""
        stepped, filled = self._share(STEPS_AT), self._share(FILLS_AT)
        draw_changes(canvas, self._achievement, stepped, filled)

    def _share(self, after: float) -> float:
        """Eased share of the movement that begins some seconds after the moment, 0 to 1."""
        if not self.moves:
            return 1.0
        if self._opened is None:
            return 0.0
        return Movement(self._opened + nanoseconds(after)).share(self._now)
