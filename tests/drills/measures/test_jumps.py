"""Jumps of a pedal, which are no movement of a foot."""

import numpy as np
import pytest

from drills.measures.jumps import Jump, without_jumps
from drills.trace import STEP, Pedal, Trace
from tests.drills.shapes import Values, half_sine, seconds

AT = 300
"""ms, where a jump begins."""


def made(brake: Values, throttle: Values | None = None, every: int = 1) -> Trace:
    """A trace of brake and throttle a ms, read at every so many ms."""
    throttle = np.zeros(brake.size) if throttle is None else throttle
    time = np.arange(brake.size, dtype=np.int64) * STEP
    return Trace(time[::every], brake[::every], throttle[::every])


def held(jump: float, length: int, slope: float = 0.0) -> Values:
    """A brake about 60 % that moves on by so many points a s, and is off for so many ms."""
    brake = 60.0 + slope * np.arange(-AT, 600 - AT) / 1000
    brake[AT : AT + length] += jump
    return brake


@pytest.mark.parametrize("length", [1, 4, 20])
@pytest.mark.parametrize("jump", [-60.0, -8.1, 8.1, 40.0])
def test_a_short_jump_is_replaced_by_the_value_before_it(jump: float, length: int) -> None:
    trace, jumps = without_jumps(made(held(jump, length)))

    assert jumps == (Jump(Pedal.BRAKE, AT * STEP, (AT + length) * STEP),)
    assert trace.brake.tolist() == [60.0] * 600


@pytest.mark.parametrize(("jump", "length"), [(8.0, 4), (-7.9, 4), (60.0, 21), (-60.0, 200)])
def test_what_is_small_or_long_is_a_movement(jump: float, length: int) -> None:
    whole = made(held(jump, length))

    trace, jumps = without_jumps(whole)

    assert jumps == ()
    assert trace is whole


@pytest.mark.parametrize("slope", [-500.0, -150.0, 150.0, 500.0])
@pytest.mark.parametrize("jump", [-40.0, -15.0, 15.0, 30.0])
def test_a_pedal_that_moves_may_jump_too(jump: float, slope: float) -> None:
    trace, jumps = without_jumps(made(np.clip(held(jump, 4, slope), 0, 100)))

    assert len(jumps) == 1
    assert trace.brake[AT : AT + 4].tolist() == [trace.brake[AT - 1]] * 4


def test_jumps_soon_after_one_another_are_taken_out_each() -> None:
    brake = held(-60.0, 4)
    for later in (AT + 10, AT + 15, AT + 60):
        brake[later : later + 4] = 100.0

    trace, jumps = without_jumps(made(brake))

    assert [jump.start // STEP for jump in jumps] == [AT, AT + 10, AT + 15, AT + 60]
    assert trace.brake.tolist() == [60.0] * 600


@pytest.mark.parametrize("every", [1, 4, 8, 16])
@pytest.mark.parametrize("length", [0.08, 0.1, 0.2, 0.4])
def test_no_stab_of_a_foot_is_a_jump(length: float, every: int) -> None:
    throttle = 100 * half_sine(length)(seconds(1) - 0.3)
    brake = 60 - 50 * half_sine(length)(seconds(1) - 0.33)

    assert without_jumps(made(brake, throttle, every))[1] == ()


def test_a_pedal_that_stays_where_it_went_did_not_jump() -> None:
    assert without_jumps(made(np.where(np.arange(600) < AT, 60.0, 0.0)))[1] == ()


def test_a_jump_at_the_very_end_is_not_known_to_be_one() -> None:
    assert without_jumps(made(held(-60.0, 4)[: AT + 4]))[1] == ()


def test_every_pedal_may_jump_and_the_counts_stay_as_they_were() -> None:
    brake, throttle, clutch = held(-60.0, 4), held(0.0, 0), held(20.0, 3)
    throttle[AT - 50] = 0.0
    time = np.arange(600, dtype=np.int64) * STEP
    counts = np.array([brake, throttle, clutch]).astype(np.int64)

    trace, jumps = without_jumps(Trace(time, brake, throttle, clutch, counts))

    assert [jump.pedal for jump in jumps] == [Pedal.THROTTLE, Pedal.BRAKE, Pedal.CLUTCH]
    assert trace.clutch is not None
    assert {*trace.brake, *trace.throttle, *trace.clutch} == {60.0}
    assert trace.counts is counts
