"""What five minutes do that tire the foot, have lost a level, or meet a clock set back."""

from dataclasses import replace
from datetime import timedelta
from itertools import pairwise

import pytest

from drills.level import Feedback
from drills.targets import Targets
from engine.five.retention_screen import RetentionScreen
from engine.five.saved import begin_session
from engine.kit import theme
from engine.practice.results import Purpose, SessionKind
from engine.stage.actions import Action
from engine.stage.scene import Attended
from engine.store import History
from engine.store.repetitions import add_repetition
from tests.engine.five.unattended import DATE, FIRST, HOLDS, Minutes, passed_on, whys
from tests.engine.kit.recording_canvas import RecordingCanvas, recorded
from tests.made import record

REVEALED = [replace(level, feedback=Feedback.EVERY) for level in HOLDS]


def tires(number: int) -> float:
    """points: ever further off."""
    return min(number, 30) / 4


def test_a_foot_that_tires_is_asked_to_stop_and_stopping_ends_it(history: History) -> None:
    minutes = Minutes(history, tires, levels=HOLDS[:1])

    minutes.play(("tires", "Stop for today"), minutes=5.0)

    [said] = minutes.details_of("tires")
    assert said["kind"] == FIRST.kind.title
    assert len(minutes.session.results) >= 20
    assert minutes.session.left > 60
    assert minutes.session.over
    assert minutes.details_of("day end")[0]["early"] is False


def test_repetitions_with_nothing_shown_do_not_count_as_fatigue(history: History) -> None:
    passed_on(history, FIRST, 0, took=3.0)
    minutes = Minutes(history, tires, levels=HOLDS[:1])

    minutes.play(minutes=0.7)

    assert whys(minutes.session)[:11] == [Purpose.MIX] * 11
    assert whys(minutes.session)[11:] == [Purpose.DARK] * (len(minutes.session.results) - 11)
    assert len(minutes.session.results) >= 12
    assert "tires" not in minutes.names
    assert minutes.session.over


def test_a_player_who_goes_on_is_asked_again_after_twenty_repetitions_at_the_earliest(
    history: History,
) -> None:
    minutes = Minutes(history, tires, levels=HOLDS[:1])

    minutes.play(("tires", "Go on"), minutes=2.0)

    places = [number for number, name in enumerate(minutes.names) if name == "tires"]
    counted = [minutes.names[:place].count("repetition") for place in places]
    assert len(counted) in (1, 2)
    assert all(later - one >= 20 for one, later in pairwise(counted))
    assert minutes.session.over


def test_a_foot_that_does_not_tire_is_never_asked_to_stop(history: History) -> None:
    minutes = Minutes(history, lambda number: (1.0, 2.5, 0.5)[number % 3], levels=HOLDS[:1])

    minutes.play()

    assert len(minutes.session.results) >= 12
    assert "tires" not in minutes.names


def test_every_target_of_a_level_comes_in_turn_whatever_comes_between(history: History) -> None:
    three_of_them = replace(HOLDS[1], targets=Targets((60.0, 40.0, 50.0)))
    passed_on(history, FIRST, 0)
    minutes = Minutes(history, levels=[FIRST, three_of_them])

    minutes.play()

    asked = [d["target"] for d in minutes.details_of("repetition") if d["level"] == "second"]
    assert Purpose.MIX in whys(minutes.session)
    assert len(asked) >= 6
    assert {frozenset(asked[at : at + 3]) for at in range(len(asked) - 2)} == {
        frozenset({60.0, 40.0, 50.0})
    }


def test_repetitions_of_deleted_levels_do_no_harm(history: History) -> None:
    for days in (1, 2, 3):
        add_repetition(
            history,
            record(level="gone", kind="juggling", at=DATE - timedelta(days=days), trace=None),
        )
    passed_on(history, replace(FIRST, id="gone-too"), 4)
    number = begin_session(history, SessionKind.FIVE, DATE, 1.0, 5)
    add_repetition(
        history,
        record(level="gone", kind="juggling", at=DATE, session=number, took=9.0, why=Purpose.DUE),
    )
    minutes = Minutes(history)

    minutes.play()

    assert minutes.session.over
    assert {one.level for one in minutes.session.results} <= {"gone", "first", "second", "third"}
    assert minutes.details_of("day end")[0]["due_tomorrow"] <= 1  # type: ignore[operator]


def test_a_clock_set_back_a_month_stops_nothing(history: History) -> None:
    passed_on(history, FIRST, -31)
    minutes = Minutes(history)

    minutes.play()

    assert minutes.session.over
    assert whys(minutes.session)[0] is Purpose.DUE
    assert minutes.details_of("shown")[0]["due_days"] == 3


@pytest.mark.parametrize(("before", "curves"), [(0, 4), (2, 0)])
def test_a_check_shows_the_curves_of_all_its_repetitions_or_of_none(
    history: History, before: int, curves: int
) -> None:
    passed_on(history, FIRST, 1)
    for _ in range(before):
        passed_on(history, FIRST, 0)
    minutes, drawn = Minutes(history), list[RecordingCanvas]()

    def look(screen: Attended) -> None:
        assert isinstance(screen, RetentionScreen)
        drawn.append(recorded(screen))
        screen.on_action(Action.GO)

    minutes.play(("shown", look))

    [canvas] = drawn
    [shown] = minutes.details_of("shown")
    assert shown["clean"] == 4
    brakes = [curve for curve in canvas.curves if curve[0] in (theme.BRAKE, theme.EARLIER)]
    assert bool(brakes) == bool(curves)
    assert len(brakes) >= curves
