"""Steadiness staircase: the tolerance in points that three blips in four stay inside.

The weighted up-down rule (Kaernbach 1991) narrows the tolerance by one step after a hit and widens
it by three after a miss, so that it converges on 75 % hits. The steps are factors, as feet differ
by factors: 3 points for some, 30 for others.

The steadiness band is the geometric middle of the newest reversals, each peak paired with its
valley. Neighbouring middles are alike, so the interval is that of Student's t on the means of a few
groups of them (batch means: Schmeiser 1982, from memory). `tests/bench/band.py` measures how often
the interval covers the truth and how late the band is for a foot that learns.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import islice, pairwise
from statistics import fmean, stdev

from engine.practice.blip_size import scaled
from engine.practice.statistics import within

BEGINNING = 20.0
"""Tolerance asked of a player's very first steadiness blip, in points."""
NARROWEST, WIDEST = 0.5, 50.0
"""Limits of the tolerance asked, in points: what a pedal can just show, a brake hardly held."""
STEP = 0.9
"""Factor on the tolerance after a hit; a miss widens it by three such steps."""
FIRST_STEP = 0.8
"""Factor on the tolerance after a hit, while the staircase is still finding its place."""
SETTLING = 4
"""First reversals of the staircase, as a count: taken in wide steps and left out of the band."""
MISS = 3
"""Steps by which a miss widens the tolerance, as a count: 3 give 75 % hits, 0.75 / (1 - 0.75)."""
PAIRS = 16
"""Most pairs of reversals that a band is computed from: some 80 blips, 13 days of six.

With 12 the interval is a tenth wider; with 24 the band of a foot that learns lags two fifths more.
"""
IN_A_GROUP, GROUPS = 3, 4
"""Fewest pairs of reversals in a group, and most groups: 5 groups cover less by a point or two."""
FEWEST_GROUPS = 3
"""Fewest groups of reversals that give a band: 9 pairs, from 9 or 10 days of six blips."""
LEAN = 0.4
"""Steps by which the middles of reversals lie above the tolerance hit 75 % of the time.

The share of hits flattens as the tolerance widens, so a staircase swings about a tolerance a little
too wide. For a normal curve of any spread that is 3 z / (16 density(z)) = 0.398 steps, z = 0.6745
being its upper quartile; 0.4 was measured for spreads of 0.2 to 1."""
SHARE = 0.95
"""Coverage of the interval around the steadiness band, from 0 to 1."""


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
    """Steadiness band: the tolerance that three blips in four stay inside, with its interval."""

    value: float
    """Tolerance that three blips in four stay inside, in points."""
    low: float
    """Low end of the 95 % interval of the steadiness band, in points."""
    high: float
    """High end of the 95 % interval of the steadiness band, in points."""
    blips: int
    """Blips that the steadiness band is computed from, as a count."""
    reversals: int
    """Reversals of the staircase that the band is computed from, as a count."""


@dataclass(frozen=True)
class DaySteadiness:
    """Steadiness band of a player at the end of one day."""

    day: date
    """Local day at whose end the band was computed."""
    value: float
    """Tolerance that three blips in four stay inside, as of the end of the day, in points."""


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


def steadiness(blips: Sequence[SteadinessBlip]) -> Steadiness | None:
    """Steadiness band computed from these blips; None if they have too few reversals."""
    turns = list(_reversals(blips))[SETTLING:]
    pairs = min(len(turns) // 2, PAIRS)
    groups = min(pairs // IN_A_GROUP, GROUPS)
    if groups < FEWEST_GROUPS:
        return None
    newest = turns[-2 * pairs :]
    asked = [blips[place].asked for place in newest]
    middles = [
        math.log(first * second) / 2 for first, second in zip(asked[::2], asked[1::2], strict=True)
    ]
    ends = [pairs * group // groups for group in range(groups + 1)]
    means = [fmean(middles[begin:end]) for begin, end in pairwise(ends)]
    middle = fmean(middles) + LEAN * math.log(STEP)
    reach = within(SHARE, groups - 1) * stdev(means) / math.sqrt(groups)
    low, high = math.exp(middle - reach), math.exp(middle + reach)
    return Steadiness(
        value=math.exp(middle),
        low=low if min(asked) > NARROWEST else min(low, NARROWEST),
        high=high if max(asked) < WIDEST else max(high, WIDEST),
        blips=len(blips) - newest[0],
        reversals=len(newest),
    )


def by_day(
    blips: Sequence[SteadinessBlip], today: date, days: int = 30
) -> tuple[DaySteadiness, ...]:
    """Steadiness band, if there is one, at the end of each of the last `days` with blips."""
    since = today - timedelta(days=days)
    ends = {blip.day: count for count, blip in enumerate(blips, start=1)}
    bands = {day: steadiness(blips[:end]) for day, end in ends.items() if since < day <= today}
    return tuple(DaySteadiness(day, band.value) for day, band in sorted(bands.items()) if band)


def _reversals(blips: Sequence[SteadinessBlip]) -> Iterator[int]:
    """Indices of the blips at which the staircase turns, at a peak or a valley, in order."""
    for place, (before, blip) in enumerate(pairwise(blips), start=1):
        if before.inside != blip.inside:
            yield place
