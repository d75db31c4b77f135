"""Blips close together on a way down, each against a chord that spans all of them.

A chord needs a moment of brake after its blip. Where the next blip leaves none, one chord spans
both, so that quick downshifts are measured too. Where a line is asked, the chord bends as it does.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from drills.measures.along import bend_of
from drills.measures.blip import Pulse
from drills.measures.chord import (
    AFTER_LEAST,
    AFTER_MEAN,
    BEFORE_LEAST,
    BEFORE_TO,
    FROM,
    ChordDisturbance,
    ChordRun,
    Ends,
    Unchorded,
    Unscorable,
    chord_ends,
    measure_against,
    run_of_chords,
    window_end,
)
from drills.measures.distance import Stop
from drills.measures.early import WIDE_AT, straight
from drills.trace import Grid, Values

MEAN_AT = AFTER_MEAN // 2
"""Place of the brake after a blip, in grid points before the end of its window."""


@dataclass(frozen=True)
class _Group:
    """Blips that one chord spans."""

    pulses: tuple[Pulse, ...]
    """Throttle pulses of the blips, in order."""
    stops: tuple[int, ...]
    """Grid index at which the window of each blip ends."""
    cut: Unchorded
    """Why the window of the last blip ends where it does, if that is too soon."""


def measure_joined(
    grid: Grid,
    pulses: Sequence[Pulse],
    rest: float,
    road: Stop,
    since: int = 0,
    line: Values | None = None,
) -> ChordRun | Unscorable:
    """Measures of the throttle pulses of one run, those that come close together on one chord.

    `rest` is the throttle in % that counts as none; no early roll is looked for before the grid
    index `since`. `line` is the brake asked at each grid point, in %, shape (n,). Its height over
    the straight line between its values at both ends of a chord (0.1 s before the onset of the
    first blip, 0.025 s before the end of the last blip's window) is the bend of that chord. A chord
    is the straight one of the brake minus its bend, plus the bend; None: all are straight.
    """
    measured: list[tuple[Pulse, ChordDisturbance | Unchorded]] = []
    for group in _groups(grid, pulses):
        first, last, stop = group.pulses[0], group.pulses[-1], group.stops[-1]
        if first.first - BEFORE_TO < BEFORE_LEAST:
            measured += [(pulse, Unchorded.TOO_LITTLE) for pulse in group.pulses]
        elif stop - last.after < AFTER_LEAST:
            measured += [(pulse, group.cut) for pulse in group.pulses]
        else:
            bend = None if line is None else bend_of(line, first.first - FROM, stop - MEAN_AT)
            unbent = grid if bend is None else replace(grid, brake=grid.brake - bend)
            whole = chord_ends(unbent, first, stop)
            for pulse, until in zip(group.pulses, group.stops, strict=True):
                ends = whole if pulse is last and first is last else _part(whole, pulse, until)
                done, cost = measure_against(grid, pulse, until, ends, since, rest, road, bend)
                road = replace(road, v0=cost.speed)
                measured.append((pulse, done if bend is None else _bent(done, bend, pulse, until)))
                since = until
        since = stop
    return run_of_chords(measured)


def _groups(grid: Grid, pulses: Sequence[Pulse]) -> list[_Group]:
    """Blips in groups: one that leaves too little before the next is in one group with it."""
    groups: list[_Group] = []
    joins = False
    for number, pulse in enumerate(pulses):
        following = pulses[number + 1].first - BEFORE_TO if number + 1 < len(pulses) else None
        stop, cut = window_end(grid, pulse, following)
        alone = _Group((pulse,), (stop,), cut)
        if joins:
            before = groups.pop()
            alone = _Group((*before.pulses, pulse), (*before.stops, stop), cut)
        groups.append(alone)
        joins = cut is Unchorded.NEXT and stop - pulse.after < AFTER_LEAST
    return groups


def _part(whole: Ends, pulse: Pulse, stop: int) -> Ends:
    """Part of a chord over the window of one of its blips, which ends at grid index `stop`."""
    begins, ends = float(pulse.first - FROM), float(stop - MEAN_AT)
    return (begins, straight(begins, *whole)), (ends, straight(ends, *whole))


def _bent(done: ChordDisturbance, bend: Values, pulse: Pulse, stop: int) -> ChordDisturbance:
    """Measures against a straight chord, with the values of the chord that bends."""
    before = done.before + float(bend[pulse.first - FROM])
    after = done.after + float(bend[stop - MEAN_AT])
    ahead = None if done.ahead is None else done.ahead + float(bend[pulse.first - WIDE_AT])
    return replace(done, before=before, after=after, carry=after - before, ahead=ahead)
