"""The fault worked on, as it is found from the history and saved in it."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from drills.fault import Fault
from drills.level import Level
from drills.score import Reason, Verdict
from engine.drill.attempt import Setting
from engine.drill.turn import Pictures
from engine.five.flow import five_minutes
from engine.five.player_history import player_state_of
from engine.five.saved_focus import (
    KEY,
    focus_now,
    newest_step,
    refresh_focus,
    refresh_step,
)
from engine.five.session import SessionLog, SessionRules
from engine.ladder.level_files import load_band
from engine.practice.changes import Changed
from engine.practice.diagnosis import FaultShare
from engine.practice.focus import Focus, FocusChange, Halved
from engine.practice.passes import ALL_PEDALS
from engine.practice.results import Session
from engine.stage.scene import Flow
from engine.store import History
from engine.store.changes import mark_change
from engine.store.repetitions import add_repetition
from engine.store.rigs import USED
from tests.engine.five.learning_foot import Learning
from tests.made import record

AT = datetime(2024, 5, 17, 12, tzinfo=UTC)
DAY, LATER = date(2024, 5, 17), date(2024, 5, 20)
TOLD = Focus(FaultShare(Fault.DIP, 20, 20), FaultShare(Fault.DIP, 20, 20), DAY)


def add(history: History, count: int, dip: float, **changes: Any) -> None:
    """Store so many blips with a dip (points)."""
    for _ in range(count):
        verdict = Verdict(Reason.CLEAN, 60.0, (), {"dip": dip})
        add_repetition(history, record(verdict=verdict, at=AT, trace=None, **changes))


def test_a_fault_is_found_told_and_saved(history: History) -> None:
    add(history, 20, dip=20.0)

    assert focus_now(history) is None
    assert refresh_focus(history, DAY) == TOLD
    assert focus_now(history) == TOLD
    assert newest_step(history).change is FocusChange.TOLD


def test_the_planner_knows_it(history: History) -> None:
    add(history, 20, dip=20.0)
    refresh_focus(history, DAY)

    assert player_state_of(history, [], load_band(), ALL_PEDALS, DAY).focus == TOLD


def test_it_is_followed_until_it_has_halved(history: History) -> None:
    add(history, 20, dip=20.0)
    refresh_focus(history, DAY)
    add(history, 10, dip=3.0)

    followed = refresh_step(history, LATER)

    assert followed.change is FocusChange.NONE
    assert followed.now == Focus(TOLD.was, FaultShare(Fault.DIP, 20, 30), DAY)
    assert newest_step(history).change is FocusChange.TOLD
    assert focus_now(history) == followed.now

    add(history, 20, dip=3.0)

    assert refresh_step(history, LATER).change is FocusChange.HALVED
    assert focus_now(history) is None
    assert newest_step(history).change is FocusChange.HALVED
    assert newest_step(history).over == Focus(TOLD.was, FaultShare(Fault.DIP, 10, 40), DAY)
    assert refresh_step(history, LATER).change is FocusChange.NONE
    assert newest_step(history).change is FocusChange.HALVED


def test_nothing_is_told_while_the_history_is_remeasured(history: History) -> None:
    add(history, 20, dip=20.0)
    refresh_focus(history, DAY)
    history.write(lambda db: db.execute("UPDATE repetition SET definition = 1 WHERE id = 1"))

    assert focus_now(history) is None
    assert refresh_focus(history, DAY) is None
    history.write(lambda db: db.execute("UPDATE repetition SET fixed = 1 WHERE id = 1"))
    assert focus_now(history) == TOLD


@pytest.mark.parametrize("more", [0, 1])
def test_another_scale_of_the_brake_ends_it(history: History, more: int) -> None:
    add(history, 20, dip=20.0)
    refresh_focus(history, DAY)
    add(history, more, dip=20.0)
    mark_change(history, AT, Changed.SCALE)

    assert focus_now(history) is None
    assert refresh_focus(history, DAY) is None


def test_each_rig_has_its_own(history: History) -> None:
    history.write(
        lambda db: db.executemany(
            "INSERT INTO rig VALUES (?, ?, '', '{}', 0)", [(1, "one"), (2, "two")]
        )
    )
    history.keep_setting(USED, 1)
    add(history, 20, dip=20.0, rig=1)
    refresh_focus(history, DAY)

    history.keep_setting(USED, 2)
    assert (focus_now(history), refresh_focus(history, DAY)) == (None, None)
    history.keep_setting(USED, 1)
    assert focus_now(history) == TOLD


DAY_1 = DAY.isoformat()
FOCUS = {"fault": "dip", "was": [20, 20], "now": [20, 20], "since": DAY_1}
WRITTEN = {"turn": "told", "now": FOCUS, "over": None, "after": 20, "halved": None}


def test_a_setting_is_written_as_it_is_read(history: History) -> None:
    add(history, 20, dip=20.0)
    refresh_focus(history, DAY)

    assert history.setting(KEY) == WRITTEN


def test_a_fault_that_halved_is_told_again_after_two_weeks_at_the_soonest(history: History) -> None:
    add(history, 20, dip=20.0)
    refresh_focus(history, DAY)
    add(history, 40, dip=3.0)
    refresh_focus(history, LATER)
    add(history, 40, dip=20.0)

    assert refresh_focus(history, LATER + timedelta(days=13)) is None
    again = refresh_focus(history, LATER + timedelta(days=14))
    assert again is not None
    assert again.fault is Fault.DIP
    assert newest_step(history).halved == Halved(Fault.DIP, LATER)


@pytest.mark.parametrize(
    "broken",
    [
        *(None, 3, "dip", [], {}),
        {key: value for key, value in WRITTEN.items() if key != "after"},
        {key: value for key, value in WRITTEN.items() if key != "halved"},
        {**WRITTEN, "turn": "fell"},
        {**WRITTEN, "after": "20"},
        {**WRITTEN, "after": True},
        *(
            {**WRITTEN, "halved": halved}
            for halved in ("dip", ["dip"], ["dip", 7], ["ankle", DAY_1])
        ),
        *(
            {**WRITTEN, "now": {**FOCUS, **change}}
            for change in (
                *({"fault": "ankle"}, {"fault": None}, {"since": "2024-05-32"}, {"since": 7}),
                *({"was": [20]}, {"was": [21, 20]}, {"was": ["2", 20]}, {"now": [0, 0]}),
                {"was": [14, 40.0]},
                *({"now": [1, 41]}, {"now": [-1, 20]}, {"was": 20}, {"now": [True, 20]}),
            )
        ),
    ],
    ids=str,
)
def test_a_setting_that_is_old_or_broken_is_none(history: History, broken: Any) -> None:
    add(history, 20, dip=20.0)
    history.keep_setting(KEY, broken)

    assert focus_now(history) is None
    assert refresh_focus(history, DAY) == TOLD


def test_five_minutes_look_at_the_blips_as_they_begin_and_as_they_end(
    history: History, monkeypatch: pytest.MonkeyPatch
) -> None:
    setting = Learning(history, 0.5, seed=4).setting
    seen: list[Focus | None] = []
    add(history, 20, dip=20.0)

    def played(
        rules: SessionRules, setting: Setting, history: History, band: Level
    ) -> Flow[SessionLog]:
        seen.append(focus_now(history))
        add(history, 20, dip=3.0)
        yield from ()
        now = player_state_of(history, [], band, ALL_PEDALS, DAY)
        session = Session(1, rules.what, setting.now(), rules.minutes, 1)
        return SessionLog(session, now, Pictures(), True, {})

    monkeypatch.setattr("engine.five.flow.run_session", played)
    assert list(five_minutes(setting, history, load_band())) == []

    assert [focus and focus.was for focus in seen] == [TOLD.was]
    assert newest_step(history).change is FocusChange.HALVED
