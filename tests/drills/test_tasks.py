"""One table runs every kind of drill: each asked by a Task alone, on samples made by hand."""

from dataclasses import replace
from typing import Any

import pytest

from drills.phases import Event, Phase
from drills.score import Reason
from drills.task import AT_REST, Move, Task
from drills.trace import Pedal, nanoseconds
from tests.drills.hand import Hand

BRAKE, THROTTLE, CLUTCH = Pedal.BRAKE, Pedal.THROTTLE, Pedal.CLUTCH

ON = Move(THROTTLE, 10.0, up=True, within=2.0, cue=0)
OFF = Move(THROTTLE, 5.0, up=False, within=1.0)

RUN = Task(
    target=60.0,
    start={BRAKE: (55.0, 65.0), THROTTLE: AT_REST},
    wait=1.0,
    steady=0.8,
    cues=(0.0, 0.6, 1.2),
    moves=(ON, OFF, replace(ON, cue=1), OFF, replace(ON, cue=2), OFF),
    tail=1.2,
    early={THROTTLE: 10.0},
)
"""Three blips at a tempo of 0.6 s."""
EASE = Task(
    target=60.0,
    start={BRAKE: (55.0, 65.0), THROTTLE: AT_REST},
    wait=1.0,
    steady=0.8,
    cues=(0.0,),
    moves=(Move(BRAKE, 5.0, up=False, within=3.0, cue=0),),
    lasts=2.0,
    tail=0.3,
)
"""Easing off within 2 s or so."""
SQUEEZE = Task(
    target=60.0,
    start={BRAKE: AT_REST},
    wait=1.0,
    cues=(0.0,),
    moves=(Move(BRAKE, 54.0, up=True, within=1.5, cue=0),),
    lasts=2.0,
    early={BRAKE: 10.0},
    dark=False,
    steady=0.3,
)
"""From rest to the target on a cue."""
SHIFT = Task(
    target=60.0,
    start={BRAKE: (55.0, 65.0), THROTTLE: AT_REST, CLUTCH: AT_REST},
    wait=1.0,
    steady=0.8,
    cues=(0.0,),
    moves=(
        Move(CLUTCH, 50.0, up=True, within=1.0, cue=0),
        Move(THROTTLE, 10.0, up=True, within=1.0),
        OFF,
        Move(CLUTCH, 20.0, up=False, within=1.0),
    ),
    tail=0.5,
    early={THROTTLE: 10.0, CLUTCH: 20.0},
)
"""Clutch down, blip under it, clutch up."""


def test_three_blips_at_a_tempo_follow_their_own_cues() -> None:
    hand = Hand(RUN)
    hand.keep(1.9)

    for _ in range(3):
        hand.keep(0.2, throttle=70.0)
        hand.keep(0.4)
    hand.keep(1.5)

    assert hand.events == [
        (Event.READY, 0.001),
        (Event.STEADY, 0.801),
        (Event.CUE, 1.801),
        (Event.MOVED, 1.901),
        (Event.MOVED, 2.101),
        (Event.CUE, 2.401),
        (Event.MOVED, 2.501),
        (Event.MOVED, 2.701),
        (Event.CUE, 3.001),
        (Event.MOVED, 3.101),
        (Event.MOVED, 3.301),
        (Event.FINISHED, 3.301),
        (Event.OVER, 4.501),
    ]
    assert hand.repetition.void is None


def test_a_blip_before_its_own_cue_counts_as_the_one_that_is_awaited() -> None:
    hand = Hand(RUN)
    hand.keep(1.9)
    hand.keep(0.2, throttle=70.0)

    hand.keep(0.1)
    hand.keep(0.05, throttle=70.0)

    assert [event for event, _ in hand.events[-2:]] == [Event.MOVED, Event.MOVED]
    assert hand.times[-1] < 2.401


def test_cues_of_a_run_come_although_no_blip_does_and_then_it_is_late() -> None:
    hand = Hand(RUN)

    hand.keep(5.0)

    assert hand.events[2:] == [
        (Event.CUE, 1.801),
        (Event.CUE, 2.401),
        (Event.CUE, 3.001),
        (Event.LATE, 3.801),
    ]
    assert hand.phases[-1] is Phase.DONE
    assert hand.repetition.void is None


def test_a_late_read_of_one_cue_delays_no_other() -> None:
    hand = Hand(RUN)
    hand.keep(1.795)

    hand.after(0.016)
    hand.keep(1.5)

    cues = [time for event, time in hand.events if event is Event.CUE]
    assert cues == [1.811, 2.401, 3.001]


def test_easing_off_lasts_as_long_as_it_should_at_least() -> None:
    hand = Hand(EASE)
    hand.keep(1.801)

    for step in range(1000):
        hand.after(0.001, brake=60 - 0.06 * step)
    hand.keep(2.0, brake=0.0)

    assert hand.events[2:] == [
        (Event.CUE, 1.801),
        (Event.MOVED, pytest.approx(2.719)),
        (Event.FINISHED, 3.801),
        (Event.OVER, pytest.approx(4.101)),
    ]


def test_a_brake_that_is_never_eased_off_is_late_and_counts() -> None:
    hand = Hand(EASE)

    hand.keep(6.0)

    assert hand.events[-1] == (Event.LATE, 4.801)
    assert hand.repetition.void is None


def test_a_squeeze_begins_from_rest_and_is_lit_until_its_cue() -> None:
    hand = Hand(SQUEEZE)

    hand.keep(0.5, brake=1.0)
    lit_in_the_wait = (hand.repetition.phase, hand.repetition.lit)
    hand.keep(0.801, brake=1.0)
    lit_at_the_cue = (hand.repetition.phase, hand.repetition.lit)
    hand.keep(0.4, brake=60.0)
    hand.keep(2.0, brake=58.0)

    assert lit_in_the_wait == (Phase.WAIT, True)
    assert lit_at_the_cue == (Phase.ACT, False)
    assert hand.events == [
        (Event.READY, 0.001),
        (Event.STEADY, 0.301),
        (Event.CUE, 1.301),
        (Event.MOVED, 1.302),
        (Event.FINISHED, 3.301),
        (Event.OVER, 3.301),
    ]


def test_a_squeeze_before_the_cue_has_not_waited_for_it() -> None:
    hand = Hand(SQUEEZE)

    hand.keep(0.5, brake=1.0)
    hand.keep(0.1, brake=10.0)

    assert hand.events[-1] == (Event.EARLY, 0.501)
    assert hand.repetition.void is Reason.ANTICIPATION


def test_of_a_squeeze_only_what_follows_the_cue_is_measured() -> None:
    hand = Hand(SQUEEZE)
    hand.keep(0.5, brake=1.0)

    hand.after(0.700, brake=1.0)
    in_the_wait = (hand.repetition.phase, hand.repetition.measured_from)
    hand.keep(0.2, brake=1.0)
    hand.after(0.051, brake=60.0)

    assert in_the_wait == (Phase.WAIT, None)
    assert hand.repetition.measured_from == nanoseconds(1.300)
    assert hand.repetition.void is Reason.GAP


def test_a_shift_goes_clutch_blip_clutch() -> None:
    hand = Hand(SHIFT)
    hand.keep(1.9, clutch=0.0)

    hand.keep(0.1, clutch=90.0)
    hand.keep(0.2, throttle=60.0, clutch=100.0)
    hand.keep(0.1, clutch=100.0)
    hand.keep(1.0, clutch=0.0)

    assert hand.events[2:] == [
        (Event.CUE, 1.801),
        (Event.MOVED, 1.901),
        (Event.MOVED, 2.001),
        (Event.MOVED, 2.201),
        (Event.MOVED, 2.301),
        (Event.FINISHED, 2.301),
        (Event.OVER, 2.801),
    ]


def test_pedals_that_arrive_together_are_taken_in_one_sample() -> None:
    hand = Hand(SHIFT)
    hand.keep(1.9, clutch=0.0)

    hand.keep(0.015, throttle=60.0, clutch=90.0)

    assert [event for event, _ in hand.events[-2:]] == [Event.MOVED, Event.MOVED]
    assert hand.times[-1] == hand.times[-2] == 1.901


def test_a_clutch_that_is_not_there_never_begins() -> None:
    hand = Hand(replace(SHIFT, patience=2.0))

    hand.keep(2.5)

    assert hand.events == [(Event.IMPATIENT, 2.0)]
    assert hand.repetition.void is Reason.NO_TARGET


@pytest.mark.parametrize("pedal", [THROTTLE, CLUTCH])
def test_a_pedal_that_does_not_wait_for_the_cue_is_early(pedal: Pedal) -> None:
    hand = Hand(SHIFT)
    hand.keep(1.5, clutch=0.0)

    pressed = {"throttle": 30.0, "clutch": 0.0} if pedal is THROTTLE else {"clutch": 30.0}
    hand.keep(0.1, **pressed)

    assert hand.events[-1] == (Event.EARLY, 1.501)


@pytest.mark.parametrize(
    ("task", "change", "said"),
    [
        (RUN, {"cues": (0.6, 0.0, 1.2)}, "cues: expected to ascend, found (0.6, 0.0, 1.2)"),
        (RUN, {"cues": (0.0,)}, "moves: expected one of 1 cues, found 1"),
        (RUN, {"cues": ()}, "cues: expected one to move on, or to go dark on, found none"),
        (
            SQUEEZE,
            {"cues": (), "moves": ()},
            "cues: expected one to move on, or to go dark on, found none",
        ),
    ],
)
def test_a_task_that_cannot_be_is_refused(task: Task, change: dict[str, Any], said: str) -> None:
    with pytest.raises(ValueError, match="expected") as refused:
        replace(task, **change)

    assert str(refused.value) == said
