"""Axes moved by hand, for whatever is fed with what all axes read."""

from collections.abc import Callable, Collection, Mapping
from typing import Protocol

from drills.calibration import Range
from drills.trace import nanoseconds
from engine.pedals.finder import Finder
from engine.pedals.identity import Axis
from engine.pedals.trouble import Motion, Trouble

EVERY = 4  # ms from one look to the next


class Fed(Protocol):
    """What takes the values of all axes."""

    def feed(self, time: int, values: Mapping[Axis, float]) -> None:
        """Take what every axis reads at `time` (ns)."""


class Feet:
    """Axes moved by hand, each movement a ramp, read every 4 ms."""

    def __init__(self, rest: Mapping[Axis, float]) -> None:
        self.values = dict(rest)
        self.noise: dict[Axis, Callable[[float], float]] = {}
        self.fed: list[Fed] = []
        self._ms = 0

    def move(self, axis: Axis, to: float, then: float = 0.7, took: float = 0.1) -> None:
        """Move an axis there in `took` s, and stay for `then` s."""
        start, steps = self.values[axis], round(took * 1000 / EVERY)
        for step in range(1, steps + 1):
            self.values[axis] = start + (to - start) * step / steps
            self._feed()
        self.stay(then)

    def jump(self, axis: Axis, to: float, then: float = 0.7) -> None:
        """The next report of an axis says this, and stays for so many s."""
        self.values[axis] = to
        self.stay(then)

    def press(self, axis: Axis, rest: float, full: float) -> None:
        """The whole course: press, release, press fully, release."""
        for to in (full, rest, full, rest):
            self.move(axis, to)

    def stay(self, seconds: float) -> None:
        """Move nothing for so long."""
        for _ in range(round(seconds * 1000 / EVERY)):
            self._feed()

    def _feed(self) -> None:
        self._ms += EVERY
        noise = {axis: wave(self._ms / 1000) for axis, wave in self.noise.items()}
        read = {axis: value + noise.get(axis, 0.0) for axis, value in self.values.items()}
        for one in self.fed:
            one.feed(nanoseconds(self._ms / 1000), read)


class Rig(Feet):
    """Axes and the finder that looks at them, a tenth of a second before they move."""

    def __init__(
        self,
        rest: Mapping[Axis, float],
        taken: Mapping[Axis, Range] | None = None,
        refused: Collection[Axis] = (),
        noise: Mapping[Axis, float] | None = None,
    ) -> None:
        """`noise` is raw, from least to greatest; no axis has any but those named."""
        super().__init__(rest)
        measured = {**dict.fromkeys(rest, 0.0), **(noise or {})}
        self.finder = Finder(measured, taken, refused)
        self.fed.append(self.finder)
        self.stay(0.1)

    @property
    def said(self) -> tuple[Motion, Trouble | None]:
        """What the finder waits for, and what is wrong."""
        return self.finder.motion, self.finder.trouble
