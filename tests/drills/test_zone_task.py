"""A braking zone as a task alone, on samples made by hand."""

from dataclasses import replace

import pytest

from drills.phases import Event
from drills.score import Reason
from drills.task import AT_REST, Move, Signal, Task
from drills.trace import Pedal
from tests.drills.hand import Hand
from tests.drills.test_tasks import OFF, ON

ZONE = Task(
    target=60.0,
    start={Pedal.BRAKE: AT_REST, Pedal.THROTTLE: AT_REST},
    wait=1.0,
    steady=0.8,
    cues=(0.0, 0.6, 1.2, 2.2, 3.2),
    signals=(Signal.COUNT, Signal.COUNT, Signal.FALL, Signal.CUE, Signal.OFF),
    line=((0.0, 60.0), (1.0, 60.0), (2.0, 0.0)),
    moves=(
        Move(Pedal.BRAKE, 6.0, up=True, within=2.0, cue=2),
        replace(ON, cue=3),
        OFF,
        Move(Pedal.BRAKE, 5.0, up=False, within=1.5, cue=4),
    ),
    lasts=3.2,
    tail=0.6,
    early={Pedal.THROTTLE: 10.0, Pedal.BRAKE: 6.0},
)
"""Two knocks, on the brake at once, a blip on the way down, and off at the last knock."""


def test_a_zone_begins_from_rest_counts_in_and_lasts_to_its_last_knock() -> None:
    hand = Hand(ZONE)
    hand.keep(1.802, brake=0.0)
    lit = hand.repetition.lit

    hand.keep(1.2, brake=0.0)
    hand.keep(1.2, brake=60.0)
    hand.keep(0.2, brake=50.0, throttle=70.0)
    hand.keep(0.5, brake=20.0)
    hand.keep(1.0, brake=0.0)

    assert not lit
    events, times = zip(*hand.events[2:], strict=True)
    assert events == (
        *(Event.CUE, Event.CUE, Event.CUE, Event.MOVED),
        *(Event.CUE, Event.MOVED, Event.MOVED, Event.MOVED),
        *(Event.CUE, Event.FINISHED, Event.OVER),
    )
    assert times == pytest.approx(
        (1.801, 2.401, 3.001, 3.003, 4.001, 4.203, 4.403, 4.903, 5.001, 5.001, 5.601)
    )


def test_a_brake_before_the_first_knock_of_a_zone_has_not_waited_for_it() -> None:
    hand = Hand(ZONE)
    hand.keep(1.2, brake=0.0)

    hand.keep(0.1, brake=10.0)

    assert hand.repetition.void is Reason.ANTICIPATION
