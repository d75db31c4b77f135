"""Knocks of the second task in a repetition: on time, prolonging nothing and voiding nothing."""

from dataclasses import replace

from drills.phases import Event, Phase, Transition
from drills.repetition import Repetition
from drills.task import Knock, Signal, Task
from drills.trace import SECOND, Sample, nanoseconds
from tests.made import BLIP_TASK

KNOCKS = tuple(Knock(0.3 + 0.4 * number, number % 3 == 1) for number in range(20))
COUNTING = replace(BLIP_TASK, knocks=KNOCKS)


def played(
    task: Task, reaction: float = 0.2, early: float | None = None
) -> tuple[Repetition, list[Transition]]:
    """A blip some s after the cue, or with the throttle in some s after the start of the dark."""
    repetition, transitions = Repetition(task, 0), list[Transition]()
    began = cued = None
    for millisecond in range(12_000):
        now = nanoseconds(millisecond / 1000)
        since: float | None = None if cued is None else (now - cued) / SECOND
        throttle = 60.0 if since is not None and reaction <= since < reaction + 0.2 else 0.0
        if early is not None and began is not None and now - began >= nanoseconds(early):
            throttle = 60.0
        brake = 0.0 if millisecond == 0 else 60.0
        for transition in repetition.feed(Sample(now, brake, throttle)):
            transitions.append(transition)
            began = now if transition.event is Event.STEADY else began
            cued = now if transition.event is Event.CUE else cued
    return repetition, transitions


def test_each_knock_comes_at_its_time_in_the_dark_with_its_signal_and_no_cue() -> None:
    repetition, transitions = played(COUNTING)

    began = next(one.time for one in transitions if one.event is Event.STEADY)
    knocks = [one for one in transitions if one.event is Event.KNOCK]
    for given, knock in zip(knocks, KNOCKS, strict=False):
        assert 0 <= (given.time - began) / SECOND - knock.at <= 0.001
        assert given.signal is (Signal.HIGH if knock.is_high else Signal.LOW)
        assert given.cue is None
    assert repetition.knocked == KNOCKS[: len(knocks)]


def test_knocks_go_on_after_the_cue_and_in_the_tail_and_stop_at_the_end() -> None:
    repetition, transitions = played(COUNTING)

    phases = {one.phase for one in transitions if one.event is Event.KNOCK}
    assert phases == {Phase.WAIT, Phase.ACT, Phase.TAIL}
    assert transitions[-1].event is Event.OVER
    assert len(repetition.knocked) < len(KNOCKS)


def test_knocks_change_nothing_else_of_a_repetition() -> None:
    plain, without = played(BLIP_TASK)
    counting, transitions = played(COUNTING)

    others = [one for one in transitions if one.event is not Event.KNOCK]
    assert others == without
    assert counting.void is plain.void is None
    assert plain.knocked == ()


def test_knocks_neither_hide_nor_make_an_anticipation() -> None:
    _, without = played(BLIP_TASK, early=0.7)
    repetition, transitions = played(COUNTING, early=0.7)

    assert repetition.phase is Phase.VOID
    assert [one for one in transitions if one.event is not Event.KNOCK] == without
