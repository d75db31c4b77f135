"""What the blips of a recording did to the brake, each compared with its chord.

On the road the brake often falls on purpose, so a blip is compared with its chord: the straight
line from the brake just before it to the brake just after it. Where the brake left before the
throttle, the dip is told against the wide chord, which begins 0.35 s before the blip.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from enum import StrEnum

import numpy as np

from drills.measures.blip import BRAKE_OFF, Candidate, Pulse, resting_throttle
from drills.measures.coupling import couple
from drills.measures.distance import Cost, Stop, extra_distance
from drills.measures.disturbance import Unscored, pulses_of
from drills.measures.early import EARLY_LEAST, WIDE_AT, early_roll, straight
from drills.trace import Grid, Values

BEFORE_FROM = 150
"""Opening of the window of brake before a blip, in grid points before its onset."""
BEFORE_TO = 50
"""End of the window of brake before a blip, in grid points before its onset; the window of an
earlier blip ends there too."""
BEFORE_LEAST = 50
"""Least length of the window of brake before a blip, in grid points: 0.05 s."""
FROM = 100
"""Opening of a blip's own window, and of its chord, in grid points before its onset."""
AFTER = 300
"""Length of a blip's window after its throttle pulse, in grid points: 0.3 s."""
AFTER_LEAST = 100
"""Least length of a blip's window after its throttle pulse, in grid points: 0.1 s."""
AFTER_MEAN = 50
"""Grid points at the end of a blip's window over which the brake after it is averaged."""
CHORD_LEAST = 1e-9
"""Least value of a chord in %, as brake is divided by it."""

Ends = tuple[tuple[float, float], tuple[float, float]]
"""Both ends of a chord: a grid index or a time each, and the brake there in %."""


class Unchorded(StrEnum):
    """Why one blip cannot be measured against its chord."""

    RELEASED = "the brake was released with the blip"
    NEXT = "the next blip came too soon after it"
    ENDS = "the recording ends with it"
    TOO_LITTLE = "too little before it"
    GAP = "a gap of the recording falls into it"


@dataclass(frozen=True)
class ChordDisturbance:
    """What one blip did to the brake, against its chord."""

    before: float
    """Mean brake just before the blip, in %."""
    after: float
    """Mean brake just after the blip, in %."""
    carry: float
    """Change of the brake that the chord counts as intended, after - before, in points."""
    early: float | None
    """Brake that was gone before the throttle moved, against where it was heading, in points; None
    where another blip or the beginning of the trace is too near."""
    dip: float
    """Greatest depth of the brake under its chord, or its wide chord where it left early, in
    points, at least 0."""
    surge: float
    """Greatest height of the brake over its chord, in points, at least 0."""
    swing: float
    """Greatest minus least brake in the blip's window, in points."""
    shortfall: float
    """Brake missing under its chord, integrated over the blip's window, in points·s."""
    excess: float
    """Brake over its chord, integrated over the blip's window, in points·s."""
    coupling: float | None
    """Gain of the brake about its chord on the throttle at `lag` (a ratio); None as `lag` is."""
    lag: float | None
    """Delay of the brake behind the throttle, in s; None where either never moved."""
    extra_distance: float
    """Estimated extra braking distance that the dip would cost on the road, in m."""
    stop: float
    """End of the blip's window, in s on the time axis of the trace."""
    ahead: float | None = None
    """Mean brake from 0.4 to 0.3 s before the blip, in %; None where `early` is None."""

    @property
    def is_early(self) -> bool:
        """Whether the brake left before the throttle by so much that the chord hides it."""
        return self.early is not None and self.early > EARLY_LEAST


@dataclass(frozen=True)
class ChordRun:
    """The blips of one run of a recording, each against its chord, and their sums."""

    dip: float
    """Deepest dip under a chord among the blips of the run, in points."""
    mean_dip: float
    """Mean dip under the chord over the blips of the run, in points."""
    surge: float
    """Greatest rise of the brake over the chord of a blip, among the blips of a run, in points."""
    shortfall: float
    """Brake missing under the chords, over time, summed over the blips, in points·s."""
    excess: float
    """Brake over the chords, integrated over time, summed over the blips, in points·s."""
    extra_distance: float
    """Estimated extra braking distance on the road, summed over the blips, in m."""
    blips: tuple[tuple[Pulse, ChordDisturbance | Unchorded], ...]
    """Each throttle pulse and what it did to the brake, or why that is not measured, in order."""


OF_A_CHORD_RUN = tuple(field.name for field in fields(ChordRun) if field.name != "blips")
"""Names of the measures of a whole run of blips against their chords."""
OF_A_CHORD = tuple(
    field.name for field in fields(ChordDisturbance) if field.name not in ("stop", "ahead")
)
"""Names of the measures of one blip against its chord."""


@dataclass(frozen=True)
class Unscorable:
    """A run of a recording in which no blip can be measured against its chord."""

    reason: Unchorded | Unscored
    """Why no blip is measured: the reason of the first blip, or one for all of them."""
    blips: tuple[tuple[Pulse, Unchorded], ...] = ()
    """Throttle pulses that could still be timed, and why each is not measured."""


def measure_chord_run(
    grid: Grid, blips: list[Candidate], road: Stop, until: int | None = None, since: int = 0
) -> ChordRun | Unscorable:
    """Measures of the blips of one run, each against its chord.

    `until` is the grid index where the windows of this run end at the latest: 0.05 s before the
    onset of a next run. `since` is where the window of the last run's last blip ended.
    """
    pulses = pulses_of(grid, blips)
    if isinstance(pulses, Unscored):
        return Unscorable(pulses)
    return measure_chords(grid, pulses, resting_throttle(grid, blips[0]), road, until, since)


def measure_chords(
    grid: Grid,
    pulses: Sequence[Pulse],
    rest: float,
    road: Stop,
    until: int | None = None,
    since: int = 0,
) -> ChordRun | Unscorable:
    """Measures of the throttle pulses of one run, each against its chord; `rest` is the throttle in
    % that counts as none, `until` and `since` as for `measure_chord_run`."""
    measured: list[tuple[Pulse, ChordDisturbance | Unchorded]] = []
    for number, pulse in enumerate(pulses):
        following = pulses[number + 1].first - BEFORE_TO if number + 1 < len(pulses) else until
        stop, cut = window_end(grid, pulse, following)
        if pulse.first - BEFORE_TO < BEFORE_LEAST:
            measured.append((pulse, Unchorded.TOO_LITTLE))
        elif stop - pulse.after < AFTER_LEAST:
            measured.append((pulse, cut))
        else:
            ends = chord_ends(grid, pulse, stop)
            done, cost = measure_against(grid, pulse, stop, ends, since, rest, road)
            road = replace(road, v0=cost.speed)
            measured.append((pulse, done))
        since = stop
    return run_of_chords(measured)


def run_of_chords(
    measured: Sequence[tuple[Pulse, ChordDisturbance | Unchorded]],
) -> ChordRun | Unscorable:
    """Run that measured blips make up; at least one in `measured` has measures."""
    parts = [done for _, done in measured if isinstance(done, ChordDisturbance)]
    if not parts:
        failed = [(pulse, done) for pulse, done in measured if isinstance(done, Unchorded)]
        return Unscorable(failed[0][1], tuple(failed))
    return ChordRun(
        dip=max(part.dip for part in parts),
        mean_dip=sum(part.dip for part in parts) / len(parts),
        surge=max(part.surge for part in parts),
        shortfall=sum(part.shortfall for part in parts),
        excess=sum(part.excess for part in parts),
        extra_distance=sum(part.extra_distance for part in parts),
        blips=tuple(measured),
    )


def window_end(grid: Grid, pulse: Pulse, following: int | None) -> tuple[int, Unchorded]:
    """Grid index where a blip's window ends, and why it ends there if that is too soon.

    `following` is the grid index where it ends at the latest: 0.05 s before a next blip's onset.
    """
    stop, cut = pulse.after + AFTER, Unchorded.ENDS
    if following is not None and following < stop:
        stop, cut = following, Unchorded.NEXT
    if len(grid) < stop:
        stop, cut = len(grid), Unchorded.ENDS
    released = np.flatnonzero(grid.brake[pulse.after + 1 : stop] < BRAKE_OFF)
    if released.size:
        stop, cut = pulse.after + 1 + int(released[0]), Unchorded.RELEASED
    return stop, cut


def chord_ends(grid: Grid, pulse: Pulse, stop: int) -> Ends:
    """Both ends of the chord of a blip whose window ends at grid index `stop`."""
    begins = max(pulse.first - BEFORE_FROM, 0)
    before = float(grid.brake[begins : pulse.first - BEFORE_TO].mean())
    after = float(grid.brake[stop - AFTER_MEAN : stop].mean())
    return (pulse.first - FROM, before), (stop - AFTER_MEAN / 2, after)


def measure_against(
    grid: Grid,
    pulse: Pulse,
    stop: int,
    ends: Ends,
    since: int,
    throttle: float,
    road: Stop,
    bend: Values | None = None,
) -> tuple[ChordDisturbance, Cost]:
    """What one blip did to the brake against the chord through `ends`, and what that cost.

    Its window ends at grid index `stop`, that of the blip before it at `since`; `throttle` is what
    counts as none, in %, and `road` begins with the speed at the window. Where the chord bends,
    `bend` is how far it lies over a straight one, in points, shape (n,): `ends`, and the `before`,
    `after` and `ahead` returned, are then of the straight one.
    """
    window = slice(max(pulse.first - FROM, 0), stop)
    brake = grid.brake[window]
    points = np.arange(window.start, stop, dtype=np.float64)
    unbent = grid.brake if bend is None else grid.brake - bend
    chord = straight(points, *ends)
    change = unbent[window] - chord
    if bend is not None:
        chord = chord + bend[window]
    (_, before), (last, after) = ends
    roll = early_roll(unbent, pulse.first, last, after, since)
    under = change
    if roll is not None and roll.early > EARLY_LEAST:
        wide = straight(points, (pulse.first - WIDE_AT, roll.ahead), ends[1])
        under = unbent[window] - wide
    cost = extra_distance(brake, np.maximum(chord, CHORD_LEAST), road.v0, road)
    coupling, lag = couple(change, grid.throttle, throttle, window.start)
    done = ChordDisturbance(
        before=before,
        after=after,
        carry=after - before,
        early=None if roll is None else roll.early,
        dip=max(0.0, -float(under.min())),
        surge=max(0.0, float(change.max())),
        swing=float(brake.max() - brake.min()),
        shortfall=float(np.sum(np.maximum(-change, 0.0))) / 1000,
        excess=float(np.sum(np.maximum(change, 0.0))) / 1000,
        coupling=coupling,
        lag=lag,
        extra_distance=cost.distance,
        stop=grid.seconds(stop),
        ahead=None if roll is None else roll.ahead,
    )
    return done, cost


def chord_of(pulse: Pulse, done: ChordDisturbance, seconds: Values) -> Values:
    """Chord that a blip's dip is told against, in % at times in s on the time axis of the trace."""
    return straight(seconds, *told_ends(pulse, done))


def told_ends(pulse: Pulse, done: ChordDisturbance) -> Ends:
    """Both ends of the chord that a blip's dip is told against: a time in s as of the trace, and
    the brake there in %."""
    last = done.stop - AFTER_MEAN / 2000, done.after
    if done.is_early and done.ahead is not None:
        return (pulse.onset - WIDE_AT / 1000, done.ahead), last
    return (pulse.onset - FROM / 1000, done.before), last
