"""Measures of the clutch in a downshift: when it went down and up, and if the blip was under it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from drills.measures.blip import Pulse
from drills.trace import Values

DOWN = 50.0
"""Clutch in % from which it counts as down: it disengages about mid-travel (common practice)."""
UP = 20.0
"""Clutch in % under which it counts as up again."""
TIE = 0.020
"""Least time between a clutch and a throttle movement that are not simultaneous, in s."""
ONE_PRESS = 500
"""Least time between the onsets of two blips in which the clutch comes up, in grid points: 0.5 s.
Over closer ones it may stay down (common practice)."""


@dataclass(frozen=True)
class ClutchWork:
    """What the left foot did with the clutch, from the cue on."""

    clutch_down: float | None
    """Time from the cue until the clutch was down, in s; None where it never was."""
    clutch_up: float | None
    """Time from the cue until the clutch was up again, in s; None where it never was."""
    under_clutch: float
    """Share of the throttle pulse with the clutch down, from 0 to 1."""
    down_late: float | None
    """Time from the throttle onset to the clutch going down, in s; from a tie on the blip came
    first; None where the clutch never went down."""
    up_early: float | None
    """Time from the clutch coming up to the end of the throttle pulse, in s; from a tie on the
    clutch came first; None where it never came up."""


def measure_clutch(clutch: Values, cue: int, pulse: Pulse, late: float = 0.0) -> ClutchWork:
    """Measures of a clutch of shape (n,), in % on the 1 ms grid, from the cue's grid index on.

    `pulse` is the blip on the same grid; `late` is the time from the cue to its grid point, in s.
    """
    down = _first(clutch[cue:] >= DOWN)
    up = None if down is None else _first(clutch[cue + down :] < UP)
    return ClutchWork(
        clutch_down=None if down is None else late + down / 1000,
        clutch_up=None if down is None or up is None else late + (down + up) / 1000,
        under_clutch=float(np.mean(clutch[pulse.first : pulse.after] >= DOWN)),
        down_late=None if down is None else (cue + down - pulse.first) / 1000,
        up_early=None if down is None or up is None else (pulse.after - cue - down - up) / 1000,
    )


@dataclass(frozen=True)
class Stroke:
    """The clutch going down once, and up again."""

    down: int
    """Grid index at which the clutch went down: at 50 % or more."""
    up: int | None
    """Grid index at which it came up after that: under 20 %. None where it never did."""

    def overlap(self, pulse: Pulse) -> int:
        """Grid points of a throttle pulse that fall into the stroke."""
        ends = pulse.after if self.up is None else min(self.up, pulse.after)
        return max(ends - max(self.down, pulse.first), 0)


@dataclass(frozen=True)
class BlipClutch:
    """What the left foot did with the clutch at one blip of several.

    The stroke of a blip is the one that covers most of its pulse. Where none does it is, of those
    that touch no blip and lie between the blips before and after, the one that goes down nearest to
    the onset.
    """

    under_clutch: float
    """Share of the throttle pulse with the clutch at 50 % or more, from 0 to 1."""
    down_late: float | None
    """Time from the throttle onset to the clutch going down, in s; from a tie on the blip came
    first; None where the blip has no stroke."""
    up_early: float | None
    """Time from the clutch coming up to the end of the throttle pulse, in s; from a tie on the
    clutch came first; None where the clutch stayed down: to the end, or into the next blip though
    that began 0.5 s or more after this one."""


def strokes_of(clutch: Values, since: int) -> tuple[Stroke, ...]:
    """Strokes of a clutch of shape (n,), in % on the 1 ms grid, from grid index `since` on."""
    strokes: list[Stroke] = []
    at: int | None = since
    while at is not None and (down := _first(clutch[at:] >= DOWN)) is not None:
        down += at
        up = _first(clutch[down:] < UP)
        at = None if up is None else down + up
        strokes.append(Stroke(down, at))
    return tuple(strokes)


def measure_strokes(clutch: Values, since: int, pulses: Sequence[Pulse]) -> tuple[BlipClutch, ...]:
    """What the clutch did at each blip of several; `clutch` and `since` as for `strokes_of`."""
    strokes = strokes_of(clutch, since)
    following: list[Pulse | None] = [*(after for _, after in pairwise(pulses)), None]
    return tuple(
        _at_blip(clutch, pulse, _stroke_of(strokes, pulses, number), after)
        for number, (pulse, after) in enumerate(zip(pulses, following, strict=False))
    )


def _stroke_of(strokes: Sequence[Stroke], pulses: Sequence[Pulse], number: int) -> Stroke | None:
    """Stroke of the blip with an index; None where it has none."""
    pulse = pulses[number]
    covering = max(strokes, key=lambda stroke: stroke.overlap(pulse), default=None)
    if covering is None or covering.overlap(pulse):
        return covering
    begins = pulses[number - 1].after if number else 0
    ends = pulses[number + 1].first if number + 1 < len(pulses) else strokes[-1].down + 1
    free = [
        stroke
        for stroke in strokes
        if begins <= stroke.down < ends and not any(stroke.overlap(one) for one in pulses)
    ]
    return min(free, key=lambda stroke: abs(stroke.down - pulse.first), default=None)


def _at_blip(
    clutch: Values, pulse: Pulse, stroke: Stroke | None, following: Pulse | None
) -> BlipClutch:
    under = float(np.mean(clutch[pulse.first : pulse.after] >= DOWN))
    if stroke is None:
        return BlipClutch(under, None, None)
    stayed = stroke.up is None or (
        following is not None
        and following.first - pulse.first >= ONE_PRESS
        and stroke.up > following.first
    )
    return BlipClutch(
        under_clutch=under,
        down_late=(stroke.down - pulse.first) / 1000,
        up_early=None if stayed or stroke.up is None else (pulse.after - stroke.up) / 1000,
    )


def tie(report_interval: float | None) -> float:
    """Least time between two pedal movements that a device can tell apart, in s."""
    return max(TIE, report_interval or 0.0)


def in_order(late: float, together: float) -> bool:
    """Whether a movement due first came first, or less than `together` s after the other.

    `late` is how long after the other it came, in s; negative where it came before.
    """
    return late < together


def _first(reached: np.ndarray[tuple[int], np.dtype[np.bool_]]) -> int | None:
    """Index of the first true value; None where there is none."""
    return int(np.argmax(reached)) if reached.any() else None
