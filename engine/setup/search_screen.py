"""Base of the screens that search for pedals, and the line on which a pedal is drawn."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TypeVar

import pygame

from drills.trace import Sample
from engine.kit import theme, widgets
from engine.kit.base import Screen, title
from engine.kit.canvas import Canvas, Colour, Point
from engine.pedals.identity import Axis
from engine.pedals.together import Together
from engine.setup.search import Search, SearchEnd
from engine.stage.actions import Action
from engine.stage.scene import Pace

RADIUS = 18
"""Radius of the bubble that shows a pedal's position, in canvas units."""
PAST = 0.08
"""Distance the bubble may move beyond an end of its line, as a fraction of the line."""
STEPS = 400
"""Number of steps in which a bubble moves along its line: finer ones cannot be seen."""
T = TypeVar("T")
BUTTONS_TOP = 930
"""Top of the buttons that end a search screen, in canvas units."""
UNOPENED_TOP = 172
"""Top of the note on devices that could not be opened, in canvas units: two lines of it fit
between the heading and the instruction."""
NOTES_TOP = 650
"""Top of the notes on a search screen, in canvas units."""


def track_step(place: float) -> int:
    """Position of a pedal in steps along its line: a smaller change is not drawn."""
    return round(min(max(place, -PAST), 1 + PAST) * STEPS)


def track(
    canvas: Canvas,
    start: Point,
    width: float,
    place: float,
    colour: Colour,
    wanted: tuple[float, float] | None = None,
) -> None:
    """Draw a line with a bubble at `place`, from 0 (released) to 1, and marks around `wanted`."""
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


class SearchScreen(Screen[T | SearchEnd]):
    """Base of screens that read all axes; two pedals together, Esc or a click ask for the menu."""

    name = "pedals"

    def __init__(self, search: Search) -> None:
        super().__init__()
        self._search = search
        self._together = Together()
        self._focused = True
        self._buttons: list[tuple[pygame.Rect, Action]] = []

    @property
    def pace(self) -> Pace:
        """Live, so that the pedals are read as often as possible while they are looked for."""
        return Pace.LIVE

    @property
    def axis(self) -> Axis | None:
        """Axis taken so far for the pedal that is searched for; None if there is none."""
        return None

    def on_action(self, action: Action) -> None:
        """Go back from the search, or open the menu if going back would lose something."""
        if action is Action.BACK:
            begun = self._search.found or self.axis is not None
            self.outcome = self._ask() if begun else SearchEnd.BACK

    def on_pointer(self, at: tuple[int, int], *, pressed: bool) -> None:
        """Press the button that was clicked."""
        for place, action in self._buttons:
            if pressed and place.collidepoint(at):
                self.on_action(action)

    def on_focus(self, focused: bool, now: int) -> None:
        """Note whether the window has the focus; without it, pedals open no menu."""
        self._focused = focused
        self._together = Together()

    def on_devices(self, *, cut: bool) -> None:
        """End the search if the saved pedals are plugged in now."""
        if self._search.came():
            self.outcome = SearchEnd.CAME

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Read every axis of every device, and pass the values to `look`."""
        values = self._search.values()
        self._search.glimpse.feed(now, values)
        if not self._search.is_whole(values):
            self.outcome = SearchEnd.LOST
        elif self._focused:
            shares = self._search.presses.shares(values)
            if self._together.feed(now, shares):
                self.outcome = self._ask()
            else:
                self.look(values, now)

    def look(self, values: Mapping[Axis, float], now: int) -> None:
        """Handle the raw values of all axes at `now` (ns); subclasses override it."""

    def _ask(self) -> SearchEnd:
        self._search.doubted = self.axis
        return SearchEnd.MENU

    def _frame(self, canvas: Canvas, heading: str, prompt: str, notes: Sequence[str]) -> None:
        """Draw what all search screens have: the heading, the instruction and the notes.

        Below the heading stands which devices could not be opened, if there are any.
        """
        title(canvas, heading)
        width = theme.WIDTH - 2 * theme.MARGIN
        unopened = self._search.unopened()
        canvas.text(unopened, (theme.MARGIN, UNOPENED_TOP), theme.SMALL, theme.QUIET, width=width)
        instruction = prompt if self._focused else "Click here to go on"
        canvas.text(instruction, (theme.WIDTH / 2, 262), theme.HUGE * 0.8, theme.TEXT, "centre")
        y = float(NOTES_TOP)
        for note in notes:
            y = canvas.text(note, (theme.MARGIN, y), theme.BODY, theme.TEXT, width=width) + 20

    def _foot(self, canvas: Canvas, buttons: Sequence[tuple[str, Action]]) -> None:
        """Draw the buttons at the bottom, and how to open the menu with two pedals."""
        x = float(theme.MARGIN)
        self._buttons = []
        for label, action in buttons:
            width = canvas.measure(label, theme.SMALL) + 60
            place = canvas.box((x, BUTTONS_TOP), (width, 62), theme.RAISED, 10)
            canvas.text(label, (x + 30, BUTTONS_TOP + 16), theme.SMALL, theme.TEXT)
            self._buttons.append((place, action))
            x += width + 30
        widgets.foot(canvas, "Two pedals pressed together for a second: menu")
