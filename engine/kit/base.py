"""Base classes of all screens: `Screen`, and `Menu` for a screen with choices."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Generic, TypeVar

import pygame

from drills.trace import Sample
from engine.kit import buttons, theme, widgets
from engine.kit.canvas import Canvas, Fonts, Point
from engine.kit.highlight import Highlight
from engine.kit.repetition_marks import Mark
from engine.kit.typeface import Weight
from engine.pedals.rig import Means
from engine.stage.actions import Action
from engine.stage.scene import Pace

T = TypeVar("T")

MOST = 10
"""Largest number of menu choices visible at once; the list scrolls to the selected one."""


class Screen(Generic[T]):
    """Base class of all screens: shown until its `outcome`, a T, is set (see `Attended`)."""

    name = "screen"
    """Name of the screen in the events file."""
    feet_choose = False
    """Whether gestures of the feet on the pedals choose on this screen."""
    counts_taps = False
    """Whether each tap of the throttle counts by itself; otherwise two quick ones mean previous."""
    hears_text = False
    """Whether keys type text on this screen, instead of being actions."""

    def __init__(self) -> None:
        self.outcome: T | None = None
        self.means = Means()
        self.moves = False
        """Whether parts of the screen may move: not unless the loop says so."""
        self._fonts = Fonts()
        self._behind: list[tuple[pygame.Rect, pygame.Surface]] = []

    @property
    def pace(self) -> Pace:
        """How often the loop reads the pedals while this screen is shown, and whether it draws."""
        return Pace.SMOOTH if self.is_moving else Pace.STILL

    @property
    def is_moving(self) -> bool:
        """Whether a part of the screen moves now, so that it is drawn 60 times a second."""
        return False

    def details(self) -> Mapping[str, object]:
        """Fields about this screen for the events file, written as it opens and at each change."""
        return {}

    def on_means(self, means: Means) -> None:
        """Note which input methods are at hand; called when the screen opens and at each change."""
        self.means = means

    def on_motion(self, *, allowed: bool) -> None:
        """Note whether parts of the screen may move; called as it opens and at each change."""
        self.moves = allowed

    def on_action(self, action: Action) -> None:
        """Respond to an action such as go, next or back, by feet, keys, mouse or wheel buttons."""

    def on_text(self, text: str) -> None:
        """Respond to typed text; "\\b" deletes the last character."""

    def on_pointer(self, at: tuple[int, int], *, pressed: bool) -> None:
        """Respond to the mouse having moved to a pixel or, if `pressed`, clicked there."""

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Respond to the pedals as read at `now` (ns); None while there are no pedals."""

    def on_focus(self, focused: bool, now: int) -> None:
        """Note whether the window has the focus; called as the screen opens and at each change."""

    def on_closing(self) -> None:
        """Respond to the window being about to close; an outcome set here is still stored."""

    def on_devices(self, *, cut: bool) -> None:
        """Respond to input devices that came or went; `cut`: the pedals in use were unplugged."""

    def appearance(self) -> Hashable:
        """State that the drawn picture depends on; when it changes, the screen is redrawn."""
        return None

    def draw(self, surface: pygame.Surface, press: float) -> None:
        """Draw the whole screen; `press` (0 to 1): how much of the hold that chooses is done."""
        canvas = Canvas(surface, self._fonts)
        self.draw_still(canvas, press)
        within = surface.get_rect()
        areas = [canvas.pixels(*area).clip(within) for area in self.moving_areas]
        self._behind = [(area, surface.subsurface(area).copy()) for area in areas]
        self.paint_moving(canvas)

    def draw_moving(self, surface: pygame.Surface) -> Sequence[pygame.Rect]:
        """Redraw the moving parts over what `draw` drew; returns the pixels that may differ."""
        for area, behind in self._behind:
            surface.blit(behind, area)
        self.paint_moving(Canvas(surface, self._fonts))
        return [area for area, _ in self._behind]

    def draw_on(self, canvas: Canvas, press: float) -> None:
        """Draw the whole screen on a canvas, with the moving parts as they are now."""
        self.draw_still(canvas, press)
        self.paint_moving(canvas)

    def draw_still(self, canvas: Canvas, press: float) -> None:
        """Draw all but the moving parts, with the note on the devices in use above it."""
        canvas.clear()
        self.paint(canvas, press)
        if self.means.above:
            canvas.text(self.means.above, (theme.WIDTH / 2, 12), theme.SMALL, theme.QUIET, "centre")

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw what does not move on a cleared canvas; subclasses override it."""

    @property
    def moving_areas(self) -> Sequence[tuple[Point, Point]]:
        """Corner and size of each area in which parts move, in canvas units; none overlap."""
        return ()

    def movement(self) -> Hashable:
        """State that the moving parts depend on; None while nothing moves."""
        return None

    def paint_moving(self, canvas: Canvas) -> None:
        """Draw the moving parts as they are now, within their areas; subclasses override it."""


@dataclass(frozen=True)
class Place:
    """Position of a repetition in its set or session."""

    number: int
    """Number of the repetition in its set, from 1; the try after a void one has the same number."""
    of: int
    """Number of repetitions in the set; 0 if it is not known."""
    named: str = ""
    """Title of the repetition's level, where each may be of another level; otherwise empty."""
    why: str = ""
    """Reason for playing this repetition, in a word or two; empty if there is none to give."""
    left: float | None = None
    """Share of the session's time that is left, from 1 to 0; None for a set without a time."""
    lasts: float = 5.0
    """Length of the session in minutes, for one that ends by time."""
    marks: tuple[Mark, ...] | None = None
    """Mark of each repetition of the set so far, void ones too; None where none are shown."""

    def after(self, took: float, mark: Mark | None = None) -> Place:
        """Same position after its repetition: with its mark, and `took` seconds less time left."""
        marks = self.marks if self.marks is None or mark is None else (*self.marks, mark)
        left = None if self.left is None else max(self.left - took / (60 * self.lasts), 0.0)
        return replace(self, left=left, marks=marks)

    @property
    def to_come(self) -> int:
        """Repetitions of the set without a mark yet, as a count; 0 if `of` is not known."""
        done = sum(mark is not Mark.VOID for mark in self.marks or ())
        return max(self.of - done, 0)

    @property
    def words(self) -> str:
        """Position of a repetition in words: "3 of 10", or "repetition 3" if `of` is not known."""
        return f"{self.number} of {self.of}" if self.of else f"repetition {self.number}"


@dataclass(frozen=True)
class Choice(Generic[T]):
    """One choice of a menu: its label, and the outcome of choosing it."""

    label: str
    """Name of the choice, as the menu shows it, in a few words."""
    outcome: T
    """Outcome of the menu when this choice is chosen."""
    note: str = ""
    """A few words in grey beside the label of the choice; empty for none."""


class Menu(Screen[T]):
    """Screen with a list of choices; the first one is selected as it opens."""

    feet_choose = True
    back_word = "back"
    """What going back from this menu does, in a word or two, for the hint at its foot."""
    list_top: float | None = None
    """Top of the list of choices in canvas units, where all of it has room; None: at the foot."""
    in_a_bar = False
    """Whether all choices stand side by side at the foot of the screen, instead of in a list."""
    note_room = 0.0
    """Room for the note of the first choice in a bar, in canvas units; 0: as much as it takes."""

    def __init__(self, choices: Sequence[Choice[T]], back: T | None = None) -> None:
        """`back` is the outcome of going back; None if there is nowhere to go back to."""
        super().__init__()
        self._choices = list(choices)
        self._back = back
        self._selected = 0
        self._press = 0.0
        self._highlight = Highlight()
        self._places: list[pygame.Rect] = []

    def details(self) -> Mapping[str, object]:
        """Labels of the menu's choices, for the events file."""
        return {"choices": [choice.label for choice in self._choices]}

    def on_action(self, action: Action) -> None:
        """Choose the selected choice, select another one, or go back."""
        match action:
            case Action.GO:
                self.choose(self._choices[self._selected])
            case Action.NEXT:
                self._selected = (self._selected + 1) % len(self._choices)
            case Action.PREVIOUS:
                self._selected = (self._selected - 1) % len(self._choices)
            case Action.BACK | Action.MENU:
                self.outcome = self._back

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Move the highlight on to the selected choice."""
        self._highlight.follow(self._selected, now, moves=self.moves)

    def on_pointer(self, at: tuple[int, int], *, pressed: bool) -> None:
        """Select the choice under the mouse pointer; choose it if it was clicked."""
        for number, place in enumerate(self._places, start=self._first):
            if place.collidepoint(at):
                self._selected = number
                if pressed:
                    self.choose(self._choices[number])

    def choose(self, choice: Choice[T]) -> None:
        """End the menu with the outcome of the choice made; subclasses may do something else."""
        self.outcome = choice.outcome

    @property
    def is_moving(self) -> bool:
        """Whether the highlight is on its way to the selected choice."""
        return self._highlight.is_moving

    def movement(self) -> Hashable:
        """Where the highlight of the selected choice is."""
        return self._highlight.state(self._selected)

    def appearance(self) -> Hashable:
        """State that the drawn menu depends on, its highlight apart."""
        return self._first, self.means

    def draw_moving(self, surface: pygame.Surface) -> Sequence[pygame.Rect]:
        """Redraw the highlight, and what else moves; returns the pixels that may differ."""
        others = super().draw_moving(surface)
        canvas = Canvas(surface, self._fonts)
        return [*others, self._highlight.redraw(canvas, self._selected, self._press)]

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw the picture of this menu, and below it the choices and the hint."""
        self.picture(canvas)
        first, self._press = self._first, press
        visible = self._choices[first:][: None if self.in_a_bar else MOST]
        labels = [(choice.label, choice.note) for choice in visible]
        if self.in_a_bar:
            # The last choice stands apart where it does the same as going back.
            leaves = self._choices[-1].outcome == self._back
            placed = buttons.in_bar(canvas, labels, self.note_room, leaves=leaves)
        else:
            placed = buttons.in_list(canvas, labels, self.choices_top)
        self._places = self._highlight.draw(canvas, placed, first, self._selected, press)
        widgets.foot(canvas, self.hint)

    @property
    def _first(self) -> int:
        """Index of the first choice that is visible: the list scrolls to the selected one."""
        return 0 if self.in_a_bar else max(0, self._selected - MOST + 1)

    @property
    def hint(self) -> str:
        """Line at the foot of the menu that says how to choose with the input methods at hand."""
        back = "" if self._back is None else self.back_word
        return widgets.menu_hint(self.means, len(self._choices) > 1, back, feet=self.feet_choose)

    def picture(self, canvas: Canvas) -> None:
        """Draw everything above the choices of the menu; subclasses override it."""

    @property
    def choices_top(self) -> float:
        """Top of the first choice of the menu, in canvas units from the top of the screen."""
        most = min(len(self._choices), MOST)
        return theme.BAR if self.in_a_bar else buttons.list_top(most, self.list_top)


def title(canvas: Canvas, text: str) -> float:
    """Write the heading of a screen; returns the top of what comes below it, in canvas units."""
    canvas.text(text, (theme.MARGIN, theme.TITLE), theme.LARGE, weight=Weight.BOLD)
    return theme.BELOW
