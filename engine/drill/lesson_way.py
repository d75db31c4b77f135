"""Menu of the two ways to blip, each shown by a foot; the one of the selected choice moves."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from enum import Enum

from drills.trace import SECOND, Sample
from engine.drill.lesson_moves import BLIP, HELD, STEADY, Moves, Stage
from engine.drill.lesson_words import (
    BOTH_RIGHT,
    HEADING_OF_CHANGE,
    HOW,
    HOW_IT_GOES,
    IN_SLOW_MOTION,
    LATER,
    WAYS,
)
from engine.kit import theme
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Canvas, Point
from engine.kit.foot import draw_foot
from engine.kit.foot_pose import Pressed, Way
from engine.kit.opening import draw_opening
from engine.kit.typeface import Weight

TOP = 352.0
"""Top of the two feet, in canvas units."""
HEIGHT = 384.0
"""Height of the picture of a foot, in canvas units."""
APART = 60.0
"""Gap between the two feet, in canvas units."""
WIDTH = (theme.ACROSS - APART) / 2
"""Width of the picture of a foot, in canvas units."""
NAMES = 758.0
"""Top of the names of the ways, in canvas units."""
EVERY = 2.0
"""Time from one blip of the selected foot to the next, in s."""
BLIPS = Moves(STEADY, (Stage(0.0),), (), tuple(0.5 + EVERY * blip for blip in range(3)))
"""Movement of the foot of the selected choice: three blips in six seconds."""
STILL = 0.5 + BLIP / 2
"""Time of the pose of both feet where nothing may move, in s: the peak of a blip."""
TICKS = 60
"""Number of places per second at which the foot is drawn while it moves."""


class NoChange(Enum):
    """Outcome of leaving the menu without a choice."""

    NO_CHANGE = "no change"


class WayMenu(Menu[Way | NoChange]):
    """Menu in which the player says how they blip."""

    name = "way"
    in_a_bar = True

    def __init__(self, now: Way | None) -> None:
        """`now` is the way chosen before; None for a player who was never asked."""
        choices: list[Choice[Way | NoChange]] = [Choice(WAYS[way], way) for way in Way]
        super().__init__(choices, back=NoChange.NO_CHANGE)
        self._is_first = now is None
        if now is None:
            self.back_word = WAYS[Way.ROLL].lower()
        else:
            self._selected = list(Way).index(now)
        self._began: int | None = None
        self._now = 0

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Move the foot of the selected choice on with the clock."""
        self._began = now if self._began is None else self._began
        self._now = now

    @property
    def seconds(self) -> float:
        """Time since the movement began, in s."""
        return 0.0 if self._began is None else (self._now - self._began) / SECOND

    @property
    def is_moving(self) -> bool:
        """Whether a foot moves: always where motion is allowed."""
        return self.moves

    @property
    def moving_areas(self) -> Sequence[tuple[Point, Point]]:
        """The foot of the selected choice; none where nothing may move."""
        return ((_corner(self._selected), (WIDTH, HEIGHT)),) if self.moves else ()

    def movement(self) -> Hashable:
        """Place in the movement, in sixtieths of a second; None where nothing may move."""
        return round(self.seconds * TICKS) if self.moves else None

    def appearance(self) -> Hashable:
        """State that the still parts depend on: the selected choice, and whether it moves."""
        return super().appearance(), self.moves

    def picture(self, canvas: Canvas) -> None:
        """Draw the question, the feet that do not move, and what each way is."""
        heading, later = (HOW, LATER) if self._is_first else (HEADING_OF_CHANGE, "")
        slowed = IN_SLOW_MOTION if self.moves else ""
        draw_opening(canvas, heading, BOTH_RIGHT, f"{slowed} {later}".strip())
        for number, way in enumerate(Way):
            left, selected = _corner(number)[0], number == self._selected
            if not self.moves:
                self._draw(canvas, number, BLIPS.at(STILL))
            elif not selected:
                self._draw(canvas, number, Pressed(HELD))
            weight = Weight.BOLD if selected else Weight.REGULAR
            y = canvas.text(WAYS[way], (left, NAMES), theme.BODY, weight=weight)
            canvas.text(HOW_IT_GOES[way], (left, y), theme.SMALL, theme.QUIET)

    def paint_moving(self, canvas: Canvas) -> None:
        """Draw the foot of the selected choice as it is now."""
        if self.moves:
            self._draw(canvas, self._selected, BLIPS.at(self.seconds))

    def _draw(self, canvas: Canvas, number: int, pressed: Pressed) -> None:
        draw_foot(canvas, _corner(number), (WIDTH, HEIGHT), pressed, list(Way)[number])


def _corner(number: int) -> Point:
    """Corner of the picture of one of the two feet, in canvas units."""
    return (theme.MARGIN + number * (WIDTH + APART), TOP)
