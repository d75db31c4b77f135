"""The measures of a braking zone against their definitions written a second time, on many feet."""

from collections import Counter
from functools import cache

import numpy as np
import pytest

from drills.measures.blip import find_blips
from drills.measures.chord import ChordDisturbance
from drills.measures.distance import Stop
from drills.measures.zone import ZoneWork, measure_zone
from drills.trace import SECOND, Grid, Trace, nanoseconds
from tests.drills.measures import plain, plain_zone
from tests.drills.measures.signals import ORIGIN
from tests.drills.measures.zone_feet import KNOCK, POINT, drive

FEET = 200
TOLERANCE = 1e-9
OF_A_BLIP = ("before", "after", "carry", "dip", "surge", "shortfall", "excess", "extra_distance")


@cache
def measured(seed: int) -> tuple[ZoneWork | None, plain.Measures | None, Grid]:
    """A drawn zone, measured by the program and a second time."""
    samples, line = drive(seed)
    time, brake, throttle = zip(*samples, strict=True)
    grid = Grid.of(Trace(np.array(time, dtype=np.int64), np.array(brake), np.array(throttle)))
    start, point = (grid.index(ORIGIN + nanoseconds(at)) for at in (KNOCK, POINT))
    work = measure_zone(grid, start, point, line, find_blips(grid), Stop())
    return work, plain_zone.zone(*plain.grid(samples), start, point, line), grid


def near(value: float | None) -> object:
    """A stand-in for a number that equals one as good as it; None for none."""
    return None if value is None else pytest.approx(value, abs=TOLERANCE)


@pytest.mark.parametrize("seed", range(FEET))
def test_a_zone_measures_what_the_plain_version_does(seed: int) -> None:
    work, expected, grid = measured(seed)

    assert (work is None) == (expected is None)
    if work is None or expected is None:
        return
    for name in ("brake_on", "rise", "peak_error", "line_error", "reversals", "off_at"):
        assert getattr(work, name) == near(expected[name]), f"{name}, seed {seed}"
    assert work.line_lag in expected["lags"], f"seed {seed}"
    if work.line_worst is not None:
        away = expected["fits"][work.line_lag]
        assert abs(work.line_worst) == near(max(abs(one) for one in away)), f"seed {seed}"
        assert any(abs(work.line_worst - one) < TOLERANCE for one in away), f"seed {seed}"
    blips = expected["blips"].get(work.line_lag, [])
    assert len(work.blips) == len(blips), f"seed {seed}"
    for (_, done), blip in zip(work.blips, blips, strict=True):
        assert isinstance(done, ChordDisturbance) == bool(blip), f"seed {seed}"
        if isinstance(done, ChordDisturbance):
            for name in OF_A_BLIP:
                assert getattr(done, name) == near(blip[name]), f"{name}, seed {seed}"
            assert done.early == near(blip["early"]), f"seed {seed}"
            assert round((done.stop - grid.start / SECOND) * 1000) == blip["stop"], f"seed {seed}"
            gains = blip["couplings"]
            assert done.lag is None or done.coupling == near(gains[done.lag]), f"seed {seed}"


def test_the_feet_that_are_drawn_do_everything_that_a_foot_may() -> None:
    works = [work for work, _, _ in (measured(seed) for seed in range(FEET))]
    seen = Counter[str]()
    for work in works:
        if work is None:
            seen["not pressed"] += 1
            continue
        seen[f"{len(work.blips)} blips"] += 1
        seen["never at the peak"] += work.rise is None
        seen["never off"] += work.off_at is None
        seen["off early"] += work.off_at is not None and work.off_at < -0.2
        seen["on early"] += work.brake_on < 0
        seen["too little line"] += work.line_error is None
        seen["reversals"] += (work.reversals or 0) > 0
        seen["behind the tone"] += work.line_lag > 0
        done = [one for _, one in work.blips]
        seen["not measured"] += any(not isinstance(one, ChordDisturbance) for one in done)
        seen["early told"] += any(
            isinstance(o, ChordDisturbance) and o.early is not None for o in done
        )

    assert min(seen.values()) >= 3, seen
    assert len(seen) == 14, seen
