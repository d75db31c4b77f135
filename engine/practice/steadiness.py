"""Steadiness: what three blips in four stay inside, and the staircase that asks for the blips.

The weighted up-down rule (Kaernbach 1991) narrows the tolerance by one step after a hit and widens
it by three after a miss, so that it converges on 75 % hits. The steps are factors, as feet differ
by factors: 3 points for some, 30 for others. That is the game in the drill.

The number comes from what the foot did, not from where the staircase stood: the 75 % quantile of
the newest deviations. Its interval allows for days that differ and a foot that learns
(`engine/practice/steadiness_interval.py`).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import islice, pairwise
from typing import Literal

from engine.practice.blip_size import scaled
from engine.practice.steadiness_interval import (
    order_interval,
    steadiness_interval,
    upper_quartile,
)

BEGINNING = 20.0
"""Tolerance asked of a player's very first steadiness blip, in points."""
NARROWEST, WIDEST = 0.5, 50.0
"""Limits of the tolerance asked, in points: what a pedal can just show, a brake hardly held."""
STEP = 0.9
"""Factor on the tolerance after a hit; a miss widens it by three such steps."""
FIRST_STEP = 0.8
"""Factor on the tolerance after a hit, while the staircase is still finding its place."""
SETTLING = 4
"""First reversals of the staircase, as a count: taken in wide steps."""
MISS = 3
"""Steps by which a miss widens the tolerance, as a count: 3 give 75 % hits, 0.75 / (1 - 0.75)."""
WINDOW = 36
"""Blips that one steadiness is computed from, as a count: six days of six."""
A_DAY = 9
"""Most blips of one day that count, its newest, as a count: so steadiness spans at least 4 days."""


@dataclass(frozen=True)
class SteadinessBlip:
    """One blip of the steadiness drill that counted and has its measures."""

    day: date
    """Local day on which the blip was played."""
    asked: float
    """Tolerance asked of the blip, in points."""
    deviation: float
    """Furthest the brake went from what was held, in points: the larger of dip and surge."""
    peak: float
    """Highest throttle of the blip, in %."""

    @property
    def scaled(self) -> float:
        """The deviation at a blip of the size that is asked, in points: dips grow with blips."""
        return scaled(self.deviation, self.peak)

    @property
    def inside(self) -> bool:
        """Whether the brake stayed inside the tolerance asked: a hit."""
        return self.deviation <= self.asked


@dataclass(frozen=True)
class Steadiness:
    """Steadiness of one window of blips: what three in four stay inside, with its interval."""

    value: float
    """75 % quantile of the scaled deviations, in points."""
    low: float
    """Low end of the interval of the steadiness, in points."""
    high: float
    """High end of the interval of the steadiness, in points."""
    days: int
    """Local days on which the blips of the window were played, as a count."""
    last: date
    """Local day of the newest blip of the window."""


@dataclass(frozen=True)
class SteadinessStep:
    """Step from the first steadiness of a player to the present one."""

    first: Steadiness
    """Steadiness of the first window."""
    now: Steadiness
    """Steadiness of the newest window."""


@dataclass(frozen=True)
class DaySteadiness:
    """Steadiness of a player at the end of one day."""

    day: date
    """Local day at whose end the steadiness was computed."""
    value: float
    """Steadiness at the end of the day, in points."""
    low: float
    """Low end of the interval of that steadiness, in points."""
    high: float
    """High end of the interval of that steadiness, in points."""


def next_tolerance(blips: Sequence[SteadinessBlip]) -> float:
    """Tolerance to ask of the next blip after these, in points."""
    if not blips:
        return BEGINNING
    settled = len(list(islice(_reversals(blips), SETTLING))) == SETTLING
    return stepped(blips[-1].asked, blips[-1].inside, STEP if settled else FIRST_STEP)


def stepped(asked: float, inside: bool, step: float = STEP) -> float:
    """The next tolerance, in points, after a hit (`inside`) or a miss at the one `asked`."""
    following = asked * step if inside else asked / step**MISS
    return min(max(following, NARROWEST), WIDEST)


def counted(blips: Sequence[SteadinessBlip]) -> list[SteadinessBlip]:
    """Those of the blips, oldest first, that steadiness counts: the newest 9 of each day."""
    newest: list[SteadinessBlip] = []
    of_day: Counter[date] = Counter()
    for blip in reversed(blips):
        of_day[blip.day] += 1
        if of_day[blip.day] <= A_DAY:
            newest.append(blip)
    return newest[::-1]


def steadiness(blips: Sequence[SteadinessBlip]) -> Steadiness | None:
    """Steadiness of the newest 36 blips that count; None if there are fewer.

    `blips` are oldest first and of one scale of the brake. With the window's scaled deviations
    sorted as x[1] to x[36], the value is the 75 % quantile by definition 7 of Hyndman & Fan (1996),
    x[27] + 0.25 (x[28] - x[27]); the interval is that of `steadiness_interval`.
    """
    newest = counted(blips)[-WINDOW:]
    return _of_window(newest) if len(newest) == WINDOW else None


def step_of(blips: Sequence[SteadinessBlip]) -> SteadinessStep | None:
    """Step from the first steadiness to the present one; None if it cannot be told.

    `blips` are all of one scale of the brake, oldest first. Those that count are cut into windows
    of 36 from the first on. A step is told where the newest 36 blips and two whole windows in a
    row, the newest two or any before them, lie apart from the first window, all on the same side of
    it. No order interval of these may touch that of the first, and the first steadiness may not lie
    inside the interval of the present one, which is shown beside the step.

    Two windows in a row must have agreed, as a player looks every day: where days differ by 30 %,
    the newest 36 alone would be told as a step of a foot that stays the same in a quarter of all
    histories of 60 days. Once they did, the step is told again whenever the newest 36 are apart.
    The order intervals are narrower than those that are shown: what keeps steps true is that three
    windows agree, and by the wider ones a half is found in 51 of 100 histories of 40 days instead
    of 72. `tests/bench/band.py` measures this rule.
    """
    of_scale = counted(blips)
    if len(of_scale) < 3 * WINDOW:
        return None
    ends = range(WINDOW, len(of_scale) + 1, WINDOW)
    first, *others = (of_scale[end - WINDOW : end] for end in (*ends, len(of_scale)))
    *sides, now = (_side(window, first) for window in others)
    if now is None or not any(before is after is now for before, after in pairwise(sides)):
        return None
    step = SteadinessStep(_of_window(first), _of_window(others[-1]))
    return None if step.now.low <= step.first.value <= step.now.high else step


def _side(
    window: Sequence[SteadinessBlip], first: Sequence[SteadinessBlip]
) -> Literal["narrower", "wider"] | None:
    """Side on which the order interval of a window lies apart from that of the first one."""
    low, high = order_interval([blip.scaled for blip in window])
    first_low, first_high = order_interval([blip.scaled for blip in first])
    if high < first_low:
        return "narrower"
    return "wider" if low > first_high else None


def by_day(
    blips: Sequence[SteadinessBlip], today: date, days: int = 30
) -> tuple[DaySteadiness, ...]:
    """Steadiness, if there is one, at the end of each of the last `days` with blips."""
    since = today - timedelta(days=days)
    ends = {blip.day: count for count, blip in enumerate(blips, start=1)}
    found = {day: steadiness(blips[:end]) for day, end in ends.items() if since < day <= today}
    return tuple(
        DaySteadiness(day, one.value, one.low, one.high)
        for day, one in sorted(found.items())
        if one
    )


def _of_window(window: Sequence[SteadinessBlip]) -> Steadiness:
    """Steadiness of a window of 36 blips, oldest first."""
    days: dict[date, list[float]] = {}
    for blip in window:
        days.setdefault(blip.day, []).append(blip.scaled)
    low, high = steadiness_interval(days)
    return Steadiness(
        value=upper_quartile([blip.scaled for blip in window]),
        low=low,
        high=high,
        days=len(days),
        last=window[-1].day,
    )


def _reversals(blips: Sequence[SteadinessBlip]) -> Iterator[int]:
    """Indices of the blips at which the staircase turns, at a peak or a valley, in order."""
    for place, (before, blip) in enumerate(pairwise(blips), start=1):
        if before.inside != blip.inside:
            yield place
