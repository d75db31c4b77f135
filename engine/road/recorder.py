"""Pedals read while the player drives, as rows of a recording that `stillfoot score` reads.

A row is written where a pedal changed, and as a sign of life while none does, so that a gap is
told from rest. Numbers are written so that they read back exactly, and axis counts with them.
"""

from __future__ import annotations

from drills.measures.blip import BRAKE_OFF
from drills.recording import FARTHEST_OUT
from drills.trace import SECOND, Sample, nanoseconds
from engine.pedals.port import Clock

ALIVE = nanoseconds(0.015)
"""ns without a change after which a row is written all the same: `score` calls a silence over
0.1 s a gap, and under 50 rows a second coarse."""
IDLE = nanoseconds(300.0)
"""ns without a pedal moved, after which nobody drives any more: longer than a pause in a garage
mostly is, and short enough that an evening is not recorded to its end."""
MOVED = 2.0
"""%, the least movement of a foot: more than a load cell's noise and drift at rest."""
ASLEEP = nanoseconds(0.5)
"""ns that the date may run ahead of the clock before the computer must have slept: some clocks
stand still meanwhile, and no correction of the date by the network is as large."""
DATED = nanoseconds(0.1)
"""ns from one look at the date to the next, which takes longer than one at the pedals."""


class DriveRecorder:
    """Turns samples into rows. The newest row waits for the next look at the pedals.

    An axis snaps back just before its device is known to be gone, which looks like a foot that
    lets go: that row is never written.
    """

    def __init__(self, *, clutch: bool, date: Clock) -> None:
        """`clutch`: whether there is one. `date` is ns by a clock that goes on in sleep."""
        self.header = "time,brake,throttle,clutch\n" if clutch else "time,brake,throttle\n"
        self._clutch = clutch
        self._date = date
        self._began: int | None = None
        self._ahead = 0
        self._dated = 0
        self._slept = 0
        self._waiting = ""
        self._last: Sample | None = None
        self._still: Sample | None = None
        self._moved = 0
        self._now = 0
        self._deserted = False

    @property
    def seconds(self) -> float:
        """s since the first look, without those asleep."""
        return 0.0 if self._began is None else (self._now - self._began) / SECOND

    @property
    def is_idle(self) -> bool:
        """Whether no pedal was moved for so long, awake or asleep, that nobody drives."""
        still = self._began is not None and self._now - self._moved >= IDLE
        return still or self._deserted

    @property
    def is_braking(self) -> bool:
        """Whether the brake is on, so that a blip may come."""
        return self._last is not None and self._last.brake >= BRAKE_OFF

    def take(self, sample: Sample | None, now: int) -> str:
        """The pedals at `now` (ns), None while they are not there; the rows to be written."""
        self._begin(now)
        self._now = now
        if self._overslept(now):
            self._last = None
        if sample is None:
            rows, self._waiting, self._last = self._waiting, "", None
            return rows
        self._watch(sample)
        last = self._last
        if last and not _differ(sample, last) and sample.time - last.time < ALIVE:
            return self._pass_on("")
        self._last = sample
        return self._pass_on(self._row(sample))

    def cut(self) -> None:
        """The pedals were pulled out: what they read last was not the foot's."""
        self._waiting, self._last = "", None

    def end(self) -> str:
        """The row that still waits."""
        return self._pass_on("")

    def _begin(self, now: int) -> None:
        if self._began is None:
            self._began = self._moved = self._dated = now
            self._ahead = self._date() - now

    def _overslept(self, now: int) -> bool:
        """Whether the computer slept since the last look; the time of rows goes on by as much."""
        if now - self._dated < DATED:
            return False
        self._dated = now
        ahead = self._date() - now
        gone, self._ahead = ahead - self._ahead, ahead
        if gone <= ASLEEP:
            return False
        self._slept += gone
        self._deserted = self._deserted or gone >= IDLE
        return True

    def _watch(self, sample: Sample) -> None:
        if self._still is None or _differ(sample, self._still, MOVED):
            self._still, self._moved = sample, sample.time

    def _pass_on(self, row: str) -> str:
        rows, self._waiting = self._waiting, row
        return rows

    def _row(self, sample: Sample) -> str:
        since = sample.time - (self._began or 0) + self._slept
        cells = ",".join(repr(_readable(value)) for value in _values(sample, self._clutch))
        return f"{since // SECOND}.{since % SECOND:09d},{cells}\n"


def _values(sample: Sample, clutch: bool) -> tuple[float, ...]:
    """%, what each pedal that is recorded reads."""
    two = (sample.brake, sample.throttle)
    return (*two, sample.clutch or 0.0) if clutch else two


def _readable(value: float) -> float:
    """The nearest % that a recording may hold."""
    return min(max(value, -FARTHEST_OUT), 100.0 + FARTHEST_OUT)


def _differ(sample: Sample, other: Sample, by: float = 0.0) -> bool:
    """Whether any pedal is more than so many % from where it was."""
    pairs = zip(_values(sample, True), _values(other, True), strict=True)
    return any(abs(now - was) > by for now, was in pairs)
