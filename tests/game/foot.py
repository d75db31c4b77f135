"""A scripted foot: where the pedals are at any moment."""

import time

from tests.game.kinds import LATER, PEAK, PULSE, Plan, half_sine

FLICKER = 0.002  # %, the clutch is never quite still while a plan is followed: each step is read
STEPS = 7  # of the flicker, so that one that is skipped is seen too


class Foot:
    """Where the pedals are at any moment: levels that glide, one scripted blip, or a plan."""

    def __init__(self) -> None:
        self._levels = [0.0, 0.0, 0.0]
        self._blip: tuple[float, float] | None = None
        self._plan: tuple[float, Plan] | None = None

    def follow(self, plan: Plan, moment: float) -> None:
        """Move as a plan says, from a monotonic time in s on."""
        self._plan = (moment, plan)

    def rest(self) -> None:
        """Follow no plan any more, and take every foot off."""
        self._levels, self._plan = [0.0, 0.0, 0.0], None

    def glide(self, pedal: int, level: float, seconds: float = 0.15) -> None:
        """Move one pedal to a level in % and wait until it is there."""
        start, began = self._levels[pedal], time.monotonic()
        while (share := (time.monotonic() - began) / seconds) < 1:
            self._levels[pedal] = start + (level - start) * share
            time.sleep(0.001)
        self._levels[pedal] = level

    def blip_at(self, moment: float, dip: float) -> None:
        """Stab the throttle at a monotonic time in s, and let the brake dip by so many %."""
        self._blip = (moment, dip)

    def hold_back(self) -> None:
        """Leave out a blip that has not begun."""
        if self._blip is not None and self._blip[0] > time.monotonic():
            self._blip = None

    def percent(self) -> list[float]:
        """All pedals now, in %."""
        followed, blip = self._plan, self._blip  # another thread may drop them meanwhile
        if followed is not None:
            moment, plan = followed
            since = time.monotonic() - moment
            brake, throttle, clutch = plan(since)
            return [brake, throttle, clutch + FLICKER * (int(since * 1000) % STEPS)]
        brake, throttle, clutch = self._levels
        if blip is not None:
            moment, dip = blip
            now = time.monotonic() - moment
            throttle += PEAK * half_sine(now / PULSE)
            brake -= dip * half_sine((now - LATER) / PULSE)
        return [brake, throttle, clutch]
