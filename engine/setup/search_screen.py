"""Base of the screens that search for pedals, and the line on which a pedal is drawn."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TypeVar

import pygame

from drills.trace import Sample
from engine.kit import theme
from engine.kit.base import Screen
from engine.kit.canvas import Canvas, Colour, Point
from engine.kit.statement import even_lines, fitting_size
from engine.kit.typeface import Weight
from engine.pedals.identity import Axis
from engine.pedals.together import Together
from engine.setup.search import Search, SearchEnd
from engine.setup.words import CLICK
from engine.stage.actions import Action
from engine.stage.scene import Pace

RADIUS = 24
"""Radius of the bubble that shows a pedal's position, in canvas units."""
PAST = 0.08
"""Distance the bubble may move beyond an end of its line, as a fraction of the line."""
STEPS = 400
"""Number of steps in which a bubble moves along its line: finer ones cannot be seen."""
T = TypeVar("T")
OVER, PROMPT, NOTES = 120, 214, 398
"""Tops of the line above the instruction, the instruction, and the notes, in canvas units."""
LARGEST = 150.0
"""Largest height of the instruction, in canvas units."""
TRACKS = 660.0
"""Height of the line of the first pedal, in canvas units."""
DOTS = 850.0
"""Height of the dots that count the movements of a pedal, in canvas units."""
UNOPENED = 898.0
"""Top of the note on devices that could not be opened, in canvas units: two lines of it fit."""
APART = 48.0
"""Gap between two parts of the line at the foot, in canvas units."""


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
    canvas.line((x, y), (x + width, y), theme.FAINT, 5)
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

    def _frame(
        self,
        canvas: Canvas,
        over: tuple[str, Colour],
        prompt: str,
        notes: Sequence[str],
    ) -> None:
        """Draw what all search screens have: a word and its colour, the instruction, the notes.

        Low on the screen stands which devices could not be opened, if there are any.
        """
        instruct(canvas, over, prompt if self._focused else CLICK, notes)
        y = UNOPENED
        for line in even_lines(canvas, self._search.unopened(), theme.SMALL):
            y = canvas.text(line, (theme.WIDTH / 2, y), theme.SMALL, theme.QUIET, "centre")

    def _foot(self, canvas: Canvas, buttons: Sequence[tuple[str, Action]]) -> None:
        """Draw what ends the screen as quiet text at its foot; each part can be clicked."""
        texts = [label for label, _ in buttons]
        widths = [canvas.measure(text, theme.SMALL) for text in texts]
        x = (theme.WIDTH - sum(widths) - APART * (len(widths) - 1)) / 2
        self._buttons = []
        for (label, action), width in zip(buttons, widths, strict=True):
            place = canvas.box((x - 12, theme.FOOT - 8), (width + 24, 60), theme.GROUND)
            canvas.text(label, (x, theme.FOOT), theme.SMALL, theme.QUIET)
            self._buttons.append((place, action))
            x += width + APART


def instruct(
    canvas: Canvas, over: tuple[str, Colour], prompt: str, notes: Sequence[str] = ()
) -> None:
    """Draw an instruction large in the middle, a word in a colour above it and notes below."""
    middle = theme.WIDTH / 2
    canvas.text(over[0], (middle, OVER), theme.LARGE, over[1], "centre")
    size = fitting_size(canvas, prompt, LARGEST)
    at = (middle, PROMPT + (LARGEST - size) / 2)
    canvas.text(prompt, at, size, theme.TEXT, "centre", weight=Weight.BOLD)
    y = float(NOTES)
    for note in notes:
        for line in even_lines(canvas, note, theme.BODY):
            y = canvas.text(line, (middle, y), theme.BODY, theme.QUIET, "centre")
        y += 8


def count_dots(canvas: Canvas, done: int, of: int, y: float = DOTS) -> None:
    """Draw dots in the middle: those done are full, the one to do now is a ring."""
    left = theme.WIDTH / 2 - 20 * (of - 1)
    for number in range(of):
        at = (left + 40 * number, y)
        if number < done:
            canvas.disc(at, 10, theme.TEXT)
        elif number == done:
            canvas.disc(at, 10, theme.TEXT, 3)
        else:
            canvas.disc(at, 5, theme.FAINT)
