"""The coach at the end of five minutes: tells a fault once, and that it has halved; never nags."""

from dataclasses import replace
from datetime import timedelta

import pytest

from drills.fault import Fault
from drills.score import Reason, Verdict
from engine.five.coach_view import coach_now
from engine.five.flow import five_minutes
from engine.five.saved_focus import refresh_focus
from engine.practice.results import TrialDay
from engine.setup.saved_rigs import add_rig, use_rig
from engine.store import History
from engine.store.repetitions import add_repetition
from tests.engine.five.unattended import BAND, DATE, HOLDS, Minutes
from tests.engine.progress.test_rigs import HOME, TRAVEL, binding
from tests.made import record

EARLY = Verdict(
    Reason.OVER_LIMIT,
    40.0,
    ("dip",),
    dict.fromkeys(("base_error", "surge", "rebound", "offset"), 0.0)
    | {"dip": 19.0, "dip_at": 0.1, "lead": 0.2, "onset": 2.0, "end": 2.3, "peak": 60.0}
    | {"base": 60.0, "settle": 0.3, "width": 0.3, "reaction": 0.3},
)
"""A blip whose brake left 0.2 s before the throttle."""
FINE = replace(
    EARLY,
    reason=Reason.CLEAN,
    score=90.0,
    over=(),
    measures={**EARLY.measures, "dip": 2.0, "lead": 0.0},
)
"""A blip without a fault."""
SAID = "22 of your last 40: the brake leaves before the throttle."


def played(history: History, *verdicts: Verdict) -> None:
    """Put blips by feet into a history, as sets did in which no session took part."""
    for number, verdict in enumerate(verdicts):
        at = DATE - timedelta(days=1) + timedelta(seconds=8 * number)
        add_repetition(history, record(verdict=verdict, trace=None, at=at))
    refresh_focus(history, DATE.date())


def mixed(early: int, of: int = 40) -> list[Verdict]:
    """So many blips, of which so many left the brake early."""
    return [EARLY] * early + [FINE] * (of - early)


def ends(minutes: Minutes, days: int = 1) -> list[list[str]]:
    """The screens after the last repetition of five minutes on each of so many days."""
    found = []
    for day in range(days):
        minutes.began = DATE + timedelta(days=day)
        minutes.seen.clear()
        minutes.play()
        last = max(n for n, name in enumerate(minutes.names) if name == "repetition")
        found.append(minutes.names[last + 1 :])
    return found


def test_a_fault_is_told_once_at_the_end_of_five_minutes(history: History) -> None:
    played(history, *mixed(22))
    minutes = Minutes(history, levels=HOLDS)

    first, second = ends(minutes, days=2)

    assert first[-2:] == ["coach", "day end"]
    assert "coach" not in second


def test_what_is_told_is_the_fault_with_its_number(history: History) -> None:
    played(history, *mixed(22))
    minutes = Minutes(history, levels=HOLDS)

    minutes.play()

    [told] = minutes.details_of("coach")
    assert told["fault"] == "early"
    assert isinstance(told["says"], list)
    assert told["says"][0] == SAID


def test_nothing_is_told_where_nothing_stands_out(history: History) -> None:
    played(history, *mixed(4))
    minutes = Minutes(history, levels=HOLDS)

    minutes.play()

    assert "coach" not in minutes.names


def test_that_a_fault_has_halved_is_a_moment_once(history: History) -> None:
    played(history, *mixed(22))
    minutes = Minutes(history, levels=HOLDS)
    ends(minutes)
    played(history, *[FINE] * 11)
    words = "Early roll: 11 of 40, was 22. Halved."

    said = []
    for day in (1, 2):
        minutes.began = DATE + timedelta(days=day)
        minutes.seen.clear()
        minutes.play()
        said += [
            one
            for details in minutes.details_of("moment")
            for one in (details["words"], details["line"])
            if words in str(one)
        ]
        assert "coach" not in minutes.names

    assert len(said) == 1


def test_a_session_that_was_left_tells_nothing_and_the_next_one_does(history: History) -> None:
    played(history, *mixed(22))
    minutes = Minutes(history, levels=HOLDS)

    minutes.play(("repetition", "menu"), ("menu", "Leave for now"))
    left = "coach" in minutes.names
    minutes.play()

    assert not left
    assert minutes.names[-2:] == ["coach", "day end"]


def test_in_a_trial_by_days_nothing_is_told(history: History) -> None:
    played(history, *mixed(22))
    minutes = Minutes(history, levels=HOLDS)

    minutes.walk(five_minutes(minutes.setting, history, BAND, 1.0, TrialDay(1, 0)))

    assert minutes.names[-1] == "day end"
    assert "coach" not in minutes.names


def test_while_the_history_is_remeasured_nothing_is_told(history: History) -> None:
    played(history, *mixed(22))
    history.write(lambda db: db.execute("UPDATE repetition SET definition = 1"))
    minutes = Minutes(history, levels=HOLDS)

    minutes.play()

    assert "coach" not in minutes.names


def test_another_rig_has_no_fault_yet(history: History) -> None:
    for full, name in ((1.0, "home"), (0.0, "travel")):
        add_rig(history, binding(full), name)
    use_rig(history, HOME)
    for verdict in mixed(22):
        add_repetition(history, record(verdict=verdict, trace=None, at=DATE, rig=HOME))
    refresh_focus(history, DATE.date())
    at_home = coach_now(history, HOLDS)

    use_rig(history, TRAVEL)

    away = coach_now(history, HOLDS)
    assert (at_home.fault, at_home.blips) == (Fault.EARLY_ROLL, 40)
    assert (away.fault, away.blips) == (None, 0)


@pytest.mark.parametrize("early", [22, 30])
def test_the_page_of_the_history_says_the_same_as_the_screen(history: History, early: int) -> None:
    played(history, *mixed(early))
    minutes = Minutes(history, levels=HOLDS)

    minutes.play()

    [told] = minutes.details_of("coach")
    view = coach_now(history, HOLDS)
    assert told["says"] == [view.lead, view.line, *view.more]
