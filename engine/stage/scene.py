"""Interface between the loop and a screen, and the scenes that a flow yields to the loop."""

from __future__ import annotations

from collections.abc import Callable, Generator, Hashable, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from typing import Protocol, TypeVar

import pygame

from drills.refusal import Refusal
from drills.trace import Sample
from engine.pedals.rig import Means, Rig
from engine.stage.actions import Action
from engine.stage.stage import Stage

T = TypeVar("T")


class Pace(Enum):
    """How often the loop reads the pedals for a screen, and whether it draws.

    Where it draws, it does so when the screen's appearance changes, at most 60 times a second.
    """

    STILL = "still"
    """Pedals are read every 16 ms and the screen is drawn, as for a menu: each look may draw."""
    SMOOTH = "smooth"
    """Pedals are read every 8 ms and the screen is drawn 60 times a second, while a part of it
    moves."""
    LIVE = "live"
    """Pedals are read every millisecond and the screen is drawn, to show the brake as it moves."""
    ROAD = "road"
    """Pedals are read every 3 ms, for a drive: that leaves the processor to the other program and
    still catches every report of a device that sends 250 a second; the screen is drawn."""
    DARK = "dark"
    """Pedals are read every half millisecond and nothing is drawn, while a repetition is
    measured."""


class Attended(Protocol):
    """Interface of a screen for the loop, which runs it until it has an outcome."""

    @property
    def name(self) -> str:
        """Name of the screen in the events file."""
        ...

    @property
    def pace(self) -> Pace:
        """How often the loop reads the pedals while this screen is shown, and whether it draws."""
        ...

    @property
    def feet_choose(self) -> bool:
        """Whether gestures of the feet on the pedals choose on this screen."""
        ...

    @property
    def counts_taps(self) -> bool:
        """Whether each throttle tap counts by itself here; else two quick ones mean previous."""
        ...

    @property
    def hears_text(self) -> bool:
        """Whether keys type text on this screen, instead of being actions."""
        ...

    @property
    def outcome(self) -> object | None:
        """Result of the screen; None until it ends, and the loop goes on to the next one."""
        ...

    def details(self) -> Mapping[str, object]:
        """Fields about this screen for the events file, written as it opens and at each change."""
        ...

    def on_means(self, means: Means) -> None:
        """Note which input methods are at hand; called when the screen opens and at each change."""
        ...

    def on_motion(self, *, allowed: bool) -> None:
        """Note whether parts of the screen may move; called as it opens and at each change."""
        ...

    def on_action(self, action: Action) -> None:
        """Respond to an action such as go, next or back, by feet, keys, mouse or wheel buttons."""
        ...

    def on_text(self, text: str) -> None:
        """Respond to typed text; "\\b" deletes the last character."""
        ...

    def on_pointer(self, at: tuple[int, int], *, pressed: bool) -> None:
        """Respond to the mouse having moved to a pixel or, if `pressed`, clicked there."""
        ...

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Respond to the pedals as read at `now` (ns); None while there are no pedals."""
        ...

    def on_focus(self, focused: bool, now: int) -> None:
        """Note whether the window has the focus; called as the screen opens and at each change."""
        ...

    def on_closing(self) -> None:
        """Respond to the window being about to close; an outcome set here is still stored."""
        ...

    def on_devices(self, *, cut: bool) -> None:
        """Respond to input devices that came or went; `cut`: the pedals in use were unplugged."""
        ...

    def appearance(self) -> Hashable:
        """State that the drawn picture depends on; when it changes, the screen is redrawn."""
        ...

    def movement(self) -> Hashable:
        """State that the moving parts depend on; when it changes alone, only they are redrawn."""
        ...

    def draw(self, surface: pygame.Surface, press: float) -> None:
        """Draw the whole screen; `press` (0 to 1): how much of the hold that chooses is done."""
        ...

    def draw_moving(self, surface: pygame.Surface) -> Sequence[pygame.Rect]:
        """Redraw the moving parts over what `draw` drew; returns the pixels that may differ."""
        ...


@dataclass(frozen=True)
class Scene:
    """Screen with the pedals and the stage it runs with, as a flow yields it to the loop."""

    screen: Attended
    """Screen that the loop runs until it has an outcome."""
    rig: Rig
    """Pedals and devices that are read while the screen is shown."""
    stage: Stage
    """Window, sound and events file that the screen runs with."""


Flow = Generator[Scene, None, T]
"""Generator of scenes that returns a T; each scene runs until its screen has an outcome."""

Aside = Callable[[Scene], object | None]
"""Function that runs one scene at once, in the middle of another or between two; returns its
outcome, or None if the window is to close."""


def next_scene(flow: Flow[object], error: Refusal | None = None) -> Scene | None:
    """Next scene of a flow, in which an error is raised first if there is one; None at its end."""
    try:
        return next(flow) if error is None else flow.throw(error)
    except StopIteration:
        return None
