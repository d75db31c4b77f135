"""Size of the window and whether it fills the screen, as saved from one start to the next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drills.checks import Checks, ValueRefusal, show

Size = tuple[int, int]

DEFAULT_SIZE: Size = (1280, 720)
"""Size of the window at the first start, in pixels; it fits the smallest screens in use, and is
larger on a screen of many pixels."""
SMALLEST_SIZE: Size = (640, 360)
"""Smallest size the window may have, in pixels; below it letters become unreadable."""
LARGEST_SIZE: Size = (16_384, 16_384)
"""Largest size the window may have, in pixels; no system can draw a larger one."""


class ShapeError(ValueRefusal):
    """The saved shape of the window is invalid; one line, without the name of the setting."""


@dataclass(frozen=True)
class Shape:
    """Shape of the window: its size, and whether it fills the screen."""

    size: Size = DEFAULT_SIZE
    """Size of the window in pixels while it does not fill the screen."""
    full: bool = False
    """Whether the window fills the screen."""

    @staticmethod
    def on(screens: Sequence[Size]) -> Shape:
        """Shape at the first start on the first of `screens`, two thirds of the 16:9 in it.

        So that letters stay as large to the eye where a screen has more pixels to the inch.
        """
        if not screens:
            return Shape()
        width, height = screens[0]
        times = max(min(width / (1.5 * DEFAULT_SIZE[0]), height / (1.5 * DEFAULT_SIZE[1])), 1.0)
        most = min(times, LARGEST_SIZE[0] / DEFAULT_SIZE[0])
        return Shape((round(most * DEFAULT_SIZE[0]), round(most * DEFAULT_SIZE[1])))

    def within(self, screens: Sequence[Size]) -> Shape:
        """Same shape, shrunk to the largest of `screens`, as a screen may have been unplugged."""
        if not screens:
            return self
        widest, highest = (max(sides) for sides in zip(*screens, strict=True))
        return Shape((min(self.size[0], widest), min(self.size[1], highest)), self.full)

    def as_data(self) -> dict[str, object]:
        """Shape of the window as plain data, to be saved."""
        return {"width": self.size[0], "height": self.size[1], "full": self.full}

    @staticmethod
    def from_data(data: object) -> Shape:
        """Shape of the window from the data of `as_data`. Raises ShapeError."""
        if not isinstance(data, dict) or set(data) != {"width", "height", "full"}:
            raise ShapeError("", "an object of width, height and full", show(data))
        full = Checks(ShapeError).truth("full", data["full"])
        size = data["width"], data["height"]
        if not is_size(size):
            least, most = (f"{width}x{height}" for width, height in (SMALLEST_SIZE, LARGEST_SIZE))
            found = " by ".join(show(side, 30) for side in size)
            raise ShapeError("", f"whole pixels from {least} to {most}", found)
        return Shape(size, full)


def is_size(size: Sequence[object]) -> bool:
    """Whether a window may have this size in pixels."""
    return all(
        type(side) is int and low <= side <= high
        for side, low, high in zip(size, SMALLEST_SIZE, LARGEST_SIZE, strict=True)
    )


def at_least(size: Size) -> Size:
    """Size of a window in pixels, with each side raised to at least that of SMALLEST_SIZE."""
    return max(size[0], SMALLEST_SIZE[0]), max(size[1], SMALLEST_SIZE[1])
