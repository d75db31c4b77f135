"""Health of virtual pedals whose steps, noise, reports and faults are known."""

import math
from dataclasses import replace

import numpy as np
import pytest

from drills.calibration import COUNTS, Range
from drills.health.course import Step
from drills.health.pedal import PedalHealth, RawCounts, measure_health
from drills.trace import SECOND, Pedal
from tests.drills.health.virtual import READ, Known, Virtual, read

BITS = (8, 10, 12, 16)
RATES = (30, 60, 125, 250, 1000)


def brake_of(known: Known) -> PedalHealth:
    """Health of the brake of a virtual set."""
    return measure_health(known.raw)[0]


def real_noise(known: Known, step: Step, later: float) -> float:
    """Noise that the reports of the brake really had in a part of the course, in points."""
    part = [part for part in known.raw.parts if part.step is step][-1 if step is Step.OFF else 0]
    inside = (known.reported >= part.begins + later) & (known.reported < part.ends)
    return float(known.error[inside].std()) / known.raw.pedals[0].span * 100


@pytest.mark.parametrize("rate", RATES)
@pytest.mark.parametrize("bits", BITS)
@pytest.mark.parametrize("noise", [0.0, 0.3, 0.6])
def test_steps_noise_and_reports_are_told_within_a_twentieth(
    bits: int, rate: int, noise: float
) -> None:
    known = read(Virtual(bits, rate, noise, seed=bits * rate))

    brake = brake_of(known)

    assert brake.timing is not None
    assert brake.step == pytest.approx(100 / 2**bits / 0.875, rel=0.05)
    assert brake.steps == pytest.approx(0.875 * 2**bits, rel=0.05)
    assert brake.rest == pytest.approx(real_noise(known, Step.OFF, 1.0), rel=0.05, abs=1e-9)
    assert brake.timing.interval == pytest.approx(1 / rate, rel=0.05)


@pytest.mark.parametrize("rate", [30, 60, 125])
@pytest.mark.parametrize("bits", [10, 12, 16])
def test_uneven_reports_are_told_within_a_twentieth(bits: int, rate: int) -> None:
    spread = 0.1 / rate
    found, real = [], []
    for seed in (1, 2, 3):
        known = read(Virtual(bits, rate, jitter=spread, seed=seed))
        timing = brake_of(known).timing
        assert timing is not None
        assert timing.interval == pytest.approx(1 / rate, rel=0.05)
        found.append(timing.jitter)
        real.append(np.diff(known.reported).std())

    assert np.mean(found) == pytest.approx(np.mean(real), rel=0.05)


@pytest.mark.parametrize("rate", [250, 1000])
def test_unevenness_finer_than_a_read_is_told_within_a_quarter_of_it(rate: int) -> None:
    known = read(Virtual(12, rate, jitter=0.1 / rate))

    timing = brake_of(known).timing

    assert timing is not None
    assert timing.jitter == pytest.approx(np.diff(known.reported).std(), abs=READ / 4)


@pytest.mark.parametrize("rate", [125, 250, 1000])
@pytest.mark.parametrize("bits", [10, 12, 16])
def test_noise_under_a_foot_that_trembles_is_told_within_a_twentieth(bits: int, rate: int) -> None:
    found, real = [], []
    for seed in (1, 2, 3, 4):
        known = read(Virtual(bits, rate, noise=0.5, tremor=(0.6, 10.0), seed=seed))
        found.append(brake_of(known).held or 0.0)
        real.append(math.hypot(0.5, 100 / 2**bits / 0.875 / math.sqrt(12)))

    assert np.mean(found) == pytest.approx(np.mean(real), rel=0.05)


def test_a_trembling_leg_alone_is_no_noise() -> None:
    still = brake_of(read(Virtual(16, 250, tremor=(0.0, 10.0))))
    trembling = brake_of(read(Virtual(16, 250, tremor=(1.0, 10.0))))

    assert still.held is not None
    assert trembling.held is not None
    assert trembling.held - still.held < 0.01


def test_noise_is_not_told_from_a_tremor_where_reports_are_too_seldom() -> None:
    brake = brake_of(read(Virtual(12, 30, noise=0.3)))

    assert brake.held is None
    assert brake.noise == brake.rest


@pytest.mark.parametrize(("low", "high"), [(0, 0), (20, 0), (0, 25), (15, 30)])
def test_dead_ends_are_told_within_two_points(low: float, high: float) -> None:
    brake = brake_of(read(Virtual(12, 250, noise=0.05, low=low, high=high)))

    assert brake.dead_low == pytest.approx(low, abs=2)
    assert brake.dead_high == pytest.approx(high, abs=2)


@pytest.mark.parametrize("count", [0, 1, 4])
def test_every_jump_is_counted_and_changes_no_end(count: int) -> None:
    brake = brake_of(read(Virtual(12, 250, noise=0.02, jumps=count)))

    assert brake.jumps == count
    assert brake.highest == pytest.approx(100, abs=1)


@pytest.mark.parametrize("noise", [0.0, 0.3])
@pytest.mark.parametrize(
    ("every", "in_movement"),
    [(2.0, 4), (3.0, 1), (4.0, 2)],
)
def test_stalls_of_a_moving_pedal_are_counted(noise: float, every: float, in_movement: int) -> None:
    stalling = Virtual(12, 125, noise, stall=0.2, every=every, let_go=0.2)

    brake, throttle = measure_health(read(stalling).raw)

    assert (brake.stalls, throttle.stalls) == (in_movement, in_movement)


@pytest.mark.parametrize("bits", [6, 8, 12, 16])
@pytest.mark.parametrize("rate", [60, 125, 1000])
def test_a_pedal_that_reports_all_the_time_has_no_stalls(bits: int, rate: float) -> None:
    known = read(Virtual(bits, rate, let_go=0.2))

    assert [health.stalls for health in measure_health(known.raw)] == [0, 0]


def test_jumps_are_no_stalls() -> None:
    assert brake_of(read(Virtual(12, 250, noise=0.02, jumps=4))).stalls == 0


@pytest.mark.parametrize("leap", [0.6, 1.5, 3.0])
def test_a_pedal_that_sticks_is_told_with_its_leaps(leap: float) -> None:
    brake = brake_of(read(Virtual(12, 250, noise=0.01, sticks=leap)))

    assert brake.leap == pytest.approx(leap, rel=0.05)


@pytest.mark.parametrize("noise", [0.0, 0.3, 1.5])
def test_a_pedal_that_does_not_stick_has_no_leaps(noise: float) -> None:
    assert brake_of(read(Virtual(12, 125, noise=noise))).leap is None


def test_a_brake_that_hides_small_movements_stands_on_one_value() -> None:
    free = brake_of(read(Virtual(16, 250, noise=0.01)))
    bound = brake_of(read(Virtual(16, 250, sticks=3.0)))

    assert free.still < 0.1
    assert bound.still > 2.5


def test_an_axis_that_moved_less_than_sdl_reports_is_not_seen() -> None:
    known = read(Virtual(16, 250, noise=0.01))
    counts = known.raw.counts.copy()
    counts[1] = 100 + np.arange(counts.shape[1]) % 300

    throttle = measure_health(RawCounts(known.raw.pedals, known.raw.time, counts))[1]

    assert throttle == PedalHealth(Pedal.THROTTLE, seen=False)


def test_an_axis_that_reads_backwards_is_told_as_one_that_does_not() -> None:
    known = read(Virtual(12, 250, noise=0.2))
    [*_, bound] = known.raw.pedals
    ends = Range(-bound.ends.rest, -bound.ends.full)
    turned = RawCounts(
        tuple(replace(one, ends=ends) for one in known.raw.pedals),
        known.raw.time,
        -known.raw.counts,
    )

    one, other = brake_of(known), measure_health(turned)[0]

    assert other.rest == pytest.approx(one.rest)
    assert (other.dead_low, other.dead_high) == pytest.approx((one.dead_low, one.dead_high))


def test_reads_that_drawing_holds_up_for_20_ms_a_second_change_nothing_much() -> None:
    known = read(Virtual(12, 250, noise=0.3))
    kept = known.raw.time % SECOND >= 20_000_000
    held_up = RawCounts(known.raw.pedals, known.raw.time[kept], known.raw.counts[:, kept])

    brake = measure_health(held_up)[0]

    assert brake.timing is not None
    assert brake.timing.interval == pytest.approx(0.004, rel=0.02)
    assert brake.timing.p99 < 0.006
    assert brake.rest == pytest.approx(0.3, rel=0.05)


def test_reports_that_stay_out_of_a_stab_are_counted_as_late() -> None:
    known = read(Virtual(12, 250, noise=0.05))
    counts, stabs = known.raw.counts.copy(), known.raw.parts[3]
    for number in range(5):
        at = round((stabs.begins + 0.03 + number / 3) * 1000)
        counts[:, at : at + 30] = counts[:, at : at + 1]

    late = measure_health(RawCounts(known.raw.pedals, known.raw.time, counts))[0].timing
    usual = brake_of(known).timing

    assert late is not None
    assert usual is not None
    assert (usual.late, late.late) == (0, 5)


def test_the_share_of_the_axis_is_that_of_the_calibration() -> None:
    known = read(Virtual(), ends=Range(-0.5, 0.0))

    brake = brake_of(known)

    assert brake.axis_used == 25
    assert brake.steps == pytest.approx(COUNTS / 2, rel=0.05)


def test_a_part_of_the_course_that_was_hardly_read_is_named() -> None:
    raw = read(Virtual(12, 250)).raw
    part = raw.parts[2]
    slept = (raw.time >= part.begins * SECOND) & (raw.time < part.ends * SECOND)
    left = RawCounts(raw.pedals, raw.time[~slept], raw.counts[:, ~slept])
    early = raw.time < raw.parts[-1].begins * SECOND
    stopped = RawCounts(raw.pedals, raw.time[early], raw.counts[:, early])

    assert raw.thin is None
    assert left.thin == part
    assert stopped.thin == raw.parts[-1]
