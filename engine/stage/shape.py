"""The size of the window and whether it fills the screen, as they are kept between two starts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drills.checks import Checks, ValueRefusal, show

Size = tuple[int, int]

USUAL: Size = (1280, 720)
"""pixels, of the first start: fits the smallest screens in use."""
LEAST: Size = (640, 360)
"""pixels; smaller letters cannot be read at all."""
MOST: Size = (16_384, 16_384)
"""pixels; larger ones no system can draw."""


class ShapeError(ValueRefusal):
    """A saved shape that cannot be used; the text is one line, without the place it is kept."""


@dataclass(frozen=True)
class Shape:
    """How large the window is."""

    size: Size = USUAL
    """pixels, of the window while it does not fill the screen."""
    full: bool = False
    """Whether it fills the screen."""

    def within(self, screens: Sequence[Size]) -> Shape:
        """The same, no larger than the largest of some screens: one may have been taken away."""
        if not screens:
            return self
        widest, highest = (max(sides) for sides in zip(*screens, strict=True))
        return Shape((min(self.size[0], widest), min(self.size[1], highest)), self.full)

    def as_data(self) -> dict[str, object]:
        """As plain data, to be saved."""
        return {"width": self.size[0], "height": self.size[1], "full": self.full}

    @staticmethod
    def from_data(data: object) -> Shape:
        """A shape that was saved. Raises ShapeError."""
        if not isinstance(data, dict) or set(data) != {"width", "height", "full"}:
            raise ShapeError("", "an object of width, height and full", show(data))
        full = Checks(ShapeError).truth("full", data["full"])
        size = data["width"], data["height"]
        if not is_size(size):
            least, most = f"{LEAST[0]}x{LEAST[1]}", f"{MOST[0]}x{MOST[1]}"
            found = " by ".join(show(side, 30) for side in size)
            raise ShapeError("", f"whole pixels from {least} to {most}", found)
        return Shape(size, full)


def is_size(size: Sequence[object]) -> bool:
    """Whether a window can have this size."""
    return all(
        type(side) is int and low <= side <= high
        for side, low, high in zip(size, LEAST, MOST, strict=True)
    )


def at_least(size: Size) -> Size:
    """A size, no smaller than the least."""
    return max(size[0], LEAST[0]), max(size[1], LEAST[1])
