"""Turns pedal samples during a drive into rows of a recording that `stillfoot score` reads.

A row is written when a pedal changes, and at intervals while none does, so that rest differs from
a gap. Numbers are written so that they, and the axis counts behind them, read back exactly.
"""

from __future__ import annotations

from drills.measures.blip import BRAKE_OFF
from drills.recording import FARTHEST_OUT
from drills.trace import SECOND, Sample, nanoseconds
from engine.pedals.port import Clock

ALIVE = nanoseconds(0.015)
"""Time without a change after which a row is written all the same, in ns: `score` calls a silence
over 0.1 s a gap, and fewer than 50 rows a second coarse."""
IDLE = nanoseconds(300.0)
"""Time without a moved pedal after which the recording of a drive stops, in ns: longer than most
pauses in a garage, and short enough not to record a whole evening."""
MOVED = 2.0
"""Smallest movement of a pedal that shows a foot on it, in %: a load cell's noise and drift are
less."""
ASLEEP = nanoseconds(0.5)
"""Lead of the date over the clock that shows that the computer slept, in ns: some clocks stop in
sleep, and no correction over the network is as large."""
DATED = nanoseconds(0.1)
"""Time between readings of the date that look for sleep, in ns: one takes longer than the
pedals."""


class DriveRecorder:
    """Turns samples into rows of a recording; holds the newest row back until the next sample.

    The axis of an unplugged device snaps back just before the device is reported gone, which looks
    like a foot that lets go: that row is never written.
    """

    def __init__(self, *, clutch: bool, date: Clock) -> None:
        """`clutch`: whether there is a clutch. `date` is a clock in ns that goes on in sleep."""
        self.header = "time,brake,throttle,clutch\n" if clutch else "time,brake,throttle\n"
        self._clutch = clutch
        self._date = date
        self._began: int | None = None
        self._lead = 0
        self._dated = 0
        self._slept = 0
        self._waiting = ""
        self._last: Sample | None = None
        self._moved_from: Sample | None = None
        self._moved = 0
        self._now = 0
        self._is_over = False

    @property
    def seconds(self) -> float:
        """Seconds recorded since the first sample, without those the computer slept."""
        return 0.0 if self._began is None else (self._now - self._began) / SECOND

    @property
    def is_idle(self) -> bool:
        """Whether no pedal was moved for so long that the drive must be over."""
        still = self._began is not None and self._now - self._moved >= IDLE
        return still or self._is_over

    @property
    def is_braking(self) -> bool:
        """Whether the brake is pressed now, so that a blip may follow."""
        return self._last is not None and self._last.brake >= BRAKE_OFF

    def take(self, sample: Sample | None, now: int) -> str:
        """Take a sample at `now` (ns), None without pedals; return the rows to be written."""
        self._begin(now)
        self._now = now
        if self._overslept(now):
            self._last = None
        if sample is None:
            rows, self._waiting, self._last = self._waiting, "", None
            return rows
        self._note_movement(sample)
        last = self._last
        if last and not _differ(sample, last) and sample.time - last.time < ALIVE:
            return self._pass_on("")
        self._last = sample
        return self._pass_on(self._row(sample))

    def cut(self) -> None:
        """Drop the row held back when the pedals are unplugged: no foot made that movement."""
        self._waiting, self._last = "", None

    def end(self) -> str:
        """End the recording; return the row held back, to be written."""
        return self._pass_on("")

    def _begin(self, now: int) -> None:
        if self._began is None:
            self._began = self._moved = self._dated = now
            self._lead = self._date() - now

    def _overslept(self, now: int) -> bool:
        """Whether the computer slept since the last sample; later rows move on by as much time."""
        if now - self._dated < DATED:
            return False
        self._dated = now
        lead = self._date() - now
        asleep, self._lead = lead - self._lead, lead
        if asleep <= ASLEEP:
            return False
        self._slept += asleep
        self._is_over = self._is_over or asleep >= IDLE
        return True

    def _note_movement(self, sample: Sample) -> None:
        if self._moved_from is None or _differ(sample, self._moved_from, MOVED):
            self._moved_from, self._moved = sample, sample.time

    def _pass_on(self, row: str) -> str:
        rows, self._waiting = self._waiting, row
        return rows

    def _row(self, sample: Sample) -> str:
        since = sample.time - (self._began or 0) + self._slept
        cells = ",".join(repr(_readable(value)) for value in _values(sample, self._clutch))
        return f"{since // SECOND}.{since % SECOND:09d},{cells}\n"


def _values(sample: Sample, clutch: bool) -> tuple[float, ...]:
    """Positions of the recorded pedals, in %: brake, throttle, and the clutch if there is one."""
    two = (sample.brake, sample.throttle)
    return (*two, sample.clutch or 0.0) if clutch else two


def _readable(value: float) -> float:
    """Pedal position in % brought into the range that a recording may hold."""
    return min(max(value, -FARTHEST_OUT), 100.0 + FARTHEST_OUT)


def _differ(sample: Sample, other: Sample, by: float = 0.0) -> bool:
    """Whether any pedal moved by more than `by` % between two samples."""
    pairs = zip(_values(sample, True), _values(other, True), strict=True)
    return any(abs(now - was) > by for now, was in pairs)
