"""Axes that a test moves by hand, for objects that are fed with the values of all axes."""

from collections.abc import Callable, Collection, Mapping
from dataclasses import replace
from typing import Protocol

from drills.calibration import Range
from drills.trace import Sample, nanoseconds
from engine.pedals.finder import Finder
from engine.pedals.identity import Axis
from engine.pedals.trouble import Motion, Trouble

EVERY = 4  # ms from one look to the next


class Fed(Protocol):
    """Interface of objects that take the values of all axes."""

    def feed(self, time: int, values: Mapping[Axis, float]) -> None:
        """Take the raw value of every axis at `time` (ns)."""


class Feet:
    """Axes that are moved in ramps and read every 4 ms."""

    def __init__(self, rest: Mapping[Axis, float]) -> None:
        self.values = dict(rest)
        self.noise: dict[Axis, Callable[[float], float]] = {}
        self.fed: list[Fed] = []
        self._ms = 0

    def move(self, axis: Axis, to: float, then: float = 0.7, took: float = 0.1) -> None:
        """Move an axis to a value in `took` s, and hold it for `then` s."""
        start, steps = self.values[axis], round(took * 1000 / EVERY)
        for step in range(1, steps + 1):
            self.values[axis] = start + (to - start) * step / steps
            self._feed()
        self.stay(then)

    def jump(self, axis: Axis, to: float, then: float = 0.7) -> None:
        """Jump to a value within one report, and hold it for `then` s."""
        self.values[axis] = to
        self.stay(then)

    def press(self, axis: Axis, rest: float, full: float) -> None:
        """Make all four movements: press, release, press fully, release."""
        for to in (full, rest, full, rest):
            self.move(axis, to)

    def stay(self, seconds: float) -> None:
        """Move nothing for some seconds."""
        for _ in range(round(seconds * 1000 / EVERY)):
            self._feed()

    def _feed(self) -> None:
        self._ms += EVERY
        noise = {axis: wave(self._ms / 1000) for axis, wave in self.noise.items()}
        read = {axis: value + noise.get(axis, 0.0) for axis, value in self.values.items()}
        for one in self.fed:
            one.feed(nanoseconds(self._ms / 1000), read)


class Rig(Feet):
    """Axes with a finder that has been fed for a tenth of a second before they move."""

    def __init__(
        self,
        rest: Mapping[Axis, float],
        taken: Mapping[Axis, Range] | None = None,
        refused: Collection[Axis] = (),
        noise: Mapping[Axis, float] | None = None,
    ) -> None:
        """`noise` is the range of each noisy axis at rest, in raw units; others have none."""
        super().__init__(rest)
        measured = {**dict.fromkeys(rest, 0.0), **(noise or {})}
        self.finder = Finder(measured, taken, refused)
        self.fed.append(self.finder)
        self.stay(0.1)

    @property
    def said(self) -> tuple[Motion, Trouble | None]:
        """Movement that the finder waits for, and its trouble."""
        return self.finder.motion, self.finder.trouble


def without_counts(sample: Sample | None) -> Sample | None:
    """The same sample without the axis counts that it was made from."""
    return None if sample is None else replace(sample, counts=None)
