"""One blip as a person might do it, by values: what the table of sentences is made of."""

from dataclasses import dataclass, field

import numpy as np

from tests.drills.shapes import Values

SECONDS = 6
CUE = 2000  # ms on the grid
USUAL = {"dip": 15.0, "surge": 15.0, "settle": 0.6, "offset": 5.0, "reaction": 0.5}


@dataclass(frozen=True)
class Bump:
    """A half-sine that the brake makes."""

    height: float
    """points, negative for a dip."""
    at: int = 30
    """ms from the onset of the throttle to its beginning."""
    length: int = 200
    """ms."""


@dataclass(frozen=True)
class Case:
    """One blip on a brake that is held at 60 %, and its sentence."""

    name: str
    """What is done."""
    said: str
    """What is said of it."""
    bumps: tuple[Bump, ...] = ()
    """How the brake moves."""
    shift: float = 0.0
    """points that the brake stays away from the end of the pulse on."""
    let_go: int | None = None
    """ms from the onset where the brake is let go; None where it is not."""
    held: float = 60.0
    """%, brake in the dark."""
    reaction: int = 250
    """ms from the cue to the onset."""
    peak: float = 70.0
    """%, throttle."""
    length: int = 200
    """ms, throttle pulse."""
    second: int | None = None
    """ms from the onset to a second blip; None where there is none."""
    limits: dict[str, float] = field(default_factory=lambda: dict(USUAL))
    """The level's."""
    blip: dict[str, float] = field(default_factory=dict)
    """What the level asks of the blip, where that is not the usual."""

    def pedals(self) -> tuple[Values, Values]:
        """Brake and throttle in %, a value each millisecond."""
        time = np.arange(SECONDS * 1000, dtype=np.float64)
        onset = CUE + self.reaction
        brake = np.full(time.size, self.held)
        brake[onset + self.length :] += self.shift
        for bump in self.bumps:
            brake += _half_sine(time - onset - bump.at, bump.length, bump.height)
        if self.let_go is not None:
            brake[onset + self.let_go :] = 0.0
        throttle = _half_sine(time - onset, self.length, self.peak)
        if self.second is not None:
            throttle += _half_sine(time - onset - self.second, self.length, self.peak)
        return np.maximum(brake, 0.0), throttle


def _half_sine(since: Values, length: int, height: float) -> Values:
    inside = (since >= 0) & (since < length)
    wave: Values = np.where(inside, height * np.sin(np.pi * since / length), 0.0)
    return wave
