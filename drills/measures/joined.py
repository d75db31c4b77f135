"""Blips close together on a way down, each against a chord that spans all of them.

A chord needs a moment of brake after its blip. Where the next blip leaves none, one chord spans
both, so that quick downshifts are measured too.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

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
from drills.measures.early import straight
from drills.trace import Grid


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
    grid: Grid, pulses: Sequence[Pulse], rest: float, road: Stop, since: int = 0
) -> ChordRun | Unscorable:
    """Measures of the throttle pulses of one run, those that come close together on one chord.

    `rest` is the throttle in % that counts as none; no early roll is looked for before the grid
    index `since`.
    """
    measured: list[tuple[Pulse, ChordDisturbance | Unchorded]] = []
    for group in _groups(grid, pulses):
        first, last, stop = group.pulses[0], group.pulses[-1], group.stops[-1]
        if first.first - BEFORE_TO < BEFORE_LEAST:
            measured += [(pulse, Unchorded.TOO_LITTLE) for pulse in group.pulses]
        elif stop - last.after < AFTER_LEAST:
            measured += [(pulse, group.cut) for pulse in group.pulses]
        else:
            whole = chord_ends(grid, first, stop)
            for pulse, until in zip(group.pulses, group.stops, strict=True):
                ends = whole if pulse is last and first is last else _part(whole, pulse, until)
                done, cost = measure_against(grid, pulse, until, ends, since, rest, road)
                road = replace(road, v0=cost.speed)
                measured.append((pulse, done))
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
    begins, ends = float(pulse.first - FROM), stop - AFTER_MEAN / 2
    return (begins, straight(begins, *whole)), (ends, straight(ends, *whole))
