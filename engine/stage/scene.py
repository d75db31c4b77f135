"""What the loop needs to know of a screen, and a screen together with what it is played with."""

from __future__ import annotations

from collections.abc import Generator, Hashable, Mapping
from dataclasses import dataclass
from enum import Enum
from typing import Protocol, TypeVar

import pygame

from drills.trace import Sample
from engine.pedals.rig import Means, Rig
from engine.stage.actions import Action
from engine.stage.stage import Stage

T = TypeVar("T")


class Pace(Enum):
    """How the loop attends to a screen."""

    STILL = "still"
    """Looked at about a hundred times a second, drawn when it changes."""
    LIVE = "live"
    """Pedals read every millisecond, drawn when it changes, at most 60 times a second."""
    ROAD = "road"
    """Pedals read every 3 ms for as long as somebody drives, which leaves the machine to what is
    driven and loses no report of a device of 250 a second; drawn when it changes."""
    DARK = "dark"
    """Pedals read every half millisecond, nothing drawn."""


class Attended(Protocol):
    """A screen as the loop sees it: it is attended to until it has an outcome."""

    @property
    def name(self) -> str:
        """What the events file calls it."""
        ...

    @property
    def pace(self) -> Pace:
        """How it is attended to now."""
        ...

    @property
    def feet_choose(self) -> bool:
        """Whether pedal gestures are actions here."""
        ...

    @property
    def hears_text(self) -> bool:
        """Whether letters are typed here: then no letter, and no space, does anything else."""
        ...

    @property
    def outcome(self) -> object | None:
        """What it ended with; None until it ends."""
        ...

    def details(self) -> Mapping[str, object]:
        """What the events file says when it is shown."""
        ...

    def on_means(self, means: Means) -> None:
        """What there is to choose with: told when the screen opens and at each change."""
        ...

    def on_action(self, action: Action) -> None:
        """The player did something with feet, keys or wheel buttons."""
        ...

    def on_text(self, text: str) -> None:
        """The player typed something; "\\b" takes the last character back."""
        ...

    def on_pointer(self, at: tuple[int, int], *, pressed: bool) -> None:
        """The mouse moved to a pixel, or was pressed there."""
        ...

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """The pedals at `now` (ns), or None where there are none."""
        ...

    def on_focus(self, focused: bool, now: int) -> None:
        """Whether the window has the focus: told when the screen opens and at each change."""
        ...

    def on_devices(self, *, cut: bool) -> None:
        """A device came or went; `cut` where the pedals that are played with were among them."""
        ...

    def appearance(self) -> Hashable:
        """What its picture depends on: it is drawn anew when this changes."""
        ...

    def draw(self, surface: pygame.Surface, press: float) -> None:
        """Draw all of it; `press` is how far (0 to 1) a choice by brake has got."""
        ...


@dataclass(frozen=True)
class Scene:
    """One screen and what it is played with, for whoever runs a flow."""

    screen: Attended
    """What is shown."""
    rig: Rig
    """What it is played with."""
    stage: Stage
    """Where it is shown."""


Flow = Generator[Scene, None, T]
"""Scenes one after another; each is attended to until its screen has an outcome."""
