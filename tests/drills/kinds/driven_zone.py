"""One braking zone as a person might drive it, by values: what the table of zones is made of."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from drills.kinds.zone import COUNTED, beats_of
from drills.score import Reason
from drills.targets import Targets
from drills.task import Performance
from drills.trace import STEP, Trace
from tests.drills.kinds import zone_case
from tests.drills.kinds.made import Made
from tests.drills.shapes import Values

PEAK = 70.0  # %
START = 1.0  # s from the trace's beginning to the first knock
USUAL = {
    "dip": 12.0,
    "surge": 10.0,
    "line_worst": 10.0,
    "off_at": 0.2,
    "brake_on": 0.15,
    "lateness": 0.15,
    "peak_error": 8.0,
    "rise": 0.4,
}
ZONE = replace(zone_case.with_own(ease=1.2, shifts=2.0), targets=Targets((PEAK,)), limits=USUAL)


@dataclass(frozen=True)
class Foot:
    """What a foot does otherwise than asked in one zone."""

    on: float = 0.0
    """Time from the braking point to the brake, in s."""
    rise: float = 0.001
    """Time from nothing to the peak, in s."""
    peak: float = 0.0
    """How far the squeeze goes past the peak until 0.5 s, in points."""
    bend: float = 0.0
    """Brake over its line half way down, in points."""
    off: float = 0.0
    """Time from turn-in to the brake being off, in s."""
    stays: float = 0.0
    """Brake that is never let go, in %."""
    gone: float = 9.0
    """When the brake is let go altogether, in s from the braking point."""
    dips: Sequence[float] = (0.0, 0.0, 0.0, 0.0)
    """Brake lost at each blip, in points."""
    lead: float = 0.0
    """Time from the brake leaving to the throttle, in s."""
    surge: float = 0.0
    """Brake added after each blip, in points."""
    late: Sequence[float] = (0.0, 0.0, 0.0, 0.0)
    """Time from each beat to its blip, in s."""
    blips: int = 9
    """Most blips, as a count."""
    pulse: float = 0.25
    """Length of a blip at its foot, in s."""
    throttle: float = 70.0
    """Throttle at the peak of a blip, in %."""
    presses: bool = True
    """Whether the brake is pressed at all."""


def _bump(time: Values, at: float, length: float, height: float) -> Values:
    """A half sine of a height."""
    return height * np.sin(np.pi * np.clip((time - at) / length, 0.0, 1.0))


def driven(foot: Foot, limits: dict[str, float], shifts: int = 2) -> Made:
    """The zone that a foot drives."""
    level = replace(ZONE, limits=limits, own={**ZONE.own, "shifts": float(shifts)})
    task = level.kind.task(level, PEAK, np.random.default_rng(1))
    point = START + task.cues[COUNTED]
    ends = task.line[-1][0]
    time = np.arange(round(1000 * (point + ends + 1.6))) / 1000 - point
    times, brakes = zip(*task.line, strict=True)
    brake: Values = np.interp(time * ends / (ends + foot.off), times, brakes)
    brake = brake + foot.peak * np.clip((0.7 - time) / 0.2, 0.0, 1.0)
    brake = brake + _bump(time, 0.2, ends - 0.2, foot.bend)
    throttle = np.zeros(time.size)
    blips = list(zip(beats_of(level), foot.late, foot.dips, strict=False))[: foot.blips]
    for beat, late, dip in blips:
        onset = beat + late
        throttle = np.maximum(throttle, _bump(time, onset, foot.pulse, foot.throttle))
        brake = brake - _bump(time, onset - foot.lead, foot.pulse + foot.lead, dip)
        brake = brake + _bump(time, onset + foot.pulse, 0.15, foot.surge)
    brake = brake * np.clip((time - foot.on) / foot.rise, 0.0, 1.0)
    brake = np.maximum(brake, foot.stays * (time > 0.5))
    brake = np.where((time > foot.gone) | (not foot.presses), 0.0, np.maximum(brake, 0.0))
    trace = Trace(np.arange(time.size, dtype=np.int64) * STEP, brake, throttle)
    cues = tuple(round((START + cue) * 1000) * STEP for cue in task.cues)
    return Made(level, task, Performance(trace, 0, cues))


@dataclass(frozen=True)
class Case:
    """One zone to 70 %, with its sentence, its verdict and its bubble."""

    name: str
    said: str
    foot: Foot = field(default_factory=Foot)
    lean: float | None = 0.0
    reason: Reason = Reason.OVER_LIMIT
    limits: dict[str, float] = field(default_factory=lambda: dict(USUAL))
    shifts: int = 2

    @property
    def made(self) -> Made:
        """The repetition."""
        return driven(self.foot, self.limits, self.shifts)


def random_zone(seed: int) -> Made:
    """A zone that a random foot drives, under three limits drawn from the usual ones."""
    rng = np.random.default_rng(seed)
    foot = Foot(
        on=rng.normal(0, 0.15),
        rise=rng.uniform(0.05, 0.5),
        peak=rng.normal(0, 9),
        bend=rng.normal(0, 12),
        off=rng.normal(0, 0.2),
        dips=tuple(rng.uniform(0, 25, 4)),
        lead=rng.uniform(-0.05, 0.2),
        surge=rng.uniform(0, 12),
        late=tuple(rng.normal(0, 0.1, 4)),
        pulse=rng.uniform(0.15, 0.4),
    )
    limits = {name: USUAL[name] for name in rng.permutation(list(USUAL))[:3].tolist()}
    return driven(foot, limits, int(rng.integers(1, 4)))
