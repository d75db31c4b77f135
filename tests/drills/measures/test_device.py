"""What the pedals did is judged before what the foot did."""

from collections import Counter

import numpy as np
import pytest

from drills.judging import judge_foot, pulses_on
from drills.measures.device import DeviceHistory, FaultKind, Watched, device_fault
from drills.score import OF_THE_PEDALS, Reason
from drills.trace import STEP, Pedal, Trace
from tests.drills.measures import plain_device
from tests.drills.measures.faulted import (
    Fault,
    Hardware,
    Played,
    feet,
    frozen,
    judged,
    jumping,
    saturating,
    stalling,
)

COUNT = 12
ROWS = (("blip-1-first", 0.6), ("blip-5-still", 0.9), ("run-2-three", 0.8), ("still-1-light", 0.5))
FEET = tuple(played for name, skill in ROWS for played in feet(name, skill, COUNT))
BLIPS = tuple(played for name, skill in ROWS[:3] for played in feet(name, skill, COUNT))


def told_of(played: tuple[Played, ...], hardware: Hardware, fault: Fault | None) -> Counter[Reason]:
    """How many repetitions are void for each thing that the pedals did."""
    reasons = [one.verdict.reason for one in judged(played, hardware, fault)]
    return Counter(reason for reason in reasons if reason in OF_THE_PEDALS)


def wrongs(played: tuple[Played, ...], fault: Fault) -> tuple[int, int]:
    """How many repetitions are wrongly clean, and how many wrongly not clean."""
    with_it, without = (judged(played, Hardware(), each) for each in (fault, None))
    pairs = [(one.verdict, was.verdict) for one, was in zip(with_it, without, strict=True)]
    praised = sum(one.clean and not was.clean for one, was in pairs)
    blamed = sum(was.clean and not one.clean and not one.void for one, was in pairs)
    return praised, blamed


@pytest.mark.parametrize("devices", [1, 2])
@pytest.mark.parametrize("noise", [0.0, 0.5])
@pytest.mark.parametrize("rate", [60.0, 125.0, 1000.0])
@pytest.mark.parametrize("bits", [8, 10, 16])
def test_honest_pedals_are_left_alone(bits: int, rate: float, noise: float, devices: int) -> None:
    told = told_of(FEET, Hardware(bits, rate, noise, devices), None)

    assert told.total() <= (1 if rate == 60.0 else 0)


@pytest.mark.parametrize("after", [0.0, 0.15, 0.3])
def test_a_brake_that_freezes_after_the_cue_is_told(after: float) -> None:
    assert told_of(FEET, Hardware(), frozen(after)) == {Reason.NOT_MOVED: len(FEET)}


@pytest.mark.parametrize(("seconds", "share"), [(0.06, 0.4), (0.1, 0.5), (0.2, 0.6)])
def test_a_device_that_stalls_is_told_or_does_no_harm(seconds: float, share: float) -> None:
    told = told_of(BLIPS, Hardware(), stalling(seconds))
    praised, blamed = wrongs(BLIPS, stalling(seconds))

    assert set(told) == {Reason.STALLED}
    assert told[Reason.STALLED] >= share * len(BLIPS)
    assert max(praised, blamed) <= 2


JUMPS = (
    jumping("brake", to=0.0),
    jumping("brake", to=100.0),
    jumping("brake", by=-12.0),
    jumping("throttle", to=100.0),
)


@pytest.mark.parametrize("fault", JUMPS)
def test_a_single_jump_is_taken_out_and_changes_no_verdict(fault: Fault) -> None:
    assert told_of(FEET, Hardware(), fault) == {}
    assert max(wrongs(FEET, fault)) <= 1
    jumped = [len(one.jumps) for one in judged(FEET, Hardware(), fault)]
    assert jumped.count(1) >= 0.95 * len(FEET)


def test_a_pedal_that_jumps_again_and_again_is_told_by_its_name() -> None:
    fault = jumping("brake", to=0.0, times=4)

    found = judged(FEET, Hardware(), fault)

    assert {one.verdict.reason for one in found} == {Reason.JUMPED}
    assert {one.verdict.pedal for one in found} == {Pedal.BRAKE}


def test_a_brake_whose_axis_ends_below_its_target_is_told_from_the_third_on() -> None:
    played = feet("blip-1-first", 0.6, COUNT)

    reasons = [one.verdict.reason for one in judged(played, Hardware(), saturating(55.0))]

    assert reasons[2:] == [Reason.AT_END] * (COUNT - 2)
    assert Reason.AT_END not in reasons[:2]


def test_pedals_that_report_20_times_a_second_are_told() -> None:
    told = told_of(BLIPS, Hardware(rate=20.0), None)

    assert set(told) == {Reason.SELDOM}
    assert told[Reason.SELDOM] >= 0.8 * len(BLIPS)


def test_the_session_knows_how_often_the_pedals_report_and_their_finest_step() -> None:
    played = BLIPS[0]
    trace = judge_foot(played.level, played.task, played.done).done.trace

    known = DeviceHistory()
    for interval in (0.5, 0.001, 0.002, None, 0.008, 0.004, 0.003):
        known = known.after(trace, interval)

    assert known.report_interval == 0.001
    assert known.step == pytest.approx(100 / 4095)
    assert known.tops == (trace.brake.max(),) * 2
    assert DeviceHistory().report_interval == 0.0


@pytest.mark.parametrize(("brake", "told"), [(0.0, None), (55.0, FaultKind.AT_END)])
def test_a_brake_at_rest_is_not_at_its_end_and_has_not_frozen(
    brake: float, told: FaultKind | None
) -> None:
    time = np.arange(2000, dtype=np.int64) * STEP
    trace = Trace(time, np.full(2000, brake), np.zeros(2000))
    before = DeviceHistory((brake, brake), step=0.1)

    fault = device_fault(Watched(trace, 0, 2000 * STEP), before)

    assert (None if fault is None else fault.kind) is told


@pytest.mark.parametrize(
    ("step", "told"), [(0.29, FaultKind.NOT_MOVED), (0.31, None), (None, None)]
)
def test_a_coarse_brake_or_one_of_unknown_steps_may_stand_still(
    step: float | None, told: FaultKind | None
) -> None:
    time = np.arange(2000, dtype=np.int64) * STEP
    trace = Trace(time, np.full(2000, 55.0), np.zeros(2000))

    fault = device_fault(Watched(trace, 0, 2000 * STEP), DeviceHistory(step=step))

    assert (None if fault is None else fault.kind) is told


FAULTS = (
    *(None, frozen(0.15), stalling(0.1), jumping("throttle", by=30.0, times=3), saturating(55.0)),
    *(jumping("brake", by=-12.0, times=4), frozen(0.6)),
)


@pytest.mark.parametrize("fault", FAULTS)
@pytest.mark.parametrize("hardware", [Hardware(), Hardware(10, 60.0), Hardware(9, 1000.0, 0.2)])
def test_what_is_told_agrees_with_the_rules_written_a_second_time(
    hardware: Hardware, fault: Fault | None
) -> None:
    played = (*feet("blip-1-first", 0.6, COUNT)[:4], *feet("still-1-light", 0.5, COUNT)[:2])
    known = plain_device.Pedals()

    for one, done in zip(played, judged(played, hardware, fault), strict=True):
        chance = np.random.default_rng((7, played.index(one)))
        trace = hardware.tell(one.done.trace, chance)
        trace = trace if fault is None else fault(trace, one.cue, chance)
        columns = [trace.brake, trace.throttle, trace.clutch]
        pedals = [column.tolist() for column in columns if column is not None]
        foot = judge_foot(one.level, one.task, done.done)
        pulses = [(pulse.first, pulse.after) for pulse in pulses_on(foot.grid)]
        end = trace.time.size
        if not one.task.cues:
            end = min(end, round((one.done.began / 1e9 + one.task.wait + one.task.lasts) * 1000))
        elif pulses:
            end = min(end, pulses[-1][1] + 1000)
        found = known.fault(pedals, pulses, -(-one.opens // 1_000_000), end)

        verdict = done.verdict
        told = (verdict.reason.value, verdict.pedal or "")
        assert (told if verdict.reason in OF_THE_PEDALS else None) == found
        jumps = [plain_device.cleaned(values)[1] for values in pedals]
        assert sorted(jump for each in jumps for jump in each) == [
            (jump.start // 1_000_000, jump.stop // 1_000_000) for jump in done.jumps
        ]
