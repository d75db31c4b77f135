"""The steadiness band: the tolerance in points that three blips in four stay inside.

It is tracked by the weighted up-down rule (Kaernbach 1991): a hit makes the tolerance of the next
blip narrower by a step and a miss makes it wider by three, so that it rests where hits are three
in four. The steps are factors, as feet differ by factors: 3 points for one, 30 for another.

The band is the middle of the newest reversals, each peak taken with its valley. The interval of t
on those middles is none for it: neighbours are alike, and it covers in 65 to 90 % where 95 are
meant, the less the wilder the foot. So the middles are averaged in a few groups, long enough to be
nearly free of each other, and the interval is that of t on these (batch means: Schmeiser 1982,
from memory). It covers in 92 to 95 % for spreads of 0.2 to 0.8 in logarithms (the simulated foot's
is 0.35 to 0.55), for days that differ by up to 0.3, and for 3 to 12 blips a day; in 90 % for a
spread of 1. It reaches some 40 % to either side at first, then some 20. Of a foot that learns 1 %
a day the band is 7 % late and covered in 89 %; of one that learns 2 %, 14 % late and in 77 %.
`tests/bench/band.py` measures all that.

A track that is stopped by the widest tolerance reads too narrow, by 5 % at a band of 40 points and
12 at 47; its interval then reaches to that, and the other way round at the narrowest.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import islice, pairwise
from statistics import fmean, stdev

from engine.practice.statistics import within

BEGINNING = 20.0
"""points, what the first blip of all is asked."""
NARROWEST, WIDEST = 0.5, 50.0
"""points, the least a pedal can show and the most that is a brake still held."""
STEP = 0.9
"""1, what a hit makes of the tolerance; a miss undoes three."""
FIRST_STEP = 0.8
"""1, the same until the track has found its place."""
SETTLING = 4
"""count, the first reversals: they end the wide steps, and are left out of the band."""
MISS = 3
"""count of steps that a miss is worth: 0.75 / (1 - 0.75)."""
PAIRS = 16
"""count, the most pairs of reversals a band rests on: some 80 blips, 13 days of six. With 12 the
interval is a tenth wider; with 24 the band of a foot that learns is two fifths later."""
IN_A_GROUP, GROUPS = 3, 4
"""count, the fewest pairs in a group, and the most groups: 5 cover less by a point or two."""
FEWEST_GROUPS = 3
"""count, the fewest groups: their 9 pairs are there after 9 or 10 days of six blips."""
LEAN = 0.4
"""steps, how far the middles lie above the band. The curve of hits over the logarithm of the
tolerance flattens upwards, so a track that swings about its middle must swing about one that is
wider than three in four. Of a normal curve it is 3 z / (16 density(z)) = 0.398 steps, where z =
0.6745 is its upper quartile, whatever its spread; 0.4 was measured for spreads of 0.2 to 1."""
SHARE = 0.95
"""1, share of intervals that are meant to cover the band."""


@dataclass(frozen=True)
class SteadinessBlip:
    """One blip of the drill that counted and was measured."""

    day: date
    """The local day it was on."""
    asked: float
    """points, the tolerance that was asked."""
    deviation: float
    """points, how far the brake went from what was held: the larger of dip and surge."""

    @property
    def inside(self) -> bool:
        """Whether it kept what was asked."""
        return self.deviation <= self.asked


@dataclass(frozen=True)
class Steadiness:
    """The tolerance that three blips in four stay inside, with its interval."""

    value: float
    """points, the band."""
    low: float
    """points, the low end of the interval of 95 %."""
    high: float
    """points, the high end of it."""
    blips: int
    """count, blips it rests on."""
    reversals: int
    """count, reversals it rests on."""


@dataclass(frozen=True)
class DaySteadiness:
    """The band as it stood at the end of a day."""

    day: date
    """The day."""
    value: float
    """points, the band."""


def next_tolerance(blips: Sequence[SteadinessBlip]) -> float:
    """What the blip after these is asked, in points."""
    if not blips:
        return BEGINNING
    settled = len(list(islice(_reversals(blips), SETTLING))) == SETTLING
    return stepped(blips[-1].asked, blips[-1].inside, STEP if settled else FIRST_STEP)


def stepped(asked: float, inside: bool, step: float = STEP) -> float:
    """What is asked after a hit or a miss, in points."""
    following = asked * step if inside else asked / step**MISS
    return min(max(following, NARROWEST), WIDEST)


def steadiness(blips: Sequence[SteadinessBlip]) -> Steadiness | None:
    """The band after these; None until there are enough reversals."""
    turns = list(_reversals(blips))[SETTLING:]
    pairs = min(len(turns) // 2, PAIRS)
    groups = min(pairs // IN_A_GROUP, GROUPS)
    if groups < FEWEST_GROUPS:
        return None
    newest = turns[-2 * pairs :]
    asked = [blips[place].asked for place in newest]
    middles = [
        math.log(one * other) / 2 for one, other in zip(asked[::2], asked[1::2], strict=True)
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
    """The band of each of the last days that has blips and had a band by its end, in order."""
    since = today - timedelta(days=days)
    ends = {blip.day: count for count, blip in enumerate(blips, start=1)}
    bands = {day: steadiness(blips[:end]) for day, end in ends.items() if since < day <= today}
    return tuple(DaySteadiness(day, band.value) for day, band in sorted(bands.items()) if band)


def _reversals(blips: Sequence[SteadinessBlip]) -> Iterator[int]:
    """The places of blips that were asked a peak or a valley of the track, in order."""
    for place, (before, blip) in enumerate(pairwise(blips), start=1):
        if before.inside != blip.inside:
            yield place
