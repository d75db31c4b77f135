"""Faulty sources that strike once a repetition: each does what it says, and nothing else."""

from collections.abc import Sequence

import pytest

from drills.calibration import UNIT
from drills.phases import Event, Phase, Transition
from drills.task import Signal, Task
from drills.trace import Pedal, nanoseconds
from engine.pedals.faulty import (
    JUMP_FROM,
    JUMP_UNTIL,
    REPORT,
    STALL_FROM,
    STALL_UNTIL,
    FaultySource,
    Frozen,
    Jumping,
    Stalling,
    Unplugged,
)
from engine.pedals.port import Reading
from engine.stage.headless import ManualClock
from tests.fakes import MILLISECOND
from tests.made import BLIP_TASK, HOLD_TASK
from tests.moving import Ramp

WAIT = nanoseconds(0.5)
CUE = nanoseconds(2.0)
END = nanoseconds(4.0)


def played(
    source: FaultySource, clock: ManualClock, task: Task = BLIP_TASK
) -> list[Reading | None]:
    """Readings of a source, one a millisecond, through the wait, the cue and the end of a task."""
    begins = clock()
    source.on_task(task)
    readings = []
    for _ in range(END // MILLISECOND + 500):
        now = clock() - begins
        if now == WAIT:
            source.on_transition(Transition(Event.STEADY, Phase.WAIT, clock()))
        if now == CUE and task.cues:
            source.on_transition(Transition(Event.CUE, Phase.ACT, clock(), 0, Signal.CUE))
        if now == END:
            source.on_transition(Transition(Event.OVER, Phase.DONE, clock()))
        readings.append(source.read())
        clock.advance(MILLISECOND)
    return readings


def spoiled(readings: Sequence[Reading | None], begins: int = 0) -> list[int]:
    """Times of the readings that differ from those of the foot, in ms from the beginning."""
    foot = Ramp(ManualClock())
    return [
        at for at, reading in enumerate(readings) if reading != foot.at(begins + at * MILLISECOND)
    ]


@pytest.mark.parametrize("after", [0.0, 0.15])
def test_a_frozen_brake_keeps_its_value_from_the_cue_to_the_end(after: float) -> None:
    clock = ManualClock()
    source = Frozen(Ramp(clock), after)

    readings = played(source, clock)

    first = CUE // MILLISECOND + round(after * 1000)
    assert spoiled(readings) == list(range(first + 1, END // MILLISECOND))
    frozen = {reading.brake for reading in readings[first : END // MILLISECOND] if reading}
    assert len(frozen) == 1
    assert [reading.throttle for reading in readings if reading] == [
        Ramp(clock).at(at * MILLISECOND).throttle for at in range(len(readings))
    ]


def test_without_a_cue_the_brake_freezes_as_the_wait_begins() -> None:
    clock = ManualClock()

    readings = played(Frozen(Ramp(clock)), clock, HOLD_TASK)

    assert spoiled(readings)[0] == WAIT // MILLISECOND + 1


def test_the_next_repetition_freezes_where_the_brake_is_then() -> None:
    clock = ManualClock()
    source = Frozen(Ramp(clock))
    played(source, clock)
    begins = clock()

    readings = played(source, clock)

    frozen = readings[END // MILLISECOND - 1]
    assert frozen is not None
    assert frozen.brake == Ramp(clock).at(begins + CUE).brake


@pytest.mark.parametrize("seconds", [0.06, 0.1, 0.2])
def test_a_stall_reports_nothing_then_jumps_to_where_the_pedals_are(seconds: float) -> None:
    clock = ManualClock()

    readings = played(Stalling(Ramp(clock), seconds, seed=3), clock)

    stalled = spoiled(readings)
    assert len(stalled) == round(seconds * 1000)
    assert stalled == list(range(stalled[0], stalled[-1] + 1))
    assert STALL_FROM <= stalled[0] / 1000 - CUE / 1e9 <= STALL_UNTIL + 0.001
    values = {(reading.brake, reading.throttle) for at in stalled if (reading := readings[at])}
    before = readings[stalled[0] - 1]
    assert before is not None
    assert values == {(before.brake, before.throttle)}


def test_each_repetition_stalls_at_its_own_time_and_a_seed_repeats_it() -> None:
    def starts() -> list[int]:
        clock = ManualClock()
        source = Stalling(Ramp(clock), 0.1, seed=3)
        found = []
        for _ in range(2):
            begins = clock()
            found.append(spoiled(played(source, clock), begins)[0])
        return found

    first = starts()

    assert first[0] != first[1]
    assert starts() == first


@pytest.mark.parametrize("in_wait", [True, False])
@pytest.mark.parametrize("pedal", [Pedal.BRAKE, Pedal.THROTTLE])
def test_a_jump_is_as_long_as_a_report_and_moves_one_pedal(pedal: Pedal, in_wait: bool) -> None:
    clock = ManualClock()
    source = Jumping(Ramp(clock), UNIT.brake, pedal, 3, to=100.0, in_wait=in_wait)

    readings = played(source, clock)

    jumped = spoiled(readings)
    since = (jumped[0] * MILLISECOND - (WAIT if in_wait else CUE)) / 1e9
    assert JUMP_FROM <= since <= JUMP_UNTIL + 0.001
    assert len(jumped) == round(REPORT * 1000)
    for at in jumped:
        reading, foot = readings[at], Ramp(clock).at(at * MILLISECOND)
        assert reading is not None
        other = reading.throttle if pedal is Pedal.BRAKE else reading.brake
        assert other == (foot.throttle if pedal is Pedal.BRAKE else foot.brake)
        assert (reading.brake if pedal is Pedal.BRAKE else reading.throttle) == 1.0


def test_a_jump_of_no_length_is_one_read_and_can_be_so_many_points_off() -> None:
    clock = ManualClock()
    source = Jumping(Ramp(clock), UNIT.brake, Pedal.BRAKE, 3, by=-12.0, times=3, lasts=0.0)

    readings = played(source, clock)

    jumped = spoiled(readings)
    assert len(jumped) == 3
    for at in jumped:
        reading = readings[at]
        assert reading is not None
        assert reading.brake == pytest.approx(
            Ramp(clock).at(at * MILLISECOND).brake - 0.12, abs=1e-4
        )


def test_an_unplugged_device_goes_in_every_second_repetition_and_returns() -> None:
    clock = ManualClock()
    source = Unplugged(Ramp(clock), 3.0, after=0.1, every=2)

    first, second = played(source, clock), played(source, clock)

    assert None not in first
    gone = [at for at, reading in enumerate(second) if reading is None]
    assert gone == list(range(2100, 4500))
    clock.advance(nanoseconds(0.6))
    assert source.read() is not None


def test_a_faulty_source_is_told_apart_by_nothing_but_its_readings() -> None:
    inner = Ramp(ManualClock())

    source = FaultySource(inner)

    assert (source.name, source.is_feet, source.counts, source.label) == (
        *(inner.name, inner.is_feet, inner.counts, inner.label),
    )
    assert source.read() == inner.read()
