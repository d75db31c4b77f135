"""What the screens of setting up share: input, outcomes, the foot line, the pedal on its line."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum
from typing import TypeVar

import pygame

from drills.trace import Pedal, Sample
from engine.kit import theme, widgets
from engine.kit.base import Screen, title
from engine.kit.canvas import Canvas, Colour, Point
from engine.pedals.finder import Found
from engine.pedals.identity import Axis
from engine.pedals.together import Presses, Together
from engine.stage.actions import Action
from engine.stage.scene import Pace

RADIUS = 18
"""units, of the bubble."""
PAST = 0.08
"""1, how far beyond an end of the line the bubble is still seen."""
STEPS = 400
"""steps from one end of the line to the other: finer ones cannot be seen."""
T = TypeVar("T")
BUTTONS_TOP = 930
"""units from the top, where what can be clicked begins."""
NOTES_TOP = 650
"""units from the top, where notes begin."""


def track_step(place: float) -> int:
    """A place on the line in steps, for telling whether the picture has changed."""
    return round(min(max(place, -PAST), 1 + PAST) * STEPS)


def track(
    canvas: Canvas,
    start: Point,
    width: float,
    place: float,
    colour: Colour,
    wanted: tuple[float, float] | None = None,
) -> None:
    """A line with a bubble at a place from 0 (let go) to 1; `wanted` is where it should come."""
    x, y = start
    canvas.line((x, y), (x + width, y), theme.FAINT, 4)
    for end in (x, x + width):
        canvas.line((end, y - 10), (end, y + 10), theme.FAINT, 4)
    if wanted is not None:
        low, high = wanted
        for mark in (x + low * width - RADIUS - 8, x + high * width + RADIUS + 8):
            canvas.line((mark, y - RADIUS * 1.8), (mark, y + RADIUS * 1.8), theme.TEXT, 4)
    bubble = x + min(max(place, -PAST), 1 + PAST) * width
    canvas.disc((bubble, y), RADIUS, colour)
    canvas.disc((bubble - RADIUS * 0.3, y - RADIUS * 0.3), RADIUS * 0.25, theme.TEXT)


class Gone(Enum):
    """Why the search for a pedal ended without one."""

    SKIPPED = "skipped"
    """It need not be there."""
    BACK = "back"
    """The player would rather not."""
    MENU = "menu"
    """The player asks what else there is to do."""
    LOST = "lost"
    """A pedal that was found before was unplugged or plugged anew, or nothing is plugged in."""
    PRESSED = "pressed"
    """A pedal that was found before reads as pressed while the feet are off."""
    CAME = "came"
    """The pedals that were set up before are plugged in now."""


@dataclass
class Search:
    """What is carried from one screen of setting up to the next."""

    values: Callable[[], Mapping[Axis, float]]
    """What every axis of every device reads now."""
    called: Callable[[Axis], str]
    """What a person calls an axis, such as "axis 3 of Pedals"."""
    came: Callable[[], bool]
    """Whether the pedals that were set up before have come since this began."""
    known: dict[Pedal, Found] = field(default_factory=dict)
    """The pedals found so far."""
    kept: frozenset[Pedal] = frozenset()
    """Those of them that are to stay as they are."""
    noise: Mapping[Axis, float] = field(default_factory=dict)
    """raw, of each axis that rests while the feet are off."""
    left_out: Sequence[Axis] = ()
    """The axes that do not."""
    refused: set[Axis] = field(default_factory=set)
    """The axes that the player has left out."""
    doubted: Axis | None = None
    """The axis that the pedal was found on that the player asks the menu about."""
    presses: Presses = field(default_factory=Presses)
    """How far each axis is pressed."""

    def is_whole(self, values: Mapping[Axis, float]) -> bool:
        """Whether there is anything to look at, and every pedal found so far is among it."""
        return bool(values) and all(one.axis in values for one in self.known.values())


class SearchScreen(Screen[T | Gone]):
    """A screen that looks at all axes; two pedals together, Esc or a click ask for the menu."""

    name = "pedals"

    def __init__(self, search: Search) -> None:
        super().__init__()
        self._search = search
        self._together = Together()
        self._focused = True
        self._buttons: list[tuple[pygame.Rect, Action]] = []

    @property
    def pace(self) -> Pace:
        """Pedals are read often."""
        return Pace.LIVE

    @property
    def axis(self) -> Axis | None:
        """The axis that is taken for the pedal; None while none is."""
        return None

    def on_action(self, action: Action) -> None:
        """Going back asks first where something would be lost."""
        if action is Action.BACK:
            begun = self._search.known or self.axis is not None
            self.outcome = self._ask() if begun else Gone.BACK

    def on_pointer(self, at: tuple[int, int], *, pressed: bool) -> None:
        """A click on one of the buttons."""
        for place, action in self._buttons:
            if pressed and place.collidepoint(at):
                self.on_action(action)

    def on_focus(self, focused: bool, now: int) -> None:
        """Feet may drive elsewhere while another window has the focus."""
        self._focused = focused
        self._together = Together()

    def on_devices(self, *, cut: bool) -> None:
        """The pedals that were set up before may have come."""
        if self._search.came():
            self.outcome = Gone.CAME

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Look at every axis of every device."""
        values = self._search.values()
        if not self._search.is_whole(values):
            self.outcome = Gone.LOST
        elif self._focused:
            shares = self._search.presses.shares(values)
            if self._together.feed(now, shares):
                self.outcome = self._ask()
            else:
                self.look(values, now)

    def look(self, values: Mapping[Axis, float], now: int) -> None:
        """Look at what every axis reads at `now` (ns)."""

    def _ask(self) -> Gone:
        self._search.doubted = self.axis
        return Gone.MENU

    def _frame(self, canvas: Canvas, heading: str, prompt: str, notes: Sequence[str]) -> None:
        """What all of them show."""
        title(canvas, heading)
        said = prompt if self._focused else "Click here to go on"
        canvas.text(said, (theme.WIDTH / 2, 262), theme.HUGE * 0.8, theme.TEXT, "centre")
        y = float(NOTES_TOP)
        for note in notes:
            width = theme.WIDTH - 2 * theme.MARGIN
            y = canvas.text(note, (theme.MARGIN, y), theme.BODY, theme.TEXT, width=width) + 20

    def _foot(self, canvas: Canvas, buttons: Sequence[tuple[str, Action]]) -> None:
        """What can be clicked, and how to get out by foot."""
        x = float(theme.MARGIN)
        self._buttons = []
        for label, action in buttons:
            width = canvas.measure(label, theme.SMALL) + 60
            place = canvas.box((x, BUTTONS_TOP), (width, 62), theme.RAISED, 10)
            canvas.text(label, (x + 30, BUTTONS_TOP + 16), theme.SMALL, theme.TEXT)
            self._buttons.append((place, action))
            x += width + 30
        widgets.foot(canvas, "Two pedals pressed together for a second: menu")
