"""One set without a window: what counts, what is repeated, and what ends it."""

from dataclasses import replace
from datetime import timedelta

import pygame
import pytest

from drills.calibration import UNIT
from drills.level import Feedback, Level
from drills.score import Reason
from drills.targets import Targets
from drills.trace import SECOND, nanoseconds
from engine.drill.reveal import Reveal
from engine.drill.set import end_set
from engine.drill.set_end import Then
from engine.drill.turn import MOST_VOID
from engine.kit import theme
from engine.kit.canvas import Fonts
from engine.kit.looks import Look
from engine.stage.actions import Action
from engine.stage.headless import ManualClock
from engine.stage.scene import Attended
from engine.store import History
from engine.store.repetitions import measures_of
from tests.coarse_clock import READ_EACH
from tests.engine.drill.sets import DATE, SHORT, SetPlayer, reasons
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.walking import back, choose, walk
from tests.fakes import MILLISECOND, Steady, Stuttering, Unplugged
from tests.made import BLIP, level
from tests.stored import all_results


def test_a_set_stores_each_repetition_as_it_ends(history: History) -> None:
    clock = ManualClock()
    session = SetPlayer(Steady(clock, 0.6), clock, history)

    records = session.walk(SHORT, ("reveal", "on"), ("reveal", "on"))

    assert reasons(records) == [Reason.CLEAN, Reason.CLEAN]
    assert session.places == [1, 2]
    assert [record.at for record in records] == [DATE, DATE + timedelta(minutes=1)]
    assert [result.clean for result in all_results(history)] == [True, True]
    assert measures_of(history, 2) == dict(records[1].verdict.measures)


@pytest.mark.parametrize(
    ("lucky", "note"),
    [(SHORT.id, "Partly luck with these pedals."), ("another", "")],
)
def test_a_reveal_says_that_its_level_is_partly_luck(
    history: History, lucky: str, note: str
) -> None:
    clock, notes = ManualClock(), list[str]()
    session = SetPlayer(Steady(clock, 0.6), clock, history)
    session.setting = replace(session.setting, lucky=frozenset({lucky}))

    def read(screen: Attended) -> None:
        assert isinstance(screen, Reveal)
        notes.append(screen.note)
        screen.on_action(Action.GO)

    session.walk(replace(SHORT, repetitions=1), ("reveal", read))

    assert notes == [note]


def test_a_void_repetition_is_repeated_under_its_number(history: History) -> None:
    clock = ManualClock()
    source = Stuttering(Steady(clock, 0.6), clock, nanoseconds(1.5), stall=60 * MILLISECOND)
    session = SetPlayer(source, clock, history)

    records = session.walk(
        SHORT,
        ("reveal", "on"),
        ("reveal", "on"),
        ("reveal", "on"),
    )

    assert reasons(records) == [Reason.GAP, Reason.CLEAN, Reason.CLEAN]
    assert session.places == [1, 1, 2]


def test_a_void_last_repetition_is_repeated(history: History) -> None:
    clock = ManualClock()
    source = Stuttering(Steady(clock, 0.6), clock, nanoseconds(1.5), stall=60 * MILLISECOND)
    session = SetPlayer(source, clock, history)

    records = session.walk(replace(SHORT, repetitions=1), ("reveal", "on"), ("reveal", "on"))

    assert reasons(records) == [Reason.GAP, Reason.CLEAN]


def test_a_set_is_given_up_when_many_repetitions_in_a_row_are_void(history: History) -> None:
    def impatient(now: int) -> float:
        """Throttle, pressed for 0.2 s of every 1.5 s, cue or not."""
        return 0.8 if now % nanoseconds(1.5) < nanoseconds(0.2) else 0.0

    clock = ManualClock()
    session = SetPlayer(Steady(clock, 0.6, impatient), clock, history)

    records = session.walk(BLIP)

    assert reasons(records) == [Reason.ANTICIPATION] * MOST_VOID


def test_a_set_that_is_left_before_anything_was_asked_stores_nothing(history: History) -> None:
    clock = ManualClock()
    session = SetPlayer(Steady(clock, 0.6), clock, history)
    playing = session.set_of(SHORT)
    back(next(playing).screen)

    choose(next(playing).screen, "Leave the set")
    with pytest.raises(StopIteration) as ended:
        next(playing)

    assert ended.value.value.log.records == []
    assert list(all_results(history)) == []


def test_after_leaving_from_a_reveal_the_records_stay(history: History) -> None:
    clock = ManualClock()
    session = SetPlayer(Steady(clock, 0.6), clock, history)

    records = session.walk(SHORT, ("reveal", "menu"), ("menu", "Leave the set"))

    assert reasons(records) == [Reason.CLEAN]


def test_a_set_waits_for_unplugged_pedals_and_continues(history: History) -> None:
    clock = ManualClock()
    source = Unplugged(Steady(clock, 0.6), clock, nanoseconds(1.5), nanoseconds(2.5))
    session = SetPlayer(source, clock, history)

    def plug_in(screen: Attended) -> None:
        clock.advance(nanoseconds(1.5))
        screen.on_devices(cut=False)

    records = session.walk(
        SHORT,
        ("unplugged", plug_in),
        ("reveal", "on"),
        ("reveal", "on"),
        ("reveal", "on"),
    )

    assert reasons(records) == [Reason.UNPLUGGED, Reason.CLEAN, Reason.CLEAN]
    assert session.places == [1, 1, 2]


def test_a_set_begins_once_the_pedals_are_plugged_in_and_stores_nothing_before(
    history: History,
) -> None:
    clock = ManualClock()
    source = Unplugged(Steady(clock, 0.6), clock, 0, nanoseconds(1.0))
    session = SetPlayer(source, clock, history)

    def plug_in(screen: Attended) -> None:
        clock.advance(nanoseconds(1.5))
        screen.on_devices(cut=False)

    records = session.walk(
        replace(SHORT, feedback=Feedback.NONE),
        ("unplugged", plug_in),
    )

    assert reasons(records) == [Reason.CLEAN, Reason.CLEAN]


def test_a_set_without_pedals_can_be_left_before_it_begins(history: History) -> None:
    clock = ManualClock()
    session = SetPlayer(Unplugged(Steady(clock, 0.6), clock, 0), clock, history)

    assert session.walk(SHORT, ("unplugged", "Leave the set")) == []


def test_leaving_while_the_pedals_are_unplugged_ends_the_set(history: History) -> None:
    clock = ManualClock()
    session = SetPlayer(Unplugged(Steady(clock, 0.6), clock, nanoseconds(1.5)), clock, history)

    records = session.walk(SHORT, ("unplugged", "Leave the set"))

    assert reasons(records) == [Reason.UNPLUGGED]


@pytest.mark.parametrize(
    ("feedback", "reveals", "summaries"),
    [
        (Feedback.EVERY, 4, 0),
        (Feedback.SUMMARY, 0, 2),
        (Feedback.OUTSIDE, 0, 0),
        (Feedback.NONE, 0, 0),
    ],
)
def test_the_reveal_is_shown_as_the_level_says(
    history: History, feedback: Feedback, reveals: int, summaries: int
) -> None:
    clock = ManualClock()
    session = SetPlayer(Steady(clock, 0.6), clock, history)
    level = replace(SHORT, repetitions=4, feedback=feedback, summary=2)

    records = session.walk(level)

    assert len(records) == 4
    assert session.seen.count("reveal") == reveals
    assert session.seen.count("summary") == summaries


def test_targets_are_taken_in_turn_and_a_void_one_keeps_its_own(history: History) -> None:
    clock = ManualClock()
    source = Stuttering(Steady(clock, 0.6), clock, nanoseconds(1.5), stall=60 * MILLISECOND)
    session = SetPlayer(source, clock, history)
    turns = replace(SHORT, targets=Targets((60.0, 58.0)), feedback=Feedback.NONE)

    session.walk(turns, ("reveal", "on"))

    assert [task.target for task in session.audience.tasks] == [60.0, 60.0, 58.0]


@pytest.mark.parametrize(
    ("feedback", "sounded"),
    [
        (Feedback.EVERY, ["step 1", "step 2"]),
        (Feedback.OUTSIDE, ["step 1", "step 2"]),
        (Feedback.SUMMARY, []),
        (Feedback.NONE, []),
    ],
)
def test_a_clean_repetition_sounds_its_place_in_the_streak_unless_its_verdict_waits(
    history: History, feedback: Feedback, sounded: list[str]
) -> None:
    clock = ManualClock()
    session = SetPlayer(Steady(clock, 0.6), clock, history)

    session.walk(replace(SHORT, feedback=feedback))

    speaker = session.stage.speaker
    assert [heard for heard in speaker.heard if "step" in heard] == sounded  # type: ignore[attr-defined]


def test_a_record_holds_level_source_rule_calibration_and_sampling(history: History) -> None:
    clock = ManualClock()
    session = SetPlayer(Steady(clock, 0.6), clock, history)

    (record,) = session.walk(replace(SHORT, repetitions=1, feedback=Feedback.NONE))

    assert (record.level, record.kind, record.source) == ("a-hold", "hold", "steady")
    assert (record.target, record.tolerance) == (60.0, 6.0)
    assert (record.rule, record.calibration) == (SHORT.rule, UNIT)
    assert record.dark == nanoseconds(0.6)
    assert record.sampling is not None
    assert record.sampling.rate == pytest.approx(SECOND / READ_EACH)


@pytest.mark.parametrize("label", ["Go on", "Once more"])
def test_after_a_set_the_next_level_or_the_same_can_be_chosen(history: History, label: str) -> None:
    clock = ManualClock()
    session = SetPlayer(Steady(clock, 0.6), clock, history)
    log = session.play(replace(SHORT, feedback=Feedback.NONE)).log
    another = level(id="another", title="Another")

    ending = end_set(SHORT, another, log, session.setting)
    chosen = walk(ending, clock, [("set end", label)])

    assert isinstance(chosen, Level)
    assert chosen.title == {"Go on": "Another", "Once more": "A hold"}[label]


def test_home_is_one_of_the_choices_after_a_set(history: History) -> None:
    clock = ManualClock()
    session = SetPlayer(Steady(clock, 0.6), clock, history)
    log = session.play(replace(SHORT, feedback=Feedback.NONE)).log

    ending = end_set(SHORT, SHORT, log, session.setting)

    assert walk(ending, clock, [("set end", "Home")]) is Then.HOME


def test_the_details_of_each_reveal_show_the_repetitions_before_it(history: History) -> None:
    clock, counts = ManualClock(), []
    session = SetPlayer(Steady(clock, 0.6), clock, history)
    pygame.font.init()

    def read(screen: Attended) -> None:
        canvas = RecordingCanvas((1920, 1080), Fonts())
        assert isinstance(screen, Reveal)
        while screen.looks.now is not Look.FIGURES:
            screen.on_action(Action.NEXT)
        screen.paint(canvas, 0.0)
        counts.append([colour for colour, _ in canvas.curves].count(theme.EARLIER))
        screen.on_action(Action.GO)

    session.walk(replace(SHORT, repetitions=8), *[("reveal", read)] * 8)

    assert counts == [0, 1, 2, 3, 4, 5, 5, 5]
