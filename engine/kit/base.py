"""What every screen is to the loop, and the screen with choices that most of them are."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Generic, TypeVar

import pygame

from drills.trace import Sample
from engine.kit import theme, widgets
from engine.kit.canvas import Canvas, Fonts
from engine.pedals.rig import Means
from engine.stage.actions import Action
from engine.stage.scene import Pace

T = TypeVar("T")

MOST = 10
"""choices shown at once; further ones come into sight when they are selected."""


class Screen(Generic[T]):
    """A screen that ends with a T, for the loop (see `Attended`) and for the flow that shows it."""

    name = "screen"
    feet_choose = False
    """Whether pedal gestures are actions here."""
    hears_text = False
    """Whether letters are typed here: then no letter, and no space, does anything else."""

    def __init__(self) -> None:
        self.outcome: T | None = None
        self.means = Means()
        self._fonts = Fonts()

    @property
    def pace(self) -> Pace:
        """How the loop attends to it now."""
        return Pace.STILL

    def details(self) -> Mapping[str, object]:
        """What the events file says when it is shown."""
        return {}

    def on_means(self, means: Means) -> None:
        """What there is to choose with: told when the screen opens and at each change."""
        self.means = means

    def on_action(self, action: Action) -> None:
        """The player did something with feet, keys or wheel buttons."""

    def on_text(self, text: str) -> None:
        """The player typed something; "\\b" takes the last character back."""

    def on_pointer(self, at: tuple[int, int], *, pressed: bool) -> None:
        """The mouse moved to a pixel, or was pressed there."""

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """The pedals at `now` (ns), or None where there are none."""

    def on_focus(self, focused: bool, now: int) -> None:
        """Whether the window has the focus: told when the screen opens and at each change."""

    def on_devices(self, *, cut: bool) -> None:
        """A device came or went; `cut` where the pedals that are played with were among them."""

    def appearance(self) -> Hashable:
        """What its picture depends on: it is drawn anew when this changes."""
        return None

    def draw(self, surface: pygame.Surface, press: float) -> None:
        """Draw all of it; `press` is how far (0 to 1) a choice by brake has got."""
        self.draw_on(Canvas(surface, self._fonts), press)

    def draw_on(self, canvas: Canvas, press: float) -> None:
        """The same on a canvas."""
        canvas.clear()
        self.paint(canvas, press)
        if self.means.label:
            canvas.text(self.means.label, (theme.WIDTH / 2, 12), theme.SMALL, theme.QUIET, "centre")

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw what is its own, on a canvas that is clear."""


@dataclass(frozen=True)
class Place:
    """Where a repetition stands in its set."""

    number: int
    """From 1; one that does not count leaves its number to the next."""
    of: int
    """count of repetitions in the set; 0 where that is not known."""
    named: str = ""
    """What comes, where that is new each time."""
    why: str = ""
    """Why it comes, in a word or two; empty where that needs no saying."""
    left: float | None = None
    """1, share of the time that is left; None where it does not end by time."""
    lasts: float = 5.0
    """min, how long all of it is, where it ends by time."""

    def after(self, took: float) -> Place:
        """The same place `took` s later."""
        if self.left is None:
            return self
        return replace(self, left=max(self.left - took / (60 * self.lasts), 0.0))

    @property
    def words(self) -> str:
        """Such as "3 of 10", or "repetition 3" where nobody knows of how many."""
        return f"{self.number} of {self.of}" if self.of else f"repetition {self.number}"


@dataclass(frozen=True)
class Choice(Generic[T]):
    """Something that can be chosen."""

    label: str
    """A few words."""
    outcome: T
    """What the screen ends with when it is chosen."""
    note: str = ""
    """A few quiet words beside it."""


class Menu(Screen[T]):
    """A screen with choices; the first is the obvious one."""

    feet_choose = True
    back_word = "back"
    """What going back does here, in a word or two."""
    beside = 1
    """count of the last choices that stand side by side in one row."""

    def __init__(self, choices: Sequence[Choice[T]], back: T | None = None) -> None:
        """`back` is the outcome of going back; None where there is nowhere to go."""
        super().__init__()
        self._choices = list(choices)
        self._back = back
        self._selected = 0
        self._first = 0
        self._places: list[pygame.Rect] = []

    def details(self) -> Mapping[str, object]:
        """The labels of the choices."""
        return {"choices": [choice.label for choice in self._choices]}

    def on_action(self, action: Action) -> None:
        """Choose, or end."""
        match action:
            case Action.GO:
                self.choose(self._choices[self._selected])
            case Action.NEXT:
                self._selected = (self._selected + 1) % len(self._choices)
            case Action.PREVIOUS:
                self._selected = (self._selected - 1) % len(self._choices)
            case Action.BACK | Action.MENU:
                self.outcome = self._back

    def on_pointer(self, at: tuple[int, int], *, pressed: bool) -> None:
        """Select what the mouse is over, and choose it when pressed."""
        for number, place in enumerate(self._places, start=self._first):
            if place.collidepoint(at):
                self._selected = number
                if pressed:
                    self.choose(self._choices[number])

    def choose(self, choice: Choice[T]) -> None:
        """End with what was chosen."""
        self.outcome = choice.outcome

    def appearance(self) -> Hashable:
        """The choice that is selected, and what there is to choose with."""
        return self._selected, self.means

    def paint(self, canvas: Canvas, press: float) -> None:
        """The picture, then the choices at its foot."""
        self.picture(canvas)
        self._first = max(0, self._selected - MOST + 1)
        visible = self._choices[self._first : self._first + MOST]
        labels = [(choice.label, choice.note) for choice in visible]
        self._places = widgets.choices(
            canvas, labels, self._selected - self._first, press, self.beside
        )
        widgets.foot(canvas, self.hint)

    @property
    def hint(self) -> str:
        """How to choose with what there is."""
        back = "" if self._back is None else self.back_word
        return widgets.hint(self.means, len(self._choices) > 1, back)

    def picture(self, canvas: Canvas) -> None:
        """Everything above the choices."""

    @property
    def choices_top(self) -> float:
        """units from the top, where the choices begin."""
        return widgets.choices_top(min(len(self._choices), MOST) - self.beside + 1)


def title(canvas: Canvas, text: str) -> float:
    """The heading of a screen; where what follows may begin."""
    canvas.text(text, (theme.MARGIN, 84), theme.LARGE)
    return 84 + theme.LARGE * 1.5
