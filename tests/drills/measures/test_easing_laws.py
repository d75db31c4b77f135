"""Laws that easing off keeps whatever the foot did, and the page written a second time."""

import math
import random
from dataclasses import asdict, dataclass

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.measures.easing import Easing, measure_easing, ramp_of
from drills.measures.way import WayDown, measure_way
from drills.trace import STEP, Grid, Trace
from tests.drills.measures import plain, plain_ladder
from tests.drills.measures.signals import RATES, Samples, Signal, clamp, half_sine, make

HELD = 60.0
CUE = 500
"""Grid index of the cue."""
STEPS = st.lists(st.tuples(st.integers(1, 150), st.floats(0, 100)), min_size=1, max_size=25)
"""ms that each value of the brake lasts, and the value in %."""


def stepped(steps: list[tuple[int, float]]) -> Trace:
    """A brake held for 0.5 s, then in steps; samples only where it changes."""
    after = STEP * np.cumsum([500, *(points for points, _ in steps)], dtype=np.int64)
    brake = np.array([HELD, *(value for _, value in steps), steps[-1][1]])
    return Trace(
        np.concatenate([np.array([0], dtype=np.int64), after]), brake, np.zeros(brake.size)
    )


def from_cue(trace: Trace, cue: int = CUE * STEP) -> Easing:
    """The release of a trace from a cue in ns on, with one window left out."""
    grid = Grid.of(trace)
    at = grid.index(cue)
    aside = [(at + 300, at + 600)]
    return measure_easing(grid.brake, at, ramp_of(grid.brake, at, HELD, HELD, 1.0, aside), aside)


@given(STEPS, st.integers(1, 999_999))
def test_samples_that_repeat_the_one_before_change_nothing(
    steps: list[tuple[int, float]], part: int
) -> None:
    trace = stepped(steps)
    split = Trace(
        np.sort(np.concatenate([trace.time, trace.time[:-1] + part])),
        np.repeat(trace.brake, 2)[:-1],
        np.repeat(trace.throttle, 2)[:-1],
    )

    assert from_cue(split) == from_cue(trace)


@given(STEPS, st.integers(-(10**12), 10**12))
def test_a_shift_in_time_changes_nothing(steps: list[tuple[int, float]], shift: int) -> None:
    trace = stepped(steps)
    later = Trace(trace.time + shift, trace.brake, trace.throttle)

    assert from_cue(later, CUE * STEP + shift) == from_cue(trace)


def foot(rng: random.Random, held: float, pulses: list[tuple[int, int]]) -> Signal:
    """A foot that eases off in its own time or never, with dips at the pulses and a slow sway."""
    begins, takes = rng.choice([0.5, 0.65, 0.8, 1.1, math.inf]), rng.uniform(0.4, 3.0)
    sway, turns, depth = rng.uniform(0, 4), rng.uniform(0.5, 4), rng.uniform(-10, 15)

    def brake(t: float) -> float:
        dips = sum(half_sine((t - a / 1000) / ((b - a) / 1000)) for a, b in pulses)
        left = min(1.0, max(0.0, 1 - (t - begins) / takes))
        return held * left + sway * math.sin(math.tau * turns * t) - depth * dips

    return lambda t: clamp(brake(t))


@dataclass(frozen=True)
class Case:
    """A release, sampled."""

    samples: Samples
    """ns, brake and throttle in %."""
    asked: float
    """%, that was to come down to nothing."""
    length: float
    """s that it was to take."""

    @property
    def measured(self) -> WayDown:
        """What the product measures of it."""
        time, brake, throttle = zip(*self.samples, strict=True)
        trace = Trace(np.array(time, dtype=np.int64), np.array(brake), np.array(throttle))
        grid = Grid.of(trace)
        way = measure_way(grid, grid.start + CUE * STEP, self.asked, self.length)
        assert way is not None
        return way

    @property
    def plainly(self) -> plain.Measures:
        """Its measures by the plain version, and what was held."""
        brake, throttle = plain.grid(self.samples)
        held = plain_ladder.base_at(brake, CUE)
        blips = plain.candidates(throttle, 0.0)
        pulses = (plain.pulses(throttle, blips) if blips else None) or []
        spans = [(pulse["onset"], pulse["end"]) for pulse in pulses]
        easing = plain_ladder.easing(brake, CUE, held, self.asked, self.length, spans)
        return easing | {"held": held}


def case(seed: int) -> Case:
    """A release by chance, at any rate, noise and resolution."""
    rng = random.Random(seed)
    onsets = rng.choice([(900, 1700), (620, 1300)])
    pulses = [(at, at + rng.randint(150, 300)) for at in onsets[: rng.randint(0, 2)]]
    held = rng.uniform(20, 95)
    samples = make(
        seed,
        rng.uniform(2.2, 4.5),
        rng.choice(RATES),
        foot(rng, held, pulses),
        lambda t: sum(70 * half_sine((1000 * t - a) / (b - a)) for a, b in pulses),
        noise=rng.choice([0, 0, 0.3, 1.0]),
        bits=rng.choice([None, 8, 12]),
    )
    return Case(samples, held * rng.choice([1.0, rng.uniform(0.9, 1.1)]), rng.uniform(0.3, 2.5))


SEEDS = range(40)


@pytest.mark.parametrize("seed", SEEDS)
def test_any_release_measures_what_the_plain_version_does(seed: int) -> None:
    made = case(seed)

    way = made.measured

    assert asdict(way.easing) | {"held": way.held} == pytest.approx(made.plainly, abs=1e-9)


def test_the_releases_by_chance_hold_every_outcome() -> None:
    found = [case(seed).plainly for seed in SEEDS]

    begun = [one for one in found if one["release_start"] is not None]
    assert 0 < len(begun) < len(found)
    assert len({one["reversals"] for one in begun}) >= 3
    assert {one["release_time"] is None for one in begun} == {True, False}
    assert {one["ramp_error"] is None for one in begun} == {True, False}
    assert {case(seed).measured.left_out != () for seed in SEEDS} == {True, False}
