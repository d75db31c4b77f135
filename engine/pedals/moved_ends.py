"""Ends of the pedals that moved since they were set up: a rest that crept away, a full too soft.

Only what a pedal keeps for a while counts, and only if several repetitions agree: a jump of the
device, a slip of the foot or a foot left on a pedal once shows nothing.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from math import inf

from drills.trace import Pedal, Sample, nanoseconds

BLOCK = nanoseconds(0.15)
"""Time that a pedal must keep a position for it to count, in ns: longer than a jump of a device,
shorter than a foot stays at the end of a press."""
REST_MOST = {Pedal.BRAKE: 5.0, Pedal.THROTTLE: 3.5, Pedal.CLUTCH: 3.5}
"""Distance of a pedal's rest from 0 from which on it has moved, in %. A repetition begins with a
throttle under 5 %: one that creeps by half a point a repetition is noticed before that."""
RESTING = 1.5
"""Largest movement of a resting pedal within a BLOCK, in points: noise; a foot that turns round to
press again moves more."""
READ_EACH = nanoseconds(0.03)
"""Longest time between two reads in a BLOCK that counts, in ns: a pedal that was not read in
between may have moved."""
FULL_MOST = 110.0
"""Position of the brake above which its full was set too soft, in %."""
RESTED_IN = 3
"""Repetitions in a row in which a rest must be off, as a count: a foot may stay on a pedal in one
or two."""
ALIKE = 2.0
"""Largest difference between the rests of those repetitions, in points: a foot left on a pedal
varies more, a rest that creeps less."""
PASSED_IN, PASSED_OF = 3, 10
"""How many of the latest repetitions must pass the brake's full, and how many are looked at, as
counts: one or two may be a stomp."""
WORSE = {"rest": 2.0, "full": 5.0}
"""Points by which an end must have moved on, since the player declined, to be asked about again."""


class End(StrEnum):
    """One end of a pedal's travel."""

    REST = "rest"
    FULL = "full"


@dataclass(frozen=True)
class MovedEnd:
    """An end of a pedal that is not where it was when the pedals were set up."""

    pedal: Pedal
    """Pedal whose end moved."""
    end: End
    """End that moved."""
    percent: float
    """Position that the pedal now rests at, or is pressed to, in % of its range."""

    @property
    def key(self) -> str:
        """Name of the end, such as "throttle rest"."""
        return f"{self.pedal.value} {self.end.value}"

    def is_worse(self, declined: float) -> bool:
        """Whether it moved on enough since the player declined to set it anew at `declined` %."""
        further = self.percent - declined
        if self.end is End.REST:
            further = abs(self.percent) - abs(declined)
        return further >= WORSE[self.end.value]


class LastingEnds:
    """Where each pedal rested and how far it was pressed in one repetition, each for a BLOCK."""

    def __init__(self) -> None:
        self._begun: int | None = None
        self._last = 0
        self._is_whole = True
        self._block: dict[Pedal, tuple[float, float]] = {}
        self._rests: dict[Pedal, float] = {}
        self._lowest: dict[Pedal, float] = {}
        self._highest: dict[Pedal, float] = {}

    def feed(self, sample: Sample) -> None:
        """Take the next sample of the pedals."""
        if self._begun is not None and sample.time - self._last > READ_EACH:
            self._is_whole = False
        if self._begun is None or sample.time - self._begun >= BLOCK:
            self._close()
            self._begun, self._is_whole = sample.time, True
        self._last = sample.time
        for pedal, value in (
            (Pedal.BRAKE, sample.brake),
            (Pedal.THROTTLE, sample.throttle),
            (Pedal.CLUTCH, sample.clutch),
        ):
            if value is None:
                continue
            low, high = self._block.get(pedal, (inf, -inf))
            if value < low or value > high:
                self._block[pedal] = (min(low, value), max(high, value))

    def rest(self, pedal: Pedal) -> float | None:
        """Lowest position in % at which the pedal was still for a block; None if there is none.

        None too if it went lower without coming to rest, as a brake does that is pressed again at
        once.
        """
        rest = self._rests.get(pedal, inf)
        return rest if rest <= self._lowest.get(pedal, -inf) + RESTING else None

    def press(self, pedal: Pedal) -> float | None:
        """Highest position that the pedal stayed at or above for a block, in %; None: no block."""
        return self._highest.get(pedal)

    def _close(self) -> None:
        """End a block: its greatest value bounds the rest, its least value the press."""
        for pedal, (low, high) in self._block.items():
            self._lowest[pedal] = min(self._lowest.get(pedal, high), high)
            if self._is_whole and high - low <= RESTING:
                self._rests[pedal] = min(self._rests.get(pedal, high), high)
            if self._is_whole:
                self._highest[pedal] = max(self._highest.get(pedal, low), low)
        self._block = {}


class MovedEnds:
    """Watch over the ends of the pedals, from repetition to repetition."""

    def __init__(self) -> None:
        self._rests: dict[Pedal, deque[float]] = {
            pedal: deque(maxlen=RESTED_IN) for pedal in REST_MOST
        }
        self._presses: deque[float] = deque(maxlen=PASSED_OF)

    def take(self, ends: LastingEnds, *, found_target: bool = True) -> list[MovedEnd]:
        """Take the ends of one more repetition; returns the ends that moved.

        A repetition that never found its target has lasted so long (8 s or more) that its rests
        are certain.
        """
        for pedal, rests in self._rests.items():
            if (rest := ends.rest(pedal)) is not None:
                rests.append(rest)
        if (press := ends.press(Pedal.BRAKE)) is not None:
            self._presses.append(press)
        return [*self._moved_rests(RESTED_IN if found_target else 1), *self._passed_full()]

    def _moved_rests(self, needed: int) -> Iterator[MovedEnd]:
        """Rests that were off, and alike, in the latest `needed` repetitions."""
        for pedal, rests in self._rests.items():
            latest = list(rests)[-needed:]
            off = all(abs(rest) >= REST_MOST[pedal] for rest in latest)
            if len(latest) == needed and off and max(latest) - min(latest) <= ALIKE:
                yield MovedEnd(pedal, End.REST, latest[-1])

    def _passed_full(self) -> Iterator[MovedEnd]:
        """Full of the brake, if enough of the latest presses went past it: their median."""
        past = sorted(press for press in self._presses if press > FULL_MOST)
        if len(past) >= PASSED_IN:
            yield MovedEnd(Pedal.BRAKE, End.FULL, past[len(past) // 2])
