"""One repetition: the ways through its phases, on samples made by hand."""

from dataclasses import replace

import pytest

from drills.phases import Event, Phase
from drills.repetition import Repetition
from drills.score import Reason
from drills.trace import Sample, nanoseconds
from tests.drills.hand import Hand
from tests.made import BLIP_TASK, HOLD_TASK


def test_a_hold_goes_dark_when_steady_and_is_done_when_its_window_is_over() -> None:
    hand = Hand(HOLD_TASK)

    hand.keep(0.5, brake=20.0)
    hand.keep(4.0)

    assert hand.phases == [Phase.APPROACH, Phase.HELD, Phase.WAIT, Phase.TAIL, Phase.DONE]
    assert hand.times == [0.0, 0.501, 1.301, 3.801, 3.801]
    assert hand.repetition.void is None


def test_a_blip_goes_through_cue_response_and_settling() -> None:
    hand = Hand(BLIP_TASK)

    hand.keep(2.5)
    hand.keep(0.2, throttle=60.0)
    hand.keep(1.5)

    assert hand.events == [
        (Event.READY, 0.001),
        (Event.STEADY, 0.801),
        (Event.CUE, 2.301),
        (Event.MOVED, 2.501),
        (Event.MOVED, 2.701),
        (Event.FINISHED, 2.701),
        (Event.OVER, 3.901),
    ]
    assert hand.repetition.void is None


@pytest.mark.parametrize("brake", [54.9, 65.1, 0.0, -100.0])
def test_a_brake_that_never_comes_to_the_target_is_void_when_patience_ends(brake: float) -> None:
    hand = Hand(replace(HOLD_TASK, patience=3.0))

    hand.keep(4.0, brake=brake)

    assert hand.phases == [Phase.APPROACH, Phase.VOID]
    assert hand.times == [0.0, 3.0]
    assert hand.repetition.void is Reason.NO_TARGET
    assert hand.repetition.performance() is None


@pytest.mark.parametrize("brake", [55.0, 65.0])
def test_the_edges_of_the_band_are_on_target(brake: float) -> None:
    hand = Hand(HOLD_TASK)

    hand.keep(0.9, brake=brake)

    assert hand.phases == [Phase.APPROACH, Phase.HELD, Phase.WAIT]


def test_slipping_off_before_the_dark_begins_the_steadiness_anew() -> None:
    hand = Hand(HOLD_TASK)

    hand.keep(0.7)
    hand.keep(0.1, brake=70.0)
    hand.keep(0.9)

    assert hand.phases == [Phase.APPROACH, Phase.HELD, Phase.APPROACH, Phase.HELD, Phase.WAIT]
    assert hand.times == [0.0, 0.001, 0.701, 0.801, 1.601]


def test_patience_is_counted_from_the_start_and_not_from_the_last_slip() -> None:
    hand = Hand(replace(HOLD_TASK, patience=3.0))

    for _ in range(4):
        hand.keep(0.5)
        hand.keep(0.4, brake=70.0)

    assert hand.phases[-1] is Phase.VOID
    assert hand.times[-2:] == [3.201, 3.212]
    assert hand.repetition.void is Reason.NO_TARGET


@pytest.mark.parametrize(("brake", "freed"), [(60.0, False), (25.0, False), (24.9, True)])
def test_a_target_is_approached_only_once_the_brake_was_let_go(brake: float, freed: bool) -> None:
    hand = Hand(HOLD_TASK, freed=False)

    hand.keep(1.0, brake=brake)

    assert hand.phases == [Phase.APPROACH] * (1 + freed)
    assert hand.repetition.phase is (Phase.APPROACH if freed else Phase.RELEASE)
    assert hand.repetition.lit


def test_a_brake_that_is_never_let_go_is_void_when_patience_ends() -> None:
    hand = Hand(replace(HOLD_TASK, patience=3.0), freed=False)

    hand.keep(4.0)

    assert hand.events == [(Event.IMPATIENT, 3.0)]
    assert hand.repetition.void is Reason.NO_TARGET


def test_leaving_the_target_in_the_dark_changes_nothing() -> None:
    hand = Hand(HOLD_TASK)

    hand.keep(0.9)
    hand.keep(3.0, brake=5.0)

    assert hand.phases == [Phase.APPROACH, Phase.HELD, Phase.WAIT, Phase.TAIL, Phase.DONE]


def test_throttle_before_the_cue_is_an_anticipation() -> None:
    hand = Hand(BLIP_TASK)

    hand.keep(1.5)
    hand.keep(0.2, throttle=10.0)

    assert hand.phases == [Phase.APPROACH, Phase.HELD, Phase.WAIT, Phase.VOID]
    assert hand.repetition.void is Reason.ANTICIPATION


@pytest.mark.parametrize("throttle", [5.0, 7.0, 9.9, 10.0])
def test_a_throttle_that_is_not_at_rest_keeps_a_blip_from_starting(throttle: float) -> None:
    # A throttle that rests at 5 % or more could never fall under 5 %, which ends a blip.
    hand = Hand(BLIP_TASK)

    hand.keep(2.0, throttle=throttle)
    hand.keep(0.1)

    assert hand.phases == [Phase.APPROACH, Phase.HELD]
    assert hand.times == [0.0, 2.001]


@pytest.mark.parametrize("throttle", [4.999, -2.0])
def test_a_throttle_under_five_percent_is_at_rest(throttle: float) -> None:
    hand = Hand(BLIP_TASK)

    hand.keep(2.5, throttle=throttle)

    assert hand.phases == [Phase.APPROACH, Phase.HELD, Phase.WAIT, Phase.ACT]


def test_throttle_while_the_target_is_held_begins_the_steadiness_anew() -> None:
    hand = Hand(BLIP_TASK)

    hand.keep(0.5)
    hand.keep(0.1, throttle=30.0)

    assert hand.phases == [Phase.APPROACH, Phase.HELD, Phase.APPROACH]


def test_a_hold_does_not_mind_the_throttle() -> None:
    hand = Hand(HOLD_TASK)

    hand.keep(3.5, throttle=80.0)

    assert hand.phases == [Phase.APPROACH, Phase.HELD, Phase.WAIT, Phase.TAIL, Phase.DONE]


def test_a_cue_that_is_not_answered_ends_it_and_it_counts() -> None:
    hand = Hand(BLIP_TASK)

    hand.keep(5.0)

    assert [event for event, _ in hand.events[-2:]] == [Event.CUE, Event.LATE]
    assert hand.times[-1] - hand.times[-2] == pytest.approx(BLIP_TASK.moves[0].within)
    assert hand.repetition.void is None


def test_a_throttle_that_stays_on_ends_it_and_it_counts() -> None:
    hand = Hand(BLIP_TASK)

    hand.keep(2.5)
    hand.keep(2.0, throttle=50.0)

    assert [event for event, _ in hand.events[-2:]] == [Event.MOVED, Event.LATE]
    assert hand.times[-1] - hand.times[-2] == pytest.approx(BLIP_TASK.moves[1].within)
    assert hand.repetition.void is None


@pytest.mark.parametrize(("throttle", "phase"), [(5.0, Phase.ACT), (4.9, Phase.TAIL)])
def test_throttle_is_off_when_it_falls_under_five_percent(throttle: float, phase: Phase) -> None:
    hand = Hand(BLIP_TASK)
    hand.bring_to("blipping")

    hand.keep(0.015, throttle=throttle)

    assert hand.repetition.phase is phase


def test_the_trace_begins_at_0_where_the_target_was_last_reached() -> None:
    hand = Hand(BLIP_TASK)

    hand.keep(3.0, brake=20.0)
    hand.keep(0.4)
    hand.keep(0.1, brake=75.0)
    hand.keep(5.0)

    done = hand.repetition.performance()
    assert done is not None
    assert done.trace.time[0] == 0
    assert done.trace.brake.min() == 60.0
    assert done.began == nanoseconds(0.8)
    assert done.cues == (nanoseconds(2.3),)
    assert hand.repetition.measured_from == nanoseconds(1.05)
    assert done.trace.time[-1] == nanoseconds(3.8)


@pytest.mark.parametrize("phase", ["approach", "held"])
def test_nothing_was_performed_before_the_dark(phase: str) -> None:
    hand = Hand(BLIP_TASK)

    hand.bring_to(phase)

    assert hand.repetition.performance() is None
    assert hand.repetition.measured_from is None


def test_two_reads_at_one_time_are_kept_as_one() -> None:
    hand = Hand(HOLD_TASK)
    hand.keep(0.9)
    hand.after(0.0, brake=61.0)

    hand.keep(3.0)

    done = hand.repetition.performance()
    assert done is not None
    assert done.trace.time.size == 3301
    assert done.trace.brake.max() == 60.0


def test_a_clutch_is_kept_where_there_is_one() -> None:
    repetition = Repetition(HOLD_TASK, 0)
    repetition.feed(Sample(0, 0.0, 0.0, clutch=0.0))

    for ms in range(1, 3500):
        repetition.feed(Sample(ms * 1_000_000, 60.0, 0.0, clutch=12.5))

    done = repetition.performance()
    assert done is not None
    assert done.trace.clutch is not None
    assert done.trace.clutch.tolist() == [12.5] * done.trace.time.size
