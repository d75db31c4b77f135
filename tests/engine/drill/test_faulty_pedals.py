"""Faulty pedals void a repetition, with the right reason."""

import math
from dataclasses import replace

import pytest

from drills.calibration import UNIT
from drills.level import Level
from drills.phases import Phase
from drills.repetition import Repetition
from drills.score import Reason
from drills.task import Task
from drills.trace import SECOND, nanoseconds
from engine.drill.attempt import conclude
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.stage.actions import Action
from engine.stage.headless import ManualClock
from engine.stage.scene import Pace
from tests.fakes import MILLISECOND, Silent, Steady, Stuttering, Unplugged
from tests.made import BLIP, HOLD, SUMMER, record
from tests.made import BLIP_TASK as A_BLIP_TASK
from tests.made import HOLD_TASK as A_HOLD_TASK
from tests.running_repetition import RunningRepetition

BLIP_TASK = replace(A_BLIP_TASK, freed=math.inf)
HOLD_TASK = replace(A_HOLD_TASK, freed=math.inf)

BOTH = pytest.mark.parametrize(("level", "task"), [(BLIP, BLIP_TASK), (HOLD, HOLD_TASK)])


def ended(session: RunningRepetition) -> Repetition:
    """The repetition with which the screen ended."""
    assert isinstance(session.screen.outcome, Repetition)
    return session.screen.outcome


@BOTH
def test_steady_pedals_lead_to_a_verdict(level: Level, task: Task) -> None:
    clock = ManualClock()
    session = RunningRepetition(level, task, Steady(clock, 0.6), clock)

    session.run(10.0)

    assert ended(session).void is None
    assert session.entered[-1] is Phase.DONE


@BOTH
@pytest.mark.parametrize("at", [0.0, 0.4, 1.0, 1.6])
def test_unplugged_pedals_void_it_at_once(level: Level, task: Task, at: float) -> None:
    clock = ManualClock()
    source = Unplugged(Steady(clock, 0.6), clock, nanoseconds(at))
    session = RunningRepetition(level, task, source, clock)

    session.run(10.0)

    assert ended(session).void is Reason.UNPLUGGED
    assert session.entered[-1] is Phase.VOID
    assert clock() == max(nanoseconds(at), MILLISECOND)


def test_the_trace_has_no_samples_of_an_unplugged_device() -> None:
    clock = ManualClock()
    source = Unplugged(Steady(clock, 0.6), clock, nanoseconds(1.5))
    session = RunningRepetition(HOLD, HOLD_TASK, source, clock)

    session.run(10.0)

    done = ended(session).performance()
    assert done is not None
    assert done.trace.time[-1] == nanoseconds(1.497)
    assert done.trace.brake.tolist() == [60.0] * 1498


@BOTH
def test_silent_pedals_never_reach_the_target(level: Level, task: Task) -> None:
    clock = ManualClock()
    session = RunningRepetition(level, task, Silent(clock), clock)

    session.run(task.patience + 1)

    assert ended(session).void is Reason.NO_TARGET
    assert session.entered == [Phase.RELEASE, Phase.APPROACH, Phase.VOID]
    assert clock() == task.patience * SECOND + MILLISECOND


@BOTH
def test_stuttering_pedals_leave_a_gap_that_voids_it(level: Level, task: Task) -> None:
    clock = ManualClock()
    source = Stuttering(Steady(clock, 0.6), clock, nanoseconds(1.5), stall=60 * MILLISECOND)
    session = RunningRepetition(level, task, source, clock)

    session.run(10.0)

    assert ended(session).void is Reason.GAP
    assert session.entered[-1] is Phase.VOID


@pytest.mark.parametrize(("at", "stall"), [(0.3, 70), (0.82, 70), (1.5, 49)])
def test_a_stutter_outside_the_measured_window_voids_nothing(at: float, stall: int) -> None:
    clock = ManualClock()
    source = Stuttering(Steady(clock, 0.6), clock, nanoseconds(at), stall=stall * MILLISECOND)
    session = RunningRepetition(HOLD, HOLD_TASK, source, clock)

    session.run(10.0)

    assert ended(session).void is None


def run_into(session: RunningRepetition, phase: Phase) -> None:
    """Play a repetition until it has entered a phase."""
    while phase not in session.entered:
        session.run(0.001)


@pytest.mark.parametrize("phase", [Phase.RELEASE, Phase.APPROACH, Phase.HELD, Phase.WAIT])
def test_losing_the_focus_voids_it_before_the_cue(phase: Phase) -> None:
    clock = ManualClock()
    session = RunningRepetition(BLIP, BLIP_TASK, Steady(clock, 0.6), clock)
    run_into(session, phase)

    session.screen.on_focus(False, clock())

    assert ended(session).void is Reason.FOCUS_LOST
    assert session.entered[-1] is Phase.VOID


@pytest.mark.parametrize(
    ("level", "task", "asked"),
    [(BLIP, BLIP_TASK, Phase.ACT), (HOLD, HOLD_TASK, Phase.WAIT)],
    ids=["a blip", "a hold without a cue"],
)
def test_losing_the_focus_changes_nothing_once_something_was_asked(
    level: Level, task: Task, asked: Phase
) -> None:
    clock, undisturbed_clock = ManualClock(), ManualClock()
    undisturbed = RunningRepetition(level, task, Steady(undisturbed_clock, 0.6), undisturbed_clock)
    undisturbed.run(10.0)
    session = RunningRepetition(level, task, Steady(clock, 0.6), clock)
    run_into(session, asked)

    session.screen.on_focus(False, clock())
    session.run(10.0)

    assert ended(session).void is None
    assert session.entered == undisturbed.entered
    assert clock() == undisturbed_clock()


def test_losing_the_focus_voids_a_tryout_after_the_cue_as_the_mouse_is_elsewhere() -> None:
    clock = ManualClock()
    mouse = Steady(clock, 0.6)
    mouse.is_feet = mouse.counts = False
    session = RunningRepetition(BLIP, BLIP_TASK, mouse, clock)
    run_into(session, Phase.ACT)

    session.screen.on_focus(False, clock())

    assert ended(session).void is Reason.FOCUS_LOST


def test_losing_the_focus_after_the_end_changes_nothing() -> None:
    clock = ManualClock()
    session = RunningRepetition(HOLD, HOLD_TASK, Steady(clock, 0.6), clock)
    session.run(10.0)

    session.screen.on_focus(False, clock())

    assert ended(session).void is None
    assert session.entered[-1] is Phase.DONE


def test_going_back_leaves_it_and_every_other_action_does_nothing() -> None:
    clock = ManualClock()
    session = RunningRepetition(BLIP, BLIP_TASK, Steady(clock, 0.6), clock)
    session.run(1.0)

    for action in (Action.GO, Action.NEXT, Action.PREVIOUS):
        session.screen.on_action(action)
    before = session.screen.outcome
    session.screen.on_action(Action.BACK)

    assert before is None
    assert ended(session).void is Reason.LEFT


def test_going_back_before_any_sample_leaves_it() -> None:
    clock = ManualClock()
    session = RunningRepetition(BLIP, BLIP_TASK, Steady(clock, 0.6), clock)

    session.screen.on_action(Action.BACK)

    assert ended(session).void is Reason.LEFT
    assert session.entered == [Phase.RELEASE, Phase.VOID]


def test_without_the_focus_it_does_not_begin_and_waits_for_it() -> None:
    clock = ManualClock()
    session = RunningRepetition(HOLD, HOLD_TASK, Steady(clock, 0.6), clock)

    session.screen.on_focus(False, clock())
    session.run(5.0)
    unfocused = (session.screen.outcome, session.entered)
    session.screen.on_focus(True, clock())
    session.run(5.0)

    assert unfocused == (None, [])
    assert ended(session).void is None
    done = ended(session).performance()
    assert done is not None
    assert done.trace.time[-1] == nanoseconds(3.3)


def test_losing_the_focus_before_the_first_sample_ends_nothing() -> None:
    clock = ManualClock()
    session = RunningRepetition(BLIP, BLIP_TASK, Steady(clock, 0.6), clock)

    session.screen.on_focus(False, clock())

    assert session.screen.outcome is None


@pytest.mark.parametrize("after", [0.1, 0.5, 1.0, 2.5])
def test_pedals_unplugged_for_a_moment_between_two_samples_void_it(after: float) -> None:
    clock = ManualClock()
    session = RunningRepetition(BLIP, BLIP_TASK, Steady(clock, 0.6), clock)
    session.run(after)

    session.screen.on_devices(cut=True)

    assert ended(session).void is Reason.UNPLUGGED


def test_plugging_another_device_in_or_out_changes_nothing() -> None:
    clock = ManualClock()
    session = RunningRepetition(BLIP, BLIP_TASK, Steady(clock, 0.6), clock)
    session.run(1.0)

    session.screen.on_devices(cut=False)

    assert session.screen.outcome is None


def test_the_window_goes_dark_once_and_shows_the_cue() -> None:
    clock = ManualClock()
    session = RunningRepetition(BLIP, BLIP_TASK, Steady(clock, 0.6), clock)

    session.run(5.0)

    assert session.lamp.shown == ["dark", "cue"]


def test_the_screen_is_live_while_lit_and_dark_from_the_dark_on() -> None:
    clock = ManualClock()
    session = RunningRepetition(HOLD, HOLD_TASK, Steady(clock, 0.6), clock)
    paces = []

    for _ in range(40):
        paces.append((session.screen.pace, session.entered[-1:]))
        session.run(0.1)

    live = [pace is Pace.LIVE for pace, _ in paces]
    lit = [phases in ([], [Phase.RELEASE], [Phase.APPROACH], [Phase.HELD]) for _, phases in paces]
    assert live == lit
    assert {pace for pace, _ in paces} == {Pace.LIVE, Pace.DARK}


def test_a_void_repetition_is_recorded_with_its_trace_and_without_a_score() -> None:
    clock = ManualClock()
    source = Stuttering(Steady(clock, 0.6), clock, nanoseconds(1.5), stall=60 * MILLISECOND)
    session = RunningRepetition(HOLD, HOLD_TASK, source, clock)
    session.run(10.0)

    concluded, _ = conclude(
        HOLD,
        HOLD_TASK,
        ended(session),
        Rig(clock, pedals=CalibratedPedals(source, UNIT)),
        record().at,
    )

    assert concluded.verdict.reason is Reason.GAP
    assert (concluded.verdict.score, concluded.verdict.measures) == (None, {})
    assert concluded.source == "stuttering"
    assert concluded.at.tzinfo is SUMMER
    assert concluded.trace is not None
    assert concluded.sampling is not None
    assert concluded.sampling.gap_max == pytest.approx(0.061)
