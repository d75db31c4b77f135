"""State of the search for pedals, and the reasons why a search ends early."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum

from drills.calibration import Range
from drills.trace import Pedal
from engine.pedals.finder import Found
from engine.pedals.identity import Axis
from engine.pedals.together import Presses
from engine.setup.glimpse import Glimpse


class SearchEnd(Enum):
    """Reason why the search for a pedal ended without one."""

    SKIPPED = "skipped"
    """The pedal is optional and was left out."""
    BACK = "back"
    """The player went back from the search."""
    MENU = "menu"
    """The player asked for the menu of the setup."""
    LOST = "lost"
    """A found pedal was unplugged or plugged in again, or nothing is plugged in."""
    PRESSED = "pressed"
    """A found pedal reads as pressed while the feet are off."""
    CAME = "came"
    """The saved pedals are plugged in now, so that no search is needed."""


@dataclass
class Search:
    """State of the pedal setup, passed from one of its screens to the next."""

    values: Callable[[], Mapping[Axis, float]]
    """Function that returns the raw value of every axis of every device, -1 to 1."""
    called: Callable[[Axis], str]
    """Function that returns the name of an axis, such as "axis 3 of Pedals"."""
    came: Callable[[], bool]
    """Function that returns whether the saved pedals were plugged in since the setup began."""
    unopened: Callable[[], str] = str
    """Function that returns a note on devices that could not be opened; empty without any."""
    found: dict[Pedal, Found] = field(default_factory=dict)
    """Pedals found so far, each with its axis and range."""
    fixed: frozenset[Pedal] = frozenset()
    """Pedals in `found` that were set up before and are not set up again."""
    noise: Mapping[Axis, float] = field(default_factory=dict)
    """Noise of each axis that rests while the feet are off, in raw units."""
    left_out: Sequence[Axis] = ()
    """Axes that keep moving while the feet are off, so that they are ignored."""
    refused: set[Axis] = field(default_factory=set)
    """Axes that the player has refused as those of the pedal."""
    doubted: Axis | None = None
    """Axis taken for a pedal when the player opened the menu; None if none was taken."""
    glimpse: Glimpse = field(default_factory=Glimpse)
    """What was seen of every axis so far, for a first word on the health of the pedals."""
    presses: Presses = field(default_factory=Presses)
    """Measures how far each axis is pressed, to operate the menus with any pedal."""

    @property
    def taken(self) -> dict[Axis, Range]:
        """Axes of the pedals found so far, each with its range from released to pressed."""
        return {place.axis: place.range for place in self.found.values()}

    def shares(self) -> Mapping[Axis, float]:
        """How far each measured axis is pressed now, as a share of its farthest press."""
        return self.presses.shares(self.values())

    def is_whole(self, values: Mapping[Axis, float]) -> bool:
        """Whether there are raw values, and all pedals found so far are among them."""
        return bool(values) and all(place.axis in values for place in self.found.values())
