"""Scripted foot: position of each pedal at any moment of the monotonic clock."""

import math
import time
from dataclasses import dataclass

from tests.game.kinds import LATER, PEAK, PULSE, Plan, half_sine
from tests.waiting import wait_until

FLICKER = 0.002
"""Percent the clutch moves at each step of a plan, so that every step can be recognised."""
TREMOR, TREMBLES, CALM = 0.02, 9.0, 0.3
"""Percent and Hz by which a brake that is held trembles, as no foot is still, and the seconds after
a movement before it does: a brake without any would be taken for one at the end of its axis."""
STEPS = 7
"""Number of different flicker values, so that a skipped step is recognised too."""


@dataclass(frozen=True)
class Glide:
    """Straight movement of one pedal from one position to another."""

    start: float
    """Percent, where it begins."""
    end: float
    """Percent, where it ends and stays."""
    began: float
    """Seconds on the monotonic clock, when it begins."""
    seconds: float
    """Seconds it takes."""

    def at(self, moment: float) -> float:
        """Position in percent at a moment in seconds."""
        share = min(max((moment - self.began) / self.seconds, 0.0), 1.0)
        return self.start + (self.end - self.start) * share


AT_REST = Glide(0.0, 0.0, 0.0, 1.0)
"""Pedal at rest that has not been touched."""


class Foot:
    """Positions of the pedals: glides, one scripted blip on top of them, or a plan instead."""

    def __init__(self) -> None:
        self._glides = [AT_REST] * 3
        self._blip: tuple[float, float] | None = None
        self._plan: tuple[float, Plan] | None = None

    def follow(self, plan: Plan, moment: float) -> None:
        """Move by a plan that begins at a monotonic time in seconds."""
        self._plan = (moment, plan)

    def rest(self) -> None:
        """Drop the plan and take every foot off."""
        self._glides, self._plan = [AT_REST] * 3, None

    def glide(self, pedal: int, level: float, seconds: float = 0.15) -> None:
        """Move one pedal to a position in percent, and return once it is there."""
        now = time.monotonic()
        self._glides[pedal] = Glide(self._glides[pedal].at(now), level, now, seconds)
        wait_until(now + seconds)

    def blip_at(self, moment: float, dip: float) -> None:
        """Stab the throttle at a monotonic time in seconds; the brake dips by so many percent."""
        self._blip = (moment, dip)

    def hold_back(self) -> None:
        """Cancel a blip that has not begun."""
        if self._blip is not None and self._blip[0] > time.monotonic():
            self._blip = None

    def percent(self) -> list[float]:
        """Brake, throttle and clutch now, in percent."""
        scheduled, blip = self._plan, self._blip  # another thread may drop them meanwhile
        now = time.monotonic()
        if scheduled is not None:
            moment, plan = scheduled
            brake, throttle, clutch = plan(now - moment)
            if brake > 0:
                brake += TREMOR * math.sin(math.tau * TREMBLES * now)
            return [brake, throttle, clutch + FLICKER * (int((now - moment) * 1000) % STEPS)]
        brake, throttle, clutch = (glide.at(now) for glide in self._glides)
        held = self._glides[0]
        if held.end > 0 and now - held.began - held.seconds > CALM:
            brake += TREMOR * math.sin(math.tau * TREMBLES * now)
        if blip is not None:
            moment, dip = blip
            throttle += PEAK * half_sine((now - moment) / PULSE)
            brake -= dip * half_sine((now - moment - LATER) / PULSE)
        return [brake, throttle, clutch]
