"""Where the two ends of a pedal are, once its axis is found: let it go, press fully, let it go.

A foot that was on the pedal at the start and is lifted looks just like one that presses an
inverted pedal; only the check with the feet off tells (`AtRest`).
"""

from __future__ import annotations

from drills.calibration import COUNTS, SPAN_LEAST, Range
from drills.trace import nanoseconds
from engine.pedals.at_rest import QUIET
from engine.pedals.seeking import INSISTED, PATIENT, SIDE
from engine.pedals.travel import NEAR, STILL, STILL_FOR, Still, Travel
from engine.pedals.trouble import Motion, Trouble

FULL_AT_ONCE = 0.9
"""1, share of the first press at which a full press is one: two presses agree within a tenth."""
FULL_ENOUGH = 0.6
"""1, share that will do when it is kept there: the first press may have been a stomp."""
RETURNED = 0.04
"""1, share of the range within which a pedal is all the way back: rubber and grease allow it."""
DOUBTED = nanoseconds(3.0)
"""ns a pedal to be let go may stay where it is before that is doubted: one reads, then moves."""
GIVEN_UP = nanoseconds(8.0)
"""ns after which it is looked for anew; a slow but willing person has let go by then."""
RESTLESS = nanoseconds(3.0)
"""ns that a pedal may move before it is said that it does; from then on more noise is allowed."""
NOISE = 1.5
"""1, as many times the noise of a second that of another second may be."""
TREMOR = 0.08
"""1, share of the first press that a leg which presses fully may tremble by (a guess)."""


class Ends:
    """Reads one end after another of one axis, each once it is still where it should be."""

    def __init__(self, travel: Travel, noise: float) -> None:
        """`travel` goes on to be fed here; `noise` is raw, from least to greatest."""
        self.motion = Motion.RELEASE
        """What it waits for."""
        self.trouble: Trouble | None = None
        """What is wrong with this movement."""
        self.failure: Trouble | None = None
        """Why the pedal is to be looked for anew; None where it is not."""
        self.share = 0.0
        """1, how far it is pressed, of the press before."""
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
        """The ends, once both are read."""
        return Range(self._rest, self._full) if self.motion is Motion.FOUND else None

    @property
    def rest(self) -> float | None:
        """raw, where the pedal was let go; None before."""
        return None if self.motion is Motion.RELEASE else self._rest

    def feed(self, time: int, value: float) -> None:
        """Take what the axis reads at `time` (ns)."""
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
        """raw, what still counts as still."""
        span = abs(self._first - self._rest)
        tremor = TREMOR * span if self.motion is Motion.FULL else 0.0
        return max(STILL, NOISE * self._noise, tremor, QUIET if self._restless else 0.0)

    def _begin(self) -> None:
        """The next movement."""
        self._still, self._stayed = Still(), 0
        self._moving_since, self._restless = None, False

    def _release(self, value: float) -> None:
        seen = self._travel
        pressed = self._way * (value - seen.start)
        self.share = pressed / seen.reach
        side = max(SIDE, NEAR * seen.reach)
        self._turned = self._turned or pressed < -side
        if self._turned and pressed > side:
            self.failure = Trouble.THROUGH
        elif not seen.is_back(value, self._way):
            self._doubt()
        elif self._stayed >= STILL_FOR:
            self._rest = _counts(self._still.place)
            self._first = seen.farthest(self._rest)
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
        """It is still, and not where it should be."""
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


def _counts(raw: float) -> float:
    """The nearest whole count, which lets a trace through it be kept as counts."""
    return round(raw * COUNTS) / COUNTS
