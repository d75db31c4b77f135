"""Measurement of a pedal's two ends once its axis is found: release, full press, release.

A foot that is lifted off a pedal moves it exactly like one that presses an inverted pedal; only
the check with the feet off (`AtRest`) can tell these apart.
"""

from __future__ import annotations

from drills.calibration import COUNTS, SPAN_LEAST, Range
from drills.trace import nanoseconds
from engine.pedals.at_rest import QUIET
from engine.pedals.seeking import INSISTED, PATIENT, SIDE
from engine.pedals.travel import NEAR, STILL, STILL_FOR, Still, Travel
from engine.pedals.trouble import Motion, Trouble

FULL_AT_ONCE = 0.9
"""Share of the first press from which a press counts as full at once; two differ by a tenth."""
FULL_ENOUGH = 0.6
"""Share of the first press from which a held press counts as full: the first may have been a
stomp."""
RETURNED = 0.04
"""Share of its travel within which a pedal counts as fully released; rubber and grease stick."""
DOUBTED = nanoseconds(3.0)
"""Time that a pedal to be released may stay pressed until the player is told, in ns: the player
first reads, then moves."""
GIVEN_UP = nanoseconds(8.0)
"""Time until the search for a pedal starts over, in ns; even a slow player has released it by
then."""
RESTLESS = nanoseconds(3.0)
"""Time that a pedal may keep moving until the player is told and more noise is allowed, in ns."""
NOISE = 1.5
"""Factor by which the noise of an axis may exceed what was measured at rest, and still be noise."""
SOFT = 0.5
"""Share of its axis below which a full press may have been a soft one: two soft presses agree, but
few pedals use less than half of their axis."""
TREMOR = 0.08
"""Movement of a fully pressed pedal by a trembling leg, as a share of the first press (a guess)."""


class Ends:
    """Measures where one axis is at rest and fully pressed, each once the axis is still."""

    def __init__(self, travel: Travel, noise: float) -> None:
        """`travel` is updated here; `noise` is how far the axis moves at rest, in raw units."""
        self.motion = Motion.RELEASE
        """Movement of the pedal, such as a full press, that the player is to make next."""
        self.trouble: Trouble | None = None
        """Problem with how the player moves the pedal now; None if there is none."""
        self.failure: Trouble | None = None
        """Reason to search for the pedal from the start; None to continue."""
        self.share = 0.0
        """Position of the pedal as a share of its press before: 0 released, 1 pressed as far."""
        self._travel = travel
        self._noise = noise
        self._way = travel.farther
        self._rest = self._first = self._full = 0.0
        self._turned = False
        self._still = Still()
        self._stayed = 0
        self._moving_since: int | None = None
        self._restless = False

    @property
    def found(self) -> Range | None:
        """Range of the pedal, from rest to full; None until both are measured."""
        return Range(self._rest, self._full) if self.motion is Motion.FOUND else None

    @property
    def rest(self) -> float | None:
        """Raw value at which the pedal was released; None until it was."""
        return None if self.motion is Motion.RELEASE else self._rest

    def feed(self, time: int, value: float) -> None:
        """Continue to measure the pedal's ends with the raw value of its axis at `time` (ns)."""
        self._travel.take(value)
        self._stayed = self._still.take(time, value, self._tolerance)
        if self._moving_since is None or self._stayed >= STILL_FOR:
            self._moving_since = time
        self._restless = self._restless or time - self._moving_since >= RESTLESS
        self.trouble = Trouble.UNSTEADY if time - self._moving_since >= RESTLESS else None
        match self.motion:
            case Motion.RELEASE:
                self._release(value)
            case Motion.FULL:
                self._press(value)
            case Motion.AGAIN:
                self._release_again(value)
            case _:
                pass

    @property
    def _tolerance(self) -> float:
        """Largest movement of the axis that counts as still, in raw units."""
        span = abs(self._first - self._rest)
        tremor = TREMOR * span if self.motion is Motion.FULL else 0.0
        return max(STILL, NOISE * self._noise, tremor, QUIET if self._restless else 0.0)

    def _begin(self) -> None:
        """Begin to wait for the next movement of the pedal."""
        self._still, self._stayed = Still(), 0
        self._moving_since, self._restless = None, False

    def _release(self, value: float) -> None:
        travel = self._travel
        pressed = self._way * (value - travel.start)
        self.share = pressed / travel.reach
        side = max(SIDE, NEAR * travel.reach)
        self._turned = self._turned or pressed < -side
        if self._turned and pressed > side:
            self.failure = Trouble.THROUGH
        elif not travel.is_back(value, self._way):
            self._doubt()
        elif self._stayed >= STILL_FOR:
            self._rest = _counts(self._still.place)
            self._first = travel.farthest(self._rest)
            self.motion, self.trouble = Motion.FULL, None
            self._begin()

    def _press(self, value: float) -> None:
        self.share = (value - self._rest) / (self._first - self._rest)
        if self.share < -NEAR:
            self.failure = Trouble.THROUGH
        elif self._stayed < STILL_FOR:
            return
        elif self.share >= FULL_AT_ONCE or (self.share >= FULL_ENOUGH and self._stayed >= INSISTED):
            self._full = _counts(self._still.place)
            self.motion, self.trouble = Motion.AGAIN, None
            self._begin()
        elif self.share >= FULL_ENOUGH:
            self.trouble = Trouble.WEAK
        elif self.share > NEAR:
            self.trouble = Trouble.TOO_WEAK
            self.failure = Trouble.TOO_WEAK if self._stayed >= GIVEN_UP else None
        elif self._stayed >= PATIENT:
            self.trouble = Trouble.NOTHING

    def _release_again(self, value: float) -> None:
        self.share = (value - self._rest) / (self._full - self._rest)
        if self.share < -NEAR:
            self.failure = Trouble.THROUGH
        elif self.share > NEAR:
            self._doubt()
        elif self._stayed >= STILL_FOR:
            if abs(self.share) <= RETURNED:
                self._end((self._rest + self._still.place) / 2)
            elif self.share < 0 or self._stayed >= INSISTED:
                self._end(self._still.place)
            else:
                self.trouble = Trouble.RETURNS

    def _doubt(self) -> None:
        """Report a pedal that stays pressed, and after a while give up."""
        if self._stayed >= DOUBTED:
            self.trouble = Trouble.PRESSED
        if self._stayed >= GIVEN_UP:
            self.failure = Trouble.PRESSED

    def _end(self, rest: float) -> None:
        self._rest, self.trouble = _counts(rest), None
        if abs(self._full - self._rest) < SPAN_LEAST:
            self.failure = Trouble.TINY
        else:
            self.motion = Motion.FOUND


def share_used(found: Range) -> float:
    """Share of the axis, from a pedal's rest to the axis' end, that its full press used, 0 to 1."""
    room = 1 - found.rest if found.full > found.rest else found.rest + 1
    return abs(found.full - found.rest) / room


def _counts(raw: float) -> float:
    """Raw value rounded to a whole count, so that traces can be stored as counts."""
    return round(raw * COUNTS) / COUNTS
