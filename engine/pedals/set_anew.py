"""One end of the pedals set anew: the rest of all of them, or the full of the brake.

Both take calibrated samples, so no axis is searched for, and give the calibration to use from then
on.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from drills.calibration import COUNTS, Calibration, CalibrationError, Range
from drills.trace import Pedal, Sample, nanoseconds
from engine.pedals.at_rest import QUIET
from engine.pedals.gestures import LET_GO, PAST_HALF
from engine.pedals.moved_ends import MovedEnd
from engine.pedals.travel import STILL, STILL_FOR, Still
from engine.pedals.trouble import Motion

FEET_OFF_FOR = nanoseconds(2.0)
"""Time that all pedals must be still to take their rest, in ns: longer than a foot on its way."""
RESTLESS = nanoseconds(3.0)
"""Time that released pedals may keep moving until the player is told and more noise is allowed, in
ns: longer than they must be still."""
STEADY = 8.0
"""Largest movement of a brake that is held fully pressed, in points: a leg trembles."""
AGREE = 0.1
"""Share by which two full presses may differ, of the harder one."""


class RestAnew:
    """Takes the rest of every pedal once all have been still, and near their old rest, for 2 s."""

    def __init__(self, old: Calibration, moved: MovedEnd) -> None:
        """`old` is the calibration that the samples are read with; `moved` is the rest to set."""
        self.found: Calibration | None = None
        """Calibration with the new rests; None until all pedals have been still."""
        self.pressed: Pedal | None = None
        """Pedal that seems to be pressed, so that no rest is taken; None if there is none."""
        self.restless: Pedal | None = None
        """Released pedal that has not come to rest for a while (RESTLESS); None if all do."""
        self._ranges = ranges_of(old)
        self._off = {moved.pedal: abs(moved.percent)}
        self._still = {pedal: Still(FEET_OFF_FOR) for pedal in self._ranges}
        self._released: int | None = None
        self._tolerance = STILL

    def feed(self, sample: Sample) -> None:
        """Take the next sample of the pedals, read with the old calibration."""
        stayed = {}
        self.pressed = None
        for pedal, scale in self._ranges.items():
            percent = sample.of(pedal) or 0.0
            raw = scale.raw(percent)
            stayed[pedal] = self._still[pedal].take(sample.time, raw, self._tolerance)
            if abs(percent) >= LET_GO + self._off.get(pedal, 0.0):
                self.pressed = self.pressed or pedal
        self._allow(sample.time, stayed)
        if self.pressed is None and min(stayed.values()) >= FEET_OFF_FOR:
            places = (self._still[pedal].place for pedal in self._ranges)
            self.found = Calibration(*map(_rested, self._ranges.values(), places))

    def _allow(self, time: int, stayed: Mapping[Pedal, int]) -> None:
        """Allow more noise, and name a pedal, where released pedals have moved for RESTLESS.

        `stayed` is how long each pedal has been still, in ns.
        """
        if self._released is None or self.pressed is not None:
            self._released, self._tolerance, self.restless = time, STILL, None
        elif time - self._released >= RESTLESS:
            self._tolerance = QUIET
            least = min(stayed, key=lambda pedal: stayed[pedal])
            if self.restless is None or stayed[self.restless] >= FEET_OFF_FOR:
                self.restless = least if stayed[least] < FEET_OFF_FOR else None


class FullAnew:
    """Takes the full of the brake from two presses in a row that agree, each held and released."""

    def __init__(self, old: Calibration) -> None:
        """`old` is the calibration that the samples are read with."""
        self.found: Calibration | None = None
        """Calibration with the new full of the brake; None until two presses agree."""
        self.motion = Motion.RELEASE
        """Movement of the brake that is waited for: a full press, or its release."""
        self.percent = 0.0
        """Position of the brake, in % of its old range."""
        self.presses: list[float] = []
        """Full presses so far, in % of the old range."""
        self._old = old
        self._still = Still()

    @property
    def differ(self) -> bool:
        """Whether the latest two presses differ too much to be taken."""
        return len(self.presses) > 1 and not self._agree

    def feed(self, sample: Sample) -> None:
        """Take the next sample of the pedals, read with the old calibration."""
        self.percent = sample.brake
        stayed = self._still.take(sample.time, sample.brake, STEADY)
        if self.motion is Motion.FULL:
            if sample.brake >= PAST_HALF and stayed >= STILL_FOR:
                self.presses.append(self._still.place)
                self.motion = Motion.RELEASE
        elif sample.brake < LET_GO and stayed >= STILL_FOR:
            self.motion = Motion.FULL
            if self._agree:
                self._take(sum(self.presses[-2:]) / 2)

    @property
    def _agree(self) -> bool:
        latest = self.presses[-2:]
        return len(latest) == 2 and max(latest) - min(latest) <= AGREE * max(latest)

    def _take(self, percent: float) -> None:
        """Take a press, in % of the old range, as full; one that makes no scale is not taken."""
        brake = self._old.brake
        full = min(max(brake.raw(percent), -1.0), 1.0)
        try:
            new = Range(brake.rest, _counts(full))
        except CalibrationError:
            self.presses.clear()
            return
        self.found = replace(self._old, brake=new)
        self.motion = Motion.FOUND


def ranges_of(calibration: Calibration) -> Mapping[Pedal, Range]:
    """Range of each pedal that a calibration has, in the order brake, throttle, clutch."""
    ranges = (calibration.brake, calibration.throttle, calibration.clutch)
    return {pedal: one for pedal, one in zip(Pedal, ranges, strict=True) if one is not None}


def _rested(old: Range, rest: float) -> Range:
    """Range with another raw rest; the old one where too little travel would be left."""
    try:
        return Range(_counts(rest), old.full)
    except CalibrationError:
        return old


def _counts(raw: float) -> float:
    """Raw value rounded to a whole count, so that traces can be stored as counts."""
    return round(raw * COUNTS) / COUNTS
