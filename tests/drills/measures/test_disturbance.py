"""What a blip did to the brake, against closed forms and sums worked out by hand."""

import math

import numpy as np
import pytest

from drills.measures.blip import find_blips
from drills.measures.disturbance import Disturbance, Run, Unscored, measure_run
from tests.drills.shapes import Shape, Values, grid_of, half_sine, impulse, near, seconds

GRID = 0.001  # s
AT = 1.5  # s, where the throttle comes on
POINT = 1500


def stab(length: float = 4.0, points: int = 100, rest: float = 0.0) -> Values:
    """Throttle of one square stab that comes on at AT."""
    throttle = np.full(round(length * 1000), rest)
    throttle[POINT : POINT + points] = 80
    return throttle


def brake_of(shape: Shape, held: float = 60.0, length: float = 4.0) -> Values:
    """A brake that moves by a shape from AT on."""
    return held + shape(seconds(length) - AT)


def run_of(brake: Values, throttle: Values, band: float = 5.0) -> Run:
    """The run of all blips there are."""
    grid = grid_of(brake, throttle)
    run = measure_run(grid, find_blips(grid), band)
    assert isinstance(run, Run)
    return run


def only(run: Run) -> Disturbance:
    """What the one blip of a run did."""
    [(_, disturbance)] = run.blips
    return disturbance


def test_a_dip_and_rebound_of_half_sines_have_their_sizes_areas_and_settling() -> None:
    # reference values, end to end (computed): dip 10 over 0.2 s, rebound 3 over 0.15 s.
    dip, back = half_sine(0.2), half_sine(0.15)

    run = run_of(brake_of(lambda t: -10 * dip(t) + 3 * back(t - 0.2)), stab(), band=1.0)

    assert run.base == 60
    assert run.dip == pytest.approx(10.000, abs=0.02)
    assert run.shortfall == pytest.approx(1.273240, abs=1e-3)
    assert run.rebound == pytest.approx(3.000, abs=0.02)
    assert run.excess == pytest.approx(0.286479, abs=1e-3)
    assert run.settle == pytest.approx(0.333774, abs=GRID)
    assert run.swing == pytest.approx(13.0, abs=0.04)
    assert only(run).dip_at == pytest.approx(0.1, abs=GRID)


@pytest.mark.parametrize(("damping", "frequency"), [(0.2, 15.0), (0.35, 18.0), (0.6, 25.0)])
def test_a_foot_coupled_as_a_second_order_system_dips_and_rebounds_by_its_closed_form(
    damping: float, frequency: float
) -> None:
    # Extremes of an impulse response (memory, any control textbook): their ratio is
    # exp(-pi z / sqrt(1 - z^2)), the overshoot of the step response.
    response, least, greatest = impulse(-300.0, damping, frequency)

    done = only(run_of(brake_of(response), stab()))

    assert done.dip == pytest.approx(-least, abs=0.02)
    assert done.rebound == pytest.approx(greatest, abs=0.02)
    assert done.surge == done.rebound
    decay = math.exp(-math.pi * damping / math.sqrt(1 - damping**2))
    assert done.rebound / done.dip == pytest.approx(decay, abs=2e-3)
    peak = math.acos(damping) / (frequency * math.sqrt(1 - damping**2))
    assert done.dip_at == pytest.approx(peak, abs=GRID)


def test_a_brake_of_80_percent_that_falls_to_30_has_dipped_by_50() -> None:
    # Common practice: a dip is a difference of pedal values, not a share of what was held.
    run = run_of(brake_of(lambda t: -50 * half_sine(0.2)(t), held=80), stab())

    assert run.dip == pytest.approx(50, abs=1e-9)
    assert run.mean_dip == run.dip


@pytest.mark.parametrize("delay", [-100, -37, 0, 1, 83, 250])
@pytest.mark.parametrize("gain", [-0.25, 0.1])
def test_a_brake_that_follows_the_throttle_has_its_gain_and_delay(delay: int, gain: float) -> None:
    throttle = stab(points=200)

    done = only(run_of(60 + gain * np.roll(throttle, delay), throttle))

    assert done.lag == delay / 1000
    assert done.coupling == pytest.approx(gain, rel=1e-9)


def test_the_coupling_is_counted_from_the_throttle_at_rest() -> None:
    throttle = 4 + 76 * half_sine(0.25)(seconds(4) - AT)
    follows = np.roll(throttle - 4, 20)

    done = only(run_of(60 - 0.3 * follows, throttle))

    assert (done.lag, done.coupling) == (0.020, near(-0.3))


def test_a_brake_that_never_moves_has_neither_coupling_nor_lag() -> None:
    done = only(run_of(np.full(4000, 60.0), stab()))

    assert (done.coupling, done.lag) == (None, None)
    assert (done.dip, done.surge, done.swing, done.settle) == (0, 0, 0, 0)
    assert (done.shortfall, done.excess) == (0, 0)
    assert done.extra_distance == pytest.approx(0, abs=1e-9)


def test_a_surge_before_the_dip_is_no_rebound() -> None:
    brake = np.full(4000, 60.0)
    brake[1500:1550], brake[1550:1600] = 68, 52

    done = only(run_of(brake, stab()))

    assert (done.dip, done.surge, done.rebound, done.swing) == (8, 8, 0, 16)
    assert done.dip_at == 0.05


def test_the_base_leaves_out_the_last_tenth_of_a_second_before_the_onset() -> None:
    brake = np.full(4000, 60.0)
    brake[:1000], brake[1400:1500] = 10, 90

    run = run_of(brake, stab())

    assert run.base == 60
    assert run.surge == 30


@pytest.mark.parametrize(
    ("onset", "scored"), [(200, True), (199, False), (110, False)], ids=["0.1 s", "less", "little"]
)
def test_a_base_needs_a_tenth_of_a_second_of_held_brake(onset: int, scored: bool) -> None:
    throttle = np.zeros(2000)
    throttle[onset : onset + 100] = 80
    grid = grid_of(np.full(2000, 60.0), throttle)

    run = measure_run(grid, find_blips(grid))

    assert isinstance(run, Run) == scored
    assert scored or run is Unscored.NO_BASE


def test_a_blip_no_higher_than_the_throttle_rested_is_not_scored() -> None:
    throttle = np.zeros(5000)
    throttle[500:2000], throttle[2100:2200] = 90, 20

    grid = grid_of(np.full(5000, 60.0), throttle)

    assert measure_run(grid, find_blips(grid)) is Unscored.NO_REST


def test_the_window_opens_a_tenth_of_a_second_before_the_onset() -> None:
    brake = np.full(4000, 60.0)
    brake[1398], brake[1399], brake[1400] = 20, 100, 40

    done = only(run_of(brake, stab()))

    assert (done.dip, done.dip_at) == (20, -0.1)
    assert done.settle == 0


def test_the_window_closes_a_second_after_the_pulse() -> None:
    brake = np.full(4000, 60.0)
    brake[2599], brake[2600] = 58, 40

    assert run_of(brake, stab(points=100)).dip == 2


def test_the_window_closes_at_the_release() -> None:
    brake = np.full(4000, 60.0)
    brake[2000:2100] = 5.0
    brake[2100:] = 4.9

    done = only(run_of(brake, stab()))

    assert done.dip == 55
    assert done.shortfall == pytest.approx(55 * 0.1)


def test_a_brake_let_go_during_the_blip_is_released_where_the_pulse_has_ended() -> None:
    brake = np.full(4000, 60.0)
    brake[1550:] = 0

    done = only(run_of(brake, stab(points=100)))

    assert done.dip == 60
    assert done.shortfall == pytest.approx(60 * 0.051)


@pytest.mark.parametrize(("stay", "settle"), [(250, 0.85), (249, None)])
def test_a_brake_has_settled_when_it_stays_a_quarter_of_a_second(
    stay: int, settle: float | None
) -> None:
    # 1.1 s from onset to the window's end, of which the last `stay` ms are in the band.
    brake = np.full(4000, 60.0)
    brake[1500 : 2600 - stay] = 54.9

    assert run_of(brake, stab(points=100)).settle == settle


def test_the_edge_of_the_band_belongs_to_it() -> None:
    brake = np.full(4000, 64.0)
    brake[1500:1700] = 59

    assert run_of(brake, stab(), band=5).settle == 0
    assert run_of(brake, stab(), band=4.9).settle == 0.2


def test_a_run_holds_the_worst_the_sum_and_the_mean_of_its_blips() -> None:
    throttle, brake = np.zeros(6000), np.full(6000, 60.0)
    throttle[1500:1600] = throttle[3000:3100] = 80
    brake[1500:1600], brake[1600:1700] = 50, 66
    brake[3000:3200], brake[3200:3300] = 44, 62

    run = run_of(brake, throttle)

    first, second = (disturbance for _, disturbance in run.blips)
    assert (first.dip, second.dip, run.dip, run.mean_dip) == (10, 16, 16, 13)
    assert (first.rebound, second.rebound, run.rebound, run.surge) == (6, 2, 6, 6)
    assert (first.settle, second.settle, run.settle) == (0.2, 0.2, 0.2)
    assert run.swing == 22
    assert run.shortfall == pytest.approx(10 * 0.1 + 16 * 0.2)
    assert run.excess == pytest.approx(6 * 0.1 + 2 * 0.1)
    assert run.extra_distance == first.extra_distance + second.extra_distance


def test_later_blips_are_held_against_what_was_held_before_the_run() -> None:
    throttle, brake = np.zeros(6000), np.full(6000, 60.0)
    throttle[1500:1600] = throttle[3000:3100] = 80
    brake[2000:] = 52

    run = run_of(brake, throttle)

    assert run.base == 60
    assert run.blips[1][1].dip == 8
    assert run.settle is None


def test_the_window_of_a_blip_closes_before_the_next_one() -> None:
    throttle, brake = np.zeros(6000), np.full(6000, 60.0)
    throttle[1500:1600] = throttle[2000:2100] = 80
    brake[1899], brake[1900] = 57, 40

    first, second = (disturbance for _, disturbance in run_of(brake, throttle).blips)

    assert (first.dip, second.dip) == (3, 20)


def test_a_later_blip_begins_at_the_speed_the_one_before_left() -> None:
    # A notch costs k T (v - (1 - k) a0 T / 2) where v is the speed it begins at (derived).
    throttle, brake = np.zeros(6000), np.full(6000, 60.0)
    throttle[1500:1600] = throttle[2000:2100] = 80
    brake[1600:1700] = brake[2100:2200] = 30
    gravity = 9.80665

    first, second = (disturbance for _, disturbance in run_of(brake, throttle).blips)

    one = 40 - gravity * 0.2
    two = 40 - gravity * (0.5 - 0.05 + 0.2)
    assert first.extra_distance == pytest.approx(0.05 * (one - gravity * 0.025), abs=1e-9)
    assert second.extra_distance == pytest.approx(0.05 * (two - gravity * 0.025), abs=1e-9)
