"""A trial that is stopped, killed, given up or disturbed loses nothing and shows no score."""

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
from engine.trial.flow import trials
from engine.trial.randomisation import counted_in
from engine.trial.saved import end_trial, trial_under_way
from engine.trial.screen_words import FEET_ONLY, LEVEL_GONE, NO_LEVEL
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
    """A player whose trial has just begun."""
    made = Trying(history)
    made.begin()
    return made


def until(trying: Trying, event: Event, number: int) -> Step:
    """A step that plays a repetition, and opens the menu at the nth event of a kind."""

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
    assert trying.details_of("change over")[1]["done"] == 3
    assert counted_in(trying.trial, 0) == BLOCK
    assert len(trying.trial.repetitions) == BLOCK


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

    assert len(trying.trial.repetitions) == 2
    assert not trying.trial.over


def test_a_repetition_left_after_the_cue_counts_and_shows_nothing(trying: Trying) -> None:
    trying.walk(ON, ("repetition", until(trying, Event.CUE, 1)), STOP)

    assert [one.reason for one in trying.trial.repetitions] == [Reason.WALKED_OUT]
    assert counted_in(trying.trial, 0) == 1
    assert trying.names == ["trial under way", "change over", "repetition", "trial menu"]


def test_a_void_repetition_says_why_without_a_curve_and_is_repeated(trying: Trying) -> None:
    stall = Stuttering(trying.foot, trying.clock, 3 * SECOND, 60 * MILLISECOND)
    trying.read_through(stall)

    trying.walk(ON, ("change over", "Stop for now"))

    assert trying.trial.repetitions[0].reason is Reason.GAP
    assert trying.names.count("repetition") == BLOCK + 1
    [said] = trying.details_of("reveal")
    assert said == {"rep": 1, "reason": "gap"}


def test_pedals_that_are_pulled_out_are_waited_for(trying: Trying) -> None:
    out, back_in = 3 * SECOND, 4 * SECOND
    trying.read_through(Unplugged(trying.foot, trying.clock, out, back_in))

    def plug_in(screen: Attended) -> None:
        trying.clock.advance(2 * SECOND)
        screen.on_devices(cut=False)

    trying.walk(ON, ("unplugged", plug_in), ("change over", "Stop for now"))

    assert trying.trial.repetitions[0].reason is Reason.UNPLUGGED
    assert counted_in(trying.trial, 0) == BLOCK


def test_a_trial_is_given_up_once_confirmed_and_shows_only_how_far_it_came(
    trying: Trying,
) -> None:
    trying.walk(
        ("trial under way", "Give it up"),
        ("give up", "No, keep it"),
        ("trial under way", "Go on"),
        *[ON] * 2,
        ("change over", "Stop for today"),
    )
    kept_on = not trying.trial.over
    trying.walk(
        ("trial under way", "Give it up"),
        ("give up", "Give it up"),
        ("given up", back),
        ("about trial", "Past trials"),
        ("past trials", lambda screen: screen.on_action(Action.GO)),
        ("given up", back),
        ("past trials", back),
        ("about trial", "Back"),
    )

    assert kept_on
    assert trying.trial.over
    assert len(trying.trial.repetitions) == 2 * BLOCK
    assert [one["far"] for one in trying.details_of("given up")] == ["1 of 6 pairs is done"] * 2
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


def test_recalibrated_pedals_are_warned_of_before_a_trial_continues(trying: Trying) -> None:
    trying.walk(ON, ("change over", "Stop for now"))
    trying.read_through(trying.foot, LONGER)

    trying.walk(("trial recalibrated", "Not now"))
    trying.walk(("trial recalibrated", "Go on all the same"), ("change over", "Stop for now"))

    assert trying.names[-5:] == [
        *("trial under way", "trial recalibrated"),
        *("trial under way", "trial recalibrated", "change over"),
    ]


def test_without_pedals_a_trial_is_refused(history: History) -> None:
    trying = Trying(history)
    trying.setting = replace(trying.setting, history=None)

    trying.walk(("no trial", back))

    assert trying.details_of("no trial") == [{"choices": ["Back"], "why": FEET_ONLY}]


def test_without_a_level_of_blips_a_trial_is_refused(history: History) -> None:
    trying = Trying(history)

    trying.walk(("about trial", "Begin in blocks"), ("no trial", back), ("about trial", "Back"))

    assert trying.details_of("no trial") == [{"choices": ["Back"], "why": NO_LEVEL}]


def test_a_trial_whose_level_is_gone_says_so_and_can_be_given_up(history: History) -> None:
    trying = Trying(history, levels=[level for level in LEVELS if level.id != LEVEL.id])
    trying.begin()

    trying.walk(
        ("trial under way", "Give it up"),
        ("give up", "Give it up"),
        ("given up", back),
        ("about trial", "Back"),
        at_once=True,
    )

    [said] = trying.details_of("trial under way")
    assert said["choices"] == ["Back", "Give it up"]
    assert said["trouble"] == LEVEL_GONE


def test_at_once_a_trial_continues_or_begins_without_the_menu(trying: Trying) -> None:
    passes(trying.history, *LEVELS[:9])

    trying.walk(("change over", "Stop for now"), at_once=True)
    end_trial(trying.history, trying.trial.number)
    trying.walk(("set-up", back), at_once=True)

    assert trying.names == ["change over", "set-up"]


def test_the_status_says_how_far_the_current_trial_is(trying: Trying) -> None:
    said = under_way(trying.history)
    end_trial(trying.history, trying.trial.number)

    assert (said, under_way(trying.history)) == (
        "0 of 6 pairs are done",
        "",
    )
