"""One repetition: gaps, faults, and events that a phase refuses."""

from itertools import pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.phases import OVER, TABLE, Event, Phase
from drills.score import Reason
from drills.task import Task
from drills.trace import SECOND
from tests.drills.hand import STOPS, Hand
from tests.made import BLIP_TASK, HOLD_TASK

LIVE = [stop for stop, phase in STOPS.items() if phase not in OVER]
REFUSED = sorted(set(product(Phase, Event)) - set(TABLE))


@pytest.mark.parametrize("phase", ["wait", "cued", "blipping", "tail"])
def test_a_gap_of_50_ms_in_the_measured_window_is_fine(phase: str) -> None:
    hand = Hand(BLIP_TASK)
    hand.bring_to(phase)
    throttle = 50.0 if phase == "blipping" else 0.0
    hand.keep(0.300, throttle=throttle)

    hand.after(0.050, throttle=throttle)

    assert hand.repetition.phase is STOPS[phase]


@pytest.mark.parametrize("phase", ["wait", "cued", "blipping", "tail"])
def test_a_gap_of_51_ms_in_the_measured_window_is_void(phase: str) -> None:
    hand = Hand(BLIP_TASK)
    hand.bring_to(phase)
    throttle = 50.0 if phase == "blipping" else 0.0
    hand.keep(0.300, throttle=throttle)

    hand.after(0.051, throttle=throttle)

    assert hand.phases[-2:] == [STOPS[phase], Phase.VOID]
    assert hand.repetition.void is Reason.GAP


@pytest.mark.parametrize("phase", ["approach", "held", "wait"])
def test_a_gap_before_the_measured_window_is_not_void(phase: str) -> None:
    hand = Hand(BLIP_TASK)
    hand.bring_to(phase)
    brake = 20.0 if phase == "approach" else 60.0

    hand.after(0.200, brake=brake)

    assert hand.repetition.phase is STOPS[phase]


@pytest.mark.parametrize(("beyond", "phase"), [(0.050, Phase.WAIT), (0.051, Phase.VOID)])
def test_of_a_gap_only_the_part_inside_the_window_counts(beyond: float, phase: Phase) -> None:
    hand = Hand(BLIP_TASK)
    hand.keep(0.801)
    assert hand.phases[-1] is Phase.WAIT

    hand.after(0.250 + beyond)

    assert hand.repetition.phase is phase


@pytest.mark.parametrize("reason", [Reason.UNPLUGGED, Reason.FOCUS_LOST, Reason.LEFT])
@pytest.mark.parametrize("phase", LIVE)
def test_a_fault_in_any_live_phase_is_void_with_its_reason(phase: str, reason: Reason) -> None:
    hand = Hand(BLIP_TASK, freed=phase != "release")
    hand.bring_to(phase)

    hand.fault(reason)

    assert hand.phases[-1] is Phase.VOID
    assert hand.repetition.void is reason


@pytest.mark.parametrize("phase", LIVE)
def test_leaving_is_void_before_the_cue_and_counts_after_it(phase: str) -> None:
    hand = Hand(BLIP_TASK, freed=phase != "release")
    hand.bring_to(phase)
    asked = phase in ("cued", "blipping", "tail")

    answer = hand.repetition.leave(hand.now)

    assert [step.event for step in answer] == [Event.LEFT if asked else Event.FAULT]
    assert hand.repetition.left == asked
    assert hand.repetition.void is (None if asked else Reason.LEFT)
    assert hand.repetition.phase is (Phase.DONE if asked else Phase.VOID)


@pytest.mark.parametrize("stop", ["approach", "held", "wait"])
def test_leaving_a_hold_counts_once_it_is_dark(stop: str) -> None:
    hand = Hand(HOLD_TASK)
    hand.bring_to(stop)

    hand.repetition.leave(hand.now)

    assert hand.repetition.left == (stop == "wait")


@pytest.mark.parametrize("phase", ["done", "void"])
def test_leaving_after_the_end_is_refused_and_changes_nothing(phase: str) -> None:
    hand = Hand(BLIP_TASK)
    hand.bring_to(phase)

    answer = hand.repetition.leave(hand.now)

    assert answer == ()
    assert hand.repetition.phase is STOPS[phase]
    assert not hand.repetition.left


@pytest.mark.parametrize(("phase", "reason"), [("done", None), ("void", "anticipation")])
def test_a_fault_after_the_end_is_refused_and_changes_nothing(
    phase: str, reason: str | None
) -> None:
    hand = Hand(BLIP_TASK)
    hand.bring_to(phase)

    answer = hand.repetition.fault(Reason.UNPLUGGED, hand.now)

    assert answer == ()
    assert hand.repetition.phase is STOPS[phase]
    assert hand.repetition.void == reason


@pytest.mark.parametrize("phase", ["done", "void"])
def test_samples_after_the_end_are_not_kept(phase: str) -> None:
    hand = Hand(BLIP_TASK)
    hand.bring_to(phase)
    before = hand.repetition.performance()

    hand.keep(2.0, throttle=50.0)
    hand.keep(2.0, brake=0.0)

    after = hand.repetition.performance()
    assert before is not None
    assert after is not None
    assert hand.repetition.phase is STOPS[phase]
    assert after.trace == before.trace


@pytest.mark.parametrize(("phase", "event"), REFUSED)
def test_an_event_that_a_phase_does_not_list_is_refused(phase: Phase, event: Event) -> None:
    hand = Hand(BLIP_TASK, freed=phase is not Phase.RELEASE)
    hand.bring_to(next(stop for stop, reached in STOPS.items() if reached is phase))
    void = hand.repetition.void

    with pytest.raises(KeyError):
        hand.repetition._take(event, hand.now + SECOND)

    assert hand.repetition.phase is phase
    assert hand.repetition.void is void


def test_every_live_phase_can_be_ended_by_a_fault_and_an_end_by_nothing() -> None:
    faulted = {phase for phase, event in TABLE if event is Event.FAULT}
    left = {phase for phase, _ in TABLE}

    assert faulted == set(Phase) - OVER
    assert left == set(Phase) - OVER


LEGS = st.tuples(
    st.sampled_from([0.0, 0.001, 0.015, 0.3, 0.9, 2.5, 70.0]),
    st.sampled_from([0.0, 55.0, 60.0, 90.0]),
    st.sampled_from([-1.0, 0.0, 7.0, 10.0, 60.0]),
)


@given(legs=st.lists(LEGS, max_size=30), task=st.sampled_from([BLIP_TASK, HOLD_TASK]))
def test_whatever_is_fed_every_step_taken_is_in_the_table(
    legs: list[tuple[float, float, float]], task: Task
) -> None:
    hand = Hand(task)

    for leg in legs:
        hand.after(*leg)

    steps = {(phase, following) for (phase, _), following in TABLE.items()}
    assert set(pairwise(hand.phases)) <= steps
    assert (hand.repetition.void is not None) == (hand.repetition.phase is Phase.VOID)
