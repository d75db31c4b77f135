"""Events of the pedals that last long enough to be true."""

import pytest

from drills.lasting import Lasting
from drills.phases import Event, Phase, Transition
from drills.repetition import Repetition
from drills.score import Reason, unjudged
from drills.trace import SECOND, Sample
from tests.drills.hand import Hand
from tests.made import BLIP_TASK, HOLD_TASK

MS = SECOND // 1000


@pytest.mark.parametrize(("interval", "least"), [(0.0, 10), (0.006, 10), (0.008, 12), (0.016, 24)])
def test_an_event_lasts_a_hundredth_and_one_and_a_half_reports(interval: float, least: int) -> None:
    lasting = Lasting(interval)

    told = [lasting.since(True, (100 + ms) * MS) for ms in range(30)]

    assert told == [None] * least + [100 * MS] * (30 - least)


def test_a_break_begins_it_anew() -> None:
    lasting = Lasting(0.0)

    told = [lasting.since(ms != 5, ms * MS) for ms in range(17)]

    assert told == [None] * 16 + [6 * MS]
    assert lasting.waits


@pytest.mark.parametrize("length", [1, 9])
def test_a_short_read_of_throttle_in_the_wait_is_no_anticipation(length: int) -> None:
    hand = Hand(BLIP_TASK)
    hand.keep(1.0)

    hand.keep(length / 1000, throttle=12.0)
    hand.keep(1.0)

    assert hand.repetition.void is None
    assert hand.phases[-1] is Phase.WAIT


@pytest.mark.parametrize("length", [1, 9])
def test_a_short_read_of_no_brake_does_not_begin_the_steadiness_anew(length: int) -> None:
    hand = Hand(BLIP_TASK)
    hand.keep(0.5)

    hand.keep(length / 1000, brake=0.0)
    hand.keep(0.5)

    assert hand.events == [(Event.READY, 0.001), (Event.STEADY, 0.801)]


def test_the_wait_does_not_begin_while_the_brake_may_have_been_let_go() -> None:
    hand = Hand(BLIP_TASK)

    hand.keep(0.795)
    hand.keep(0.020, brake=0.0)

    assert hand.events == [(Event.READY, 0.001), (Event.LOST, 0.796)]


def test_a_short_read_of_throttle_after_the_cue_is_no_blip() -> None:
    hand = Hand(BLIP_TASK)
    hand.keep(2.5)

    hand.keep(0.009, throttle=60.0)
    hand.keep(0.2)
    hand.keep(0.2, throttle=60.0)
    hand.keep(0.009)
    hand.keep(0.1, throttle=60.0)
    hand.keep(0.1)

    moved = [at for event, at in hand.events if event is Event.MOVED]
    assert moved == [2.71, 3.019]


def test_a_slow_device_needs_more_than_one_report() -> None:
    repetition = Repetition(BLIP_TASK, 0, report_interval=0.016)
    events: list[Transition] = []
    for ms in range(3000):
        throttle = 60.0 if 1000 <= ms < 1016 or 2500 <= ms < 2532 else 0.0
        brake = 60.0 if ms else 0.0
        events += repetition.feed(Sample(ms * MS, brake, throttle))

    moved = [step.time / MS for step in events if step.event is Event.MOVED]
    assert moved == [2500, 2532]


def test_an_anticipation_is_told_from_where_it_began() -> None:
    hand = Hand(BLIP_TASK)
    hand.keep(1.301)
    hand.keep(0.1, throttle=30.0)

    done = hand.repetition.performance()

    assert done is not None
    assert hand.repetition.void is Reason.ANTICIPATION
    judged = unjudged(Reason.ANTICIPATION, BLIP_TASK, done)
    assert judged.verdict.measures == {"reaction": pytest.approx(-0.999)}


def test_a_throttle_just_before_the_cue_does_not_hold_the_cue_back() -> None:
    hand = Hand(BLIP_TASK)
    hand.keep(2.296)

    hand.keep(0.2, throttle=60.0)

    assert hand.events[2:4] == [(Event.CUE, 2.301), (Event.MOVED, 2.301)]


def test_a_hold_is_over_as_it_was() -> None:
    hand = Hand(HOLD_TASK)

    hand.keep(4.0)

    assert hand.times[-1] == 3.301
