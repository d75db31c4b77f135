"""Levels, asks and records made for tests, each changed in the one thing a test is about."""

from dataclasses import replace
from datetime import datetime, timedelta, timezone
from typing import Any

import numpy as np
import numpy.typing as npt

from drills.calibration import COUNTS, Calibration, Range
from drills.kinds import KINDS
from drills.level import Level, PassRule
from drills.measures.sampling import Sampling
from drills.score import Reason, Verdict
from drills.targets import Targets
from drills.trace import STEP, Grid, Trace
from engine.store import Record

Floats = npt.NDArray[np.float64]

BLIP = Level(
    id="a-blip",
    title="A blip",
    purpose="One blip for the tests.",
    kind=KINDS["blip"],
    targets=Targets((60.0,)),
    tolerance=15.0,
    limits={"dip": 15.0},
    own={"blip.least": 30.0, "blip.most": 100.0, "blip.longest": 0.6, "blip.size": 0.0},
)
HOLD = Level(
    id="a-hold",
    title="A hold",
    purpose="One hold for the tests.",
    kind=KINDS["hold"],
    targets=Targets((60.0,)),
    tolerance=6.0,
    limits={"total_error": 4.0},
    own={"duration": 2.0},
)

BLIP_TASK = replace(
    BLIP.kind.task(BLIP, 60.0, np.random.default_rng(1)), wait=1.5, steady=0.8, tail=1.2
)
HOLD_TASK = replace(HOLD.kind.task(HOLD, 60.0, np.random.default_rng(1)), steady=0.8)

SCALE = Calibration(Range(-0.96875, 0.9), Range(0.96875, -0.75), Range(0.01, 0.99))
"""A pedal from near one end to near the other, an inverted one, and a short one."""

SUMMER = timezone(timedelta(hours=2))


def level(**changes: Any) -> Level:
    """The blip level with some fields changed."""
    return replace(BLIP, **changes)


def trace(samples: int = 400, clutch: bool = False, scale: Calibration = SCALE) -> Trace:
    """A device read at irregular times: values that change, stay, and come back."""
    rng = np.random.default_rng(7)
    time = np.cumsum(rng.integers(200_000, 1_700_000, samples), dtype=np.int64) - 200_000
    brake = _raw(scale.brake, 60 + np.repeat(rng.normal(0, 3, samples // 4), 4))
    throttle = _raw(scale.throttle, np.where(np.arange(samples) % 97 < 11, 55.5, 0.0))
    third = np.repeat(rng.random(samples // 8), 8)
    assert scale.clutch is not None
    raw = [np.rint(pedal * COUNTS) / COUNTS for pedal in (brake, throttle, third)[: 2 + clutch]]
    return Trace(
        time - time[0],
        _percent(scale.brake, raw[0]),
        _percent(scale.throttle, raw[1]),
        _percent(scale.clutch, raw[2]) if clutch else None,
        (np.array(raw) * COUNTS).astype(np.int64),
    )


def _raw(axis: Range, percent: Floats) -> Floats:
    """Raw values at positions in percent."""
    return axis.rest + (axis.full - axis.rest) * percent / 100.0


def _percent(axis: Range, raw: Floats) -> Floats:
    """Positions in percent at raw values."""
    return 100.0 * (raw - axis.rest) / (axis.full - axis.rest)


def on_grid(trace: Trace) -> Trace:
    """Brake and throttle of a trace, a sample each grid point."""
    grid = Grid.of(trace)
    time = grid.start + STEP * np.arange(len(grid), dtype=np.int64)
    return Trace(time, grid.brake, grid.throttle)


def record(**changes: Any) -> Record:
    """A record with every field set, some of them changed."""
    usual = Record(
        level="a-blip",
        kind="blip",
        source="pedals",
        feet=True,
        at=datetime(2024, 5, 17, 20, 15, 30, 250_000, tzinfo=SUMMER),
        target=60.0,
        tolerance=15.0,
        verdict=Verdict(Reason.OVER_LIMIT, 41.25, ("dip",), {"dip": 19.5, "settle": None}),
        trace=trace(),
        dark=800_000_000,
        cues=(2_300_000_000,),
        sampling=Sampling(998.5, 0.0021, 0.0087, 0.0244, 0.008),
        calibration=SCALE,
        rule=PassRule(),
    )
    return replace(usual, **changes)
