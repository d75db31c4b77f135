"""Physics of a braking zone against numerical integration, against sums by hand, and its laws."""

from math import atan, isclose, log, sqrt, tan

import numpy as np
import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp
from scipy.interpolate import interp1d

from drills.braking_zone import KMH, STEP, BrakingZone, at_line, spread

BY_HAND = BrakingZone(fast=60.0, slow=20.0, grip=10.0, downforce=0.0, ease=1.0)
"""From 60 to 20 m/s at 10 m/s² without downforce, eased off in the last second."""
WITH_DOWNFORCE = BrakingZone(fast=60.0, slow=20.0, grip=10.0, downforce=0.004, ease=1.0)
"""The same corner; at 50 m/s downforce doubles the deceleration."""


@st.composite
def zones(draw: st.DrawFn) -> BrakingZone:
    """A braking zone that is possible, in the range of what a level may ask."""
    zone = BrakingZone(
        fast=draw(st.floats(60, 400)) * KMH,
        slow=draw(st.floats(20, 300)) * KMH,
        grip=draw(st.floats(3, 40)),
        downforce=draw(st.one_of(st.just(0.0), st.floats(1e-5, 0.02))),
        ease=draw(st.floats(0.3, 3)),
    )
    assume(zone.slow < zone.fast and zone.is_possible)
    return zone


def integrated(zone: BrakingZone, times: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Speed and way at times from the braking point, by integrating the deceleration.

    All of the deceleration until easing off begins, which is where the closed form says it does,
    then a share of that which falls evenly to nothing.
    """
    begins, hard = zone.eased_from, zone.grip + zone.downforce * zone.eased_at**2

    def full(_: float, state: np.ndarray) -> list[float]:
        return [-(zone.grip + zone.downforce * state[0] ** 2), state[0]]

    def eased(time: float, state: np.ndarray) -> list[float]:
        return [-hard * (1 - (time - begins) / zone.ease), state[0]]

    tight = {"rtol": 1e-10, "atol": 1e-10, "dense_output": True}
    first = solve_ivp(full, (0, max(begins, 1e-9)), [zone.fast, 0.0], **tight)
    second = solve_ivp(eased, (begins, begins + zone.ease), first.y[:, -1], **tight)
    states = np.where(times <= begins, first.sol(times), second.sol(times))
    return states[0], states[1]


@given(zone=zones())
@example(zone=BY_HAND)
@example(zone=WITH_DOWNFORCE)
def test_speed_and_way_are_those_of_the_integrated_deceleration(zone: BrakingZone) -> None:
    times = np.linspace(0, zone.seconds, 41)

    speeds, ways = integrated(zone, times)

    assert [zone.speed(time) for time in times] == pytest.approx(speeds, abs=1e-5)
    assert speeds[-1] == pytest.approx(zone.slow, abs=1e-5)
    assert zone.metres == pytest.approx(ways[-1], abs=1e-4)


def test_a_zone_without_downforce_is_the_one_worked_by_hand() -> None:
    # Easing off loses 10 / 2 * 1 = 5 m/s, so it begins at 25 m/s, after (60 - 25) / 10 = 3.5 s.
    # Way: (60² - 25²) / 20 = 148.75 m, then 25 * 1 - 10 * 1² / 3 = 21.667 m.
    # Down to 45 m/s: 1.5 s. Down to 21.25 m/s: 3/4 of the 5 m/s are lost after half of the easing.
    zone = BY_HAND

    assert zone.eased_at == pytest.approx(25)
    assert zone.eased_from == pytest.approx(3.5)
    assert zone.seconds == pytest.approx(4.5)
    assert zone.metres == pytest.approx(148.75 + 21.6667, abs=1e-4)
    assert zone.time_at(45) == pytest.approx(1.5)
    assert zone.time_at(21.25) == pytest.approx(4.0)
    assert zone.speed(4.0) == pytest.approx(21.25)
    assert zone.line(80) == ((0.0, 80.0), (3.5, 80.0), (4.5, 0.0))


def test_a_zone_with_downforce_is_the_one_worked_by_hand() -> None:
    # a(v) = 10 + 0.004 v². Easing off begins at v with v - a(v) / 2 = 20, 0.002 v² - v + 25 = 0:
    # v = (1 - sqrt(1 - 0.2)) / 0.004 = 26.393 m/s, where a = 12.786 m/s².
    # dv / a(v) integrates to atan(0.02 v) / 0.2: (atan(1.2) - atan(0.52786)) / 0.2
    # = (0.87606 - 0.48569) / 0.2 = 1.9518 s.
    # v dv / a(v) integrates to ln a(v) / 0.008: ln(24.4 / 12.786) / 0.008 = 80.78 m,
    # then 26.393 - 12.786 / 3 = 22.131 m.
    # Down to 50 m/s: (0.87606 - atan(1)) / 0.2 = (0.87606 - 0.78540) / 0.2 = 0.4533 s.
    zone = WITH_DOWNFORCE

    assert zone.eased_at == pytest.approx(26.393, abs=1e-3)
    assert zone.deceleration(zone.eased_at) == pytest.approx(12.786, abs=1e-3)
    assert zone.eased_from == pytest.approx(1.9518, abs=1e-4)
    assert zone.seconds == pytest.approx(2.9518, abs=1e-4)
    assert zone.metres == pytest.approx(80.78 + 22.131, abs=0.01)
    assert zone.time_at(50) == pytest.approx(0.4533, abs=1e-4)


def test_the_sums_by_hand_are_done_once_more_in_full_precision() -> None:
    at = (1 - sqrt(0.8)) / 0.004
    hard = 10 + 0.004 * at**2

    assert WITH_DOWNFORCE.eased_at == pytest.approx(at)
    assert WITH_DOWNFORCE.eased_from == pytest.approx((atan(1.2) - atan(0.02 * at)) / 0.2)
    assert WITH_DOWNFORCE.metres == pytest.approx(log(24.4 / hard) / 0.008 + at - hard / 3)
    assert WITH_DOWNFORCE.speed(1.0) == pytest.approx(50 * tan(atan(1.2) - 0.2))


@given(zone=zones())
def test_the_way_is_the_integral_of_the_speed(zone: BrakingZone) -> None:
    corner = min(max(zone.eased_from, 0.0), zone.seconds)

    way, error = quad(zone.speed, 0, zone.seconds, points=[corner], limit=200)

    assert zone.metres == pytest.approx(way, abs=1e-4 + error)


@given(zone=zones(), share=st.floats(0, 1))
def test_time_and_speed_are_inverse(zone: BrakingZone, share: float) -> None:
    speed = zone.slow + share * (zone.fast - zone.slow)

    time = zone.time_at(speed)

    assert 0 <= time <= zone.seconds + 1e-9
    assert zone.speed(time) == pytest.approx(speed, abs=1e-6)


@given(zone=zones(), more=st.floats(1e-5, 0.01))
def test_more_downforce_is_never_longer(zone: BrakingZone, more: float) -> None:
    faster = BrakingZone(zone.fast, zone.slow, zone.grip, zone.downforce + more, zone.ease)
    assume(faster.is_possible)

    assert faster.seconds <= zone.seconds + 1e-9
    assert faster.metres <= zone.metres + 1e-6


@given(zone=zones(), more=st.floats(0.01, 10))
def test_more_grip_is_never_longer(zone: BrakingZone, more: float) -> None:
    grippier = BrakingZone(zone.fast, zone.slow, zone.grip + more, zone.downforce, zone.ease)
    assume(grippier.is_possible)

    assert grippier.seconds <= zone.seconds + 1e-9
    assert grippier.metres <= zone.metres + 1e-6


@given(zone=zones(), peak=st.floats(10, 95))
def test_the_line_begins_at_its_peak_never_rises_and_ends_with_nothing_at_turn_in(
    zone: BrakingZone, peak: float
) -> None:
    line = zone.line(peak)

    times, brakes = zip(*line, strict=True)
    assert (times[0], brakes[0]) == (0, pytest.approx(peak))
    assert (times[-1], brakes[-1]) == (zone.seconds, 0)
    assert all(np.diff(times) > -1e-12)
    assert all(np.diff(brakes) < 1e-9)


@given(zone=zones(), peak=st.floats(10, 95), share=st.floats(0, 1))
def test_the_line_asks_the_share_of_the_peak_that_slows_the_car_as_it_does(
    zone: BrakingZone, peak: float, share: float
) -> None:
    time, small = share * zone.seconds, 1e-4
    begins, ends = max(time - small, 0.0), min(time + small, zone.seconds)
    assume(not begins < zone.eased_from < ends)

    slowed = (zone.speed(begins) - zone.speed(ends)) / (ends - begins)

    # A line of straight pieces cuts the corners of a curve by its bend over a step, times 1/8:
    # a'' = 2 downforce a (a + 2 downforce v²) is below this bound.
    hard = zone.deceleration(zone.fast)
    bend = 2 * zone.downforce * hard * (hard + 2 * zone.downforce * zone.fast**2)
    cut = bend * STEP**2 / 8 / hard * peak
    expected = peak * slowed / hard
    asked = float(at_line(zone.line(peak), np.array((begins + ends) / 2)))
    assert asked == pytest.approx(expected, abs=1e-3 + cut)


@given(
    line=st.lists(
        st.tuples(st.integers(0, 50), st.floats(0, 100)), min_size=1, unique_by=lambda c: c[0]
    ),
    time=st.floats(-10, 60),
)
def test_a_line_is_read_as_straight_pieces(line: list[tuple[int, float]], time: float) -> None:
    line = sorted(line)
    times, brakes = zip(*line, strict=True)
    # scipy wants two points; the second one of a single point lies beyond what is asked of it.
    straight = interp1d(
        [*times, 100], [*brakes, brakes[-1]], bounds_error=False, fill_value=(brakes[0], brakes[-1])
    )

    asked = float(at_line(line, np.array(time)))
    assert isclose(asked, float(straight(time)), abs_tol=1e-9)


def test_shifts_are_spread_evenly_with_the_ends_left_out() -> None:
    assert spread(60, 20, 3) == (50, 40, 30)
    assert spread(60, 20, 1) == (40,)


@pytest.mark.parametrize(
    "zone",
    [
        BrakingZone(fast=24, slow=20, grip=10, downforce=0.0, ease=1.0),
        BrakingZone(fast=60, slow=60, grip=10, downforce=0.0, ease=1.0),
        BrakingZone(fast=90, slow=40, grip=10, downforce=0.02, ease=3.0),
    ],
    ids=["easing off takes 5 of 4 m/s", "nothing to lose", "no speed that easing off starts at"],
)
def test_a_zone_without_speed_for_easing_off_is_not_possible(zone: BrakingZone) -> None:
    assert not zone.is_possible


def test_a_zone_that_is_all_easing_off_is_possible() -> None:
    zone = BrakingZone(fast=25, slow=20, grip=10, downforce=0.0, ease=1.0)

    assert zone.is_possible
    assert zone.seconds == pytest.approx(1.0)
