"""The game end to end in a real window, with virtual pedals plugged into SDL itself."""

import json
from itertools import groupby

import pytest

from drills.measures.base import base_at_cue
from drills.measures.blip import find_blips
from drills.measures.disturbance import Run, measure_run
from drills.trace import Grid
from engine.setup.saved_rigs import saved_binding
from engine.store import open_history
from engine.store.repetitions import measures_of
from engine.store.traces import trace_of
from tests.game.days import ENDS, ScriptedDays
from tests.game.first_day import check_first_day, counted, events, rows
from tests.game.kinds import PEAK
from tests.needs import signals
from tests.waiting import EventTail


def when(event: dict[str, object]) -> float:
    """Seconds on the clock of the game at which an event was logged."""
    return float(str(event["t"]))


def test_three_blips_by_feet_alone_are_stored_with_the_scripted_dips(days: ScriptedDays) -> None:
    check_first_day(days.day("first_day"))


def test_the_stored_raw_trace_measures_to_the_stored_dip(days: ScriptedDays) -> None:
    day = days.day("first_day")
    ((last, cues),) = rows(day.data, "SELECT max(id), cues_ns FROM repetition WHERE void = 0")
    assert isinstance(last, int)
    [cue] = json.loads(str(cues))

    with open_history(day.data, []) as history:
        trace, stored = trace_of(history, last), measures_of(history, last)

    assert trace is not None
    grid = Grid.of(trace)
    measured = measure_run(grid, find_blips(grid), base=base_at_cue(grid, cue))
    assert isinstance(measured, Run)
    assert measured.dip == stored["dip"]


def test_the_next_start_recognises_the_pedals_and_asks_nothing(days: ScriptedDays) -> None:
    day = days.day("next_day")

    assert [event["name"] for event in events(day.events, "screen")] == ["no pedals", "home"]


def test_a_rest_that_crept_away_is_set_anew_between_repetitions(days: ScriptedDays) -> None:
    day = days.day("rest_moved")
    screens = [event["name"] for event in events(day.events, "screen")]
    with open_history(day.data, []) as history:
        pedals = saved_binding(history)

    assert pedals is not None
    place = screens.index("end moved")
    assert (screens[place - 1], screens[place + 1]) == ("reveal", "set rest")
    assert screens.count("end moved") == 1
    rest, full = pedals.throttle.range.rest, pedals.throttle.range.full
    assert rest == pytest.approx(1 - 2 * 0.042, abs=0.002)
    assert full == pytest.approx(-1.0, abs=0.002)
    assert rows(day.data, "SELECT count(*) FROM change") == [(0,)]


def test_unplugging_voids_one_repetition_and_replugging_continues_the_set(
    days: ScriptedDays,
) -> None:
    day = days.day("unplugged")

    before = len(counted(days.day("first_day").data))
    assert counted(day.data)[before:] == [("pedals", "clean")]
    unplugged = rows(day.data, "SELECT void, score FROM repetition WHERE reason = 'unplugged'")
    assert unplugged == [(1, None)]
    screens = events(day.events, "screen")
    places = [event["rep"] for event in screens if event["name"] == "repetition"]
    assert (places[:2], places[-1]) == ([1, 1], 2)


@pytest.mark.parametrize(
    "how", ["closed", *(pytest.param(how, marks=signals) for how in ENDS if how != "closed")]
)
def test_a_repetition_is_stored_as_not_clean_however_the_game_is_ended_after_its_cue(
    days: ScriptedDays, how: str
) -> None:
    day = days.day(f"ended {how}")

    newest = "SELECT reason, void, score, trace.repetition = repetition.id FROM repetition"
    joined = "LEFT JOIN trace ON trace.repetition = repetition.id ORDER BY id DESC LIMIT 1"
    assert rows(day.data, f"{newest} {joined}") == [("left after the cue", 0, 0.0, 1)]
    assert EventTail(day.events).seen[-1]["event"] == "closed"


def test_feet_do_nothing_while_another_window_has_the_focus(days: ScriptedDays) -> None:
    day = days.day("another_window")

    steps = [*events(day.events, "screen"), *events(day.events, "phase")]
    logged = (event.get("name", event.get("phase")) for event in sorted(steps, key=when))
    # A screen is logged once more when its selection has moved.
    names = [name for name, _ in groupby(logged)]
    assert names[:9] == [
        *("no pedals", "home", "ladder", "levels"),
        *("repetition", "release", "approach", "held", "wait"),
    ]
    lost = rows(day.data, "SELECT void, score FROM repetition WHERE reason = 'focus lost'")
    assert lost == [(1, None)]


def test_a_history_locked_after_the_cue_is_asked_about_and_the_repetition_kept(
    days: ScriptedDays,
) -> None:
    day = days.day("locked")

    asked = events(day.events, "screen")
    causes = [event["cause"] for event in asked if event["name"] == "trouble"]
    assert set(causes) == {"in use"}
    verdicts = events(day.events, "verdict")
    [before] = rows(days.day("first_day").data, "SELECT max(id) FROM repetition")
    assert rows(day.data, f"SELECT id FROM repetition WHERE id > {before[0]}") == [
        (verdict["id"],) for verdict in verdicts
    ]
    assert verdicts[-1]["reason"] in ("clean", "over limit")


def test_mouse_and_keys_play_a_repetition_without_pedals(days: ScriptedDays) -> None:
    day = days.day("mouse_and_keys")
    if day.driver == "dummy":
        pytest.skip("the mouse button is real input only on a real display")

    # The verdict depends on how busy the machine is: the button may be held for too long.
    assert events(day.events, "verdict")
    assert rows(day.data, "SELECT count(*) FROM repetition") == [(0,)]


def test_pedals_on_two_devices_of_one_model_are_distinguished(days: ScriptedDays) -> None:
    day = days.day("two_twins")
    days.day("one_twin_missing")

    assert [source for source, _ in counted(day.data)] == ["pedals"]
    ((last,),) = rows(day.data, "SELECT max(id) FROM repetition")
    assert isinstance(last, int)
    with open_history(day.data, []) as history:
        trace, binding = trace_of(history, last), saved_binding(history)
    assert trace is not None
    assert binding is not None
    assert trace.clutch is not None
    assert (trace.brake.mean(), trace.throttle.max()) == (
        pytest.approx(60, abs=1),
        pytest.approx(PEAK, abs=1),
    )
    places = [(bound.device.ordinal, bound.device.twins, bound.axis) for bound in binding.pedals]
    assert places == [(0, 2, 0), (1, 2, 0), (1, 2, 1)]


def test_the_demo_plays_in_the_window_and_leaves_no_history_behind(days: ScriptedDays) -> None:
    day = days.day("demo")

    assert len([event for event in events(day.events, "verdict") if event["score"]]) == 1
    assert not day.data.exists()


def test_a_demo_of_unplugged_pedals_shows_it_in_the_window_and_goes_on(days: ScriptedDays) -> None:
    day = days.day("faulty demo")

    reasons = [event["reason"] for event in events(day.events, "verdict")]
    screens = [event["name"] for event in events(day.events, "screen")]
    assert "unplugged" in reasons
    assert "repetition" in screens[screens.index("unplugged") :]
    assert not day.data.exists()
