"""`Area`: a rectangle that something is drawn into, such as a chart or a button."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Area:
    """Rectangle of a picture."""

    left: float
    """Left edge of the rectangle, in canvas units from the left of the picture."""
    top: float
    """Top edge of the rectangle, in canvas units from the top of the picture."""
    width: float
    """Width of the rectangle in canvas units."""
    height: float
    """Height of the rectangle in canvas units."""

    def within(self, left: float, top: float, right: float, bottom: float) -> Area:
        """This rectangle made smaller by a margin at each side, in canvas units."""
        return Area(
            self.left + left,
            self.top + top,
            self.width - left - right,
            self.height - top - bottom,
        )

    @property
    def right(self) -> float:
        """Right edge of the rectangle, in canvas units from the left of the picture."""
        return self.left + self.width

    @property
    def bottom(self) -> float:
        """Bottom edge of the rectangle, in canvas units from the top of the picture."""
        return self.top + self.height

    def towards(self, other: Area, share: float) -> Area:
        """Rectangle at a share of the way from this one to another, 0 to 1."""
        pairs = zip(self._sides, other._sides, strict=True)
        return Area(*(mine + (its - mine) * share for mine, its in pairs))

    @property
    def _sides(self) -> tuple[float, float, float, float]:
        return self.left, self.top, self.width, self.height
