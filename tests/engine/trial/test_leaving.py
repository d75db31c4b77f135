"""A trial that is stopped, killed, given up, disturbed or refused: nothing is lost or let out."""

from dataclasses import replace

import pytest

from drills.calibration import UNIT, Calibration, Range
from drills.phases import Event
from drills.score import Reason
from drills.trace import SECOND
from engine.drill.repetition_screen import RepetitionScreen
from engine.stage.actions import Action
from engine.stage.scene import Attended
from engine.store import History
from engine.trial.beginning import NO_LEVEL
from engine.trial.flow import FEET_ONLY, trials
from engine.trial.randomisation import counted_in
from engine.trial.saved import end_trial, trial_under_way
from engine.trial.status import under_way
from engine.trial.trial import BLOCK
from tests.engine.five.learning_foot import passes
from tests.engine.trial.two_positions import BAND, LEVEL, LEVELS, ON, Trying
from tests.engine.walking import Step, back
from tests.fakes import MILLISECOND, Stuttering, Unplugged

LONGER = Calibration(Range(0.0, 0.9), UNIT.throttle)
STOP: tuple[str, Step] = ("trial menu", "Stop for now")


@pytest.fixture
def trying(history: History) -> Trying:
    """A trial has begun."""
    made = Trying(history)
    made.begin()
    return made


def until(trying: Trying, event: Event, number: int) -> Step:
    """A step: play a repetition until something happens in it for so many times; then the menu."""

    def step(screen: Attended) -> None:
        assert isinstance(screen, RepetitionScreen)
        while screen.outcome is None:
            trying.clock.advance(10 * MILLISECOND)
            screen.on_sample(trying.setting.rig.sample(), trying.clock())
            seen = [one.event for one in trying.audience.transitions]
            if seen.count(event) >= number:
                screen.on_action(Action.MENU)

    return step


def test_a_block_goes_on_where_it_was_left(trying: Trying) -> None:
    played: Step = until(trying, Event.CUE, 99)

    trying.walk(
        ON, *[("repetition", played)] * 3, ("repetition", until(trying, Event.STEADY, 4)), STOP
    )
    stopped = counted_in(trying.trial, 0)
    trying.walk(ON, ("change over", "Stop for now"))

    assert stopped == 3
    assert trying.told("change over")[1]["done"] == 3
    assert counted_in(trying.trial, 0) == BLOCK
    assert len(trying.trial.tried) == BLOCK


def test_a_killed_trial_has_lost_the_repetition_under_way_and_no_more(trying: Trying) -> None:
    flow = trials(trying.setting, BAND, at_once=True)
    for scene in flow:
        scene.screen.on_focus(True, trying.clock())
        if scene.screen.name == "change over":
            scene.screen.on_action(Action.GO)
            continue
        while scene.screen.outcome is None and len(trying.audience.records) < 2:
            trying.clock.advance(10 * MILLISECOND)
            scene.screen.on_sample(trying.setting.rig.sample(), trying.clock())
        if len(trying.audience.records) == 2:
            break

    flow.close()

    assert len(trying.trial.tried) == 2
    assert not trying.trial.over


def test_one_left_after_the_cue_counts_and_tells_nothing(trying: Trying) -> None:
    trying.walk(ON, ("repetition", until(trying, Event.CUE, 1)), STOP)

    assert [one.reason for one in trying.trial.tried] == [Reason.WALKED_OUT]
    assert counted_in(trying.trial, 0) == 1
    assert trying.names == ["trial under way", "change over", "repetition", "trial menu"]


def test_one_that_is_void_says_why_without_a_curve_and_comes_again(trying: Trying) -> None:
    stall = Stuttering(trying.foot, trying.clock, 3 * SECOND, 60 * MILLISECOND)
    trying.read_through(stall)

    trying.walk(ON, ("change over", "Stop for now"))

    assert trying.trial.tried[0].reason is Reason.GAP
    assert trying.names.count("repetition") == BLOCK + 1
    [said] = trying.told("reveal")
    assert said == {"rep": 1, "reason": "gap"}


def test_pedals_that_are_pulled_out_are_waited_for(trying: Trying) -> None:
    out, back_in = 3 * SECOND, 4 * SECOND
    trying.read_through(Unplugged(trying.foot, trying.clock, out, back_in))

    def plug_in(screen: Attended) -> None:
        trying.clock.advance(2 * SECOND)
        screen.on_devices(cut=False)

    trying.walk(ON, ("unplugged", plug_in), ("change over", "Stop for now"))

    assert trying.trial.tried[0].reason is Reason.UNPLUGGED
    assert counted_in(trying.trial, 0) == BLOCK


def test_one_is_given_up_when_that_was_said_twice_and_tells_how_far_it_came_alone(
    trying: Trying,
) -> None:
    trying.walk(
        ("trial under way", "Give it up"),
        ("give up", "No, keep it"),
        ("trial under way", "Go on with it"),
        *[ON] * 2,
        ("change over", "Stop for today"),
    )
    kept_on = not trying.trial.over
    trying.walk(
        ("trial under way", "Give it up"),
        ("give up", "Give it up"),
        ("given up", back),
        ("about trial", "Look at past ones"),
        ("past trials", lambda screen: screen.on_action(Action.GO)),
        ("given up", back),
        ("past trials", back),
        ("about trial", "Back"),
    )

    assert kept_on
    assert trying.trial.over
    assert len(trying.trial.tried) == 2 * BLOCK
    assert [one["far"] for one in trying.told("given up")] == ["1 of 6 pairs is done"] * 2
    assert "trial result" not in trying.names


def test_giving_up_from_the_small_menu_asks_and_ends(trying: Trying) -> None:
    trying.walk(
        ON,
        ("repetition", until(trying, Event.STEADY, 1)),
        ("trial menu", "Give the trial up"),
        ("give up", "No, keep it"),
        ("trial menu", "Give the trial up"),
        ("give up", "Give it up"),
        ("given up", back),
    )

    assert trying.trial.over
    assert trial_under_way(trying.history) is None


def test_the_menu_goes_on_where_it_was_opened(trying: Trying) -> None:
    trying.walk(
        ON,
        ("repetition", until(trying, Event.STEADY, 1)),
        ("trial menu", back),
        ("change over", "Stop for now"),
    )

    assert counted_in(trying.trial, 0) == BLOCK


def test_pedals_set_up_anew_are_warned_of_before_it_goes_on(trying: Trying) -> None:
    trying.walk(ON, ("change over", "Stop for now"))
    trying.read_through(trying.foot, LONGER)

    trying.walk(("trial recalibrated", "Not now"))
    trying.walk(("trial recalibrated", "Go on all the same"), ("change over", "Stop for now"))

    assert trying.names[-5:] == [
        *("trial under way", "trial recalibrated"),
        *("trial under way", "trial recalibrated", "change over"),
    ]


def test_a_try_out_is_refused(history: History) -> None:
    trying = Trying(history)
    trying.setting = replace(trying.setting, history=None)

    trying.walk(("no trial", back))

    assert trying.told("no trial") == [{"choices": ["Back"], "why": FEET_ONLY}]


def test_without_a_level_of_blips_there_is_none(history: History) -> None:
    trying = Trying(history)

    trying.walk(("about trial", "Begin a trial"), ("no trial", back), ("about trial", "Back"))

    assert trying.told("no trial") == [{"choices": ["Back"], "why": NO_LEVEL}]


def test_one_whose_level_is_gone_says_so_and_can_be_given_up(history: History) -> None:
    trying = Trying(history, levels=[level for level in LEVELS if level.id != LEVEL.id])
    trying.begin()

    trying.walk(
        ("trial under way", "Give it up"),
        ("give up", "Give it up"),
        ("given up", back),
        ("about trial", "Back"),
        at_once=True,
    )

    [said] = trying.told("trial under way")
    assert said["choices"] == ["Back", "Give it up"]
    assert said["trouble"] == "Its level is not there any more: bring its file back, or give it up."


def test_at_once_it_goes_on_or_begins_without_a_door(trying: Trying) -> None:
    passes(trying.history, *LEVELS[:9])

    trying.walk(("change over", "Stop for now"), at_once=True)
    end_trial(trying.history, trying.trial.number)
    trying.walk(("set-up", back), at_once=True)

    assert trying.names == ["change over", "set-up"]


def test_more_says_how_far_it_is(trying: Trying) -> None:
    said = under_way(trying.history)
    end_trial(trying.history, trying.trial.number)

    assert (said, under_way(trying.history)) == (
        "0 of 6 pairs are done",
        "",
    )
