"""State of the search for pedals, and the reasons why it ends early."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum

from drills.calibration import Range
from drills.trace import Pedal
from engine.pedals.finder import Found
from engine.pedals.identity import Axis
from engine.pedals.together import Presses


class SearchEnd(Enum):
    """Reason why the search for a pedal ended without one."""

    SKIPPED = "skipped"
    """The pedal is optional and was left out."""
    BACK = "back"
    """The player went back."""
    MENU = "menu"
    """The player asked for the menu."""
    LOST = "lost"
    """A found pedal was unplugged or plugged in again, or nothing is plugged in."""
    PRESSED = "pressed"
    """A found pedal reads as pressed while the feet are off."""
    CAME = "came"
    """The saved pedals are plugged in now."""


@dataclass
class Search:
    """State of the setup, passed from one of its screens to the next."""

    values: Callable[[], Mapping[Axis, float]]
    """Function that returns the raw value of every axis of every device, -1 to 1."""
    called: Callable[[Axis], str]
    """Function that returns the name of an axis, such as "axis 3 of Pedals"."""
    came: Callable[[], bool]
    """Function that returns whether the saved pedals were plugged in since the setup began."""
    found: dict[Pedal, Found] = field(default_factory=dict)
    """Pedals found so far."""
    fixed: frozenset[Pedal] = frozenset()
    """Pedals in `found` that are not set up again."""
    noise: Mapping[Axis, float] = field(default_factory=dict)
    """Noise of each axis that rests while the feet are off, in raw units."""
    left_out: Sequence[Axis] = ()
    """Axes that keep moving while the feet are off, and are ignored."""
    refused: set[Axis] = field(default_factory=set)
    """Axes that the player has refused."""
    doubted: Axis | None = None
    """Axis of the pedal about which the player opened the menu; None if none was found."""
    presses: Presses = field(default_factory=Presses)
    """Measures how far each axis is pressed."""

    @property
    def taken(self) -> dict[Axis, Range]:
        """Axes of the pedals found so far, with their ranges."""
        return {place.axis: place.range for place in self.found.values()}

    def is_whole(self, values: Mapping[Axis, float]) -> bool:
        """Whether there are any values, and every pedal found so far is among them."""
        return bool(values) and all(place.axis in values for place in self.found.values())
