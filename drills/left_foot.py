"""The left foot of the simulated player: strokes of the clutch, over the steps of the model."""

from __future__ import annotations

TRAVEL = 0.07
"""Time that the simulated clutch takes from rest to the floor, in s."""


class LeftFoot:
    """Strokes of the clutch, each from the step where it goes down to the one where it comes up."""

    def __init__(self, dt: float) -> None:
        """`dt` is the length of a step in s."""
        self._dt = dt
        self._strokes: list[tuple[int, int]] = []

    def plan(self, down: int, up: int) -> None:
        """Plan a stroke that begins to go down at one step, and to come up at another.

        It goes all the way down; one that begins before the last came up keeps the clutch down.
        """
        self._strokes.append((down, max(up, down + round(TRAVEL / self._dt))))

    def drop(self, now: int) -> None:
        """Drop what is planned after step `now`: a clutch that is down comes up."""
        self._strokes = [(down, min(up, now)) for down, up in self._strokes if down < now]

    def at(self, now: int) -> float:
        """Clutch at step `now`, in %; strokes that ended before are forgotten."""
        if not self._strokes:
            return 0.0
        dt = self._dt
        self._strokes = [(down, up) for down, up in self._strokes if (now - up) * dt <= TRAVEL]
        shares = [
            min((now - down) * dt, (up - now) * dt + TRAVEL) / TRAVEL for down, up in self._strokes
        ]
        return 100.0 * min(max([0.0, *shares]), 1.0)
