"""Choosing with the feet: brake past half to go on, a tap of the throttle for the next choice."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum

from drills.trace import Sample, nanoseconds
from engine.pedals.finder import FOUND, Travel
from engine.pedals.identity import Axis

PAST_HALF = 50.0
"""%, brake that means yes while it stays there."""
LET_GO = 25.0
"""%, under this a pedal counts as let go; a pedal pressed when a screen opens says nothing."""
KEPT = nanoseconds(0.8)
"""ns the brake must stay past half: longer than a stab, shorter than a wait."""
TAPPED = 40.0
"""%, throttle that a tap reaches."""
TAP_LONGEST = nanoseconds(0.7)
"""ns from tapping the throttle to letting it go."""


class Gesture(StrEnum):
    """What the feet said."""

    GO = "go"
    NEXT = "next"


class AnyPedal:
    """For before the pedals are set up: any axis pressed and let go goes on."""

    def __init__(self) -> None:
        self._travels: dict[Axis, Travel] = {}
        self._pressed: Axis | None = None

    def feed(self, values: Mapping[Axis, float]) -> Gesture | None:
        """Take what every axis reads."""
        self._travels = {axis: seen for axis, seen in self._travels.items() if axis in values}
        if self._pressed not in values:
            self._pressed = None
        for axis, value in values.items():
            travel = self._travels.setdefault(axis, Travel(value))
            travel.take(value)
            if self._pressed is None and travel.length >= FOUND:
                self._pressed = axis
            elif axis == self._pressed and travel.is_let_go(value):
                self._travels, self._pressed = {}, None
                return Gesture.GO
        return None


class Gestures:
    """Turns samples into gestures; one for each screen, so that old pressure means nothing."""

    def __init__(self) -> None:
        self._brake_ready = False
        self._brake_since: int | None = None
        self._throttle_ready = False
        self._throttle_since: int | None = None
        self._progress = 0.0

    @property
    def progress(self) -> float:
        """0 to 1, how long the brake has been kept past half, as a share of what is needed."""
        return self._progress

    def feed(self, sample: Sample) -> Gesture | None:
        """Take the next sample."""
        return self._brake(sample) or self._throttle(sample)

    def _brake(self, sample: Sample) -> Gesture | None:
        if sample.brake < PAST_HALF:
            self._brake_since, self._progress = None, 0.0
            self._brake_ready = self._brake_ready or sample.brake < LET_GO
            return None
        if not self._brake_ready:
            return None
        if self._brake_since is None:
            self._brake_since = sample.time
        self._progress = min((sample.time - self._brake_since) / KEPT, 1.0)
        if self._progress < 1.0:
            return None
        self._brake_ready = False
        self._brake_since, self._progress = None, 0.0
        return Gesture.GO

    def _throttle(self, sample: Sample) -> Gesture | None:
        if sample.throttle < LET_GO:
            since, self._throttle_since = self._throttle_since, None
            self._throttle_ready = True
            if since is not None and sample.time - since <= TAP_LONGEST:
                return Gesture.NEXT
        elif sample.throttle >= TAPPED and self._throttle_ready:
            self._throttle_since, self._throttle_ready = sample.time, False
        return None
