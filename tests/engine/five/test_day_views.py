"""What the end of a day is about after a session was played, with its sound."""

from datetime import UTC, datetime, timedelta

import pytest

from drills.score import Reason, Verdict
from engine.five.day_best import Better
from engine.five.day_views import new_step
from engine.five.saved import begin_session
from engine.ladder.level_files import load_band
from engine.practice.results import Purpose, SessionKind
from engine.stage.earcon import Earcon
from engine.store import History
from engine.store.repetitions import add_repetition
from tests.engine.five.unattended import FIRST, Minutes, passed_on
from tests.loudspeaker import Loudspeaker
from tests.made import record

BAND = load_band()
NOON = datetime(2024, 5, 17, 12, tzinfo=UTC)
A_DAY = 9
WINDOW_DAYS = 4
"""Days of nine blips that steadiness is computed from."""


def day_of_blips(history: History, number: int, dip: float) -> int:
    """Store a session with nine steadiness blips on a day; returns the session's number."""
    at = NOON + timedelta(days=number)
    session = begin_session(history, SessionKind.FIVE, at, 5.0, 1)
    for blip in range(A_DAY):
        measures = {"dip": dip + 0.1 * blip, "surge": 1.0, "peak": 60.0}
        verdict = Verdict(Reason.CLEAN, 80.0, (), measures)
        changes = {"level": BAND.id, "why": Purpose.BAND, "asked": 10.0, "trace": None}
        add_repetition(history, record(verdict=verdict, at=at, session=session, **changes))
    return session


@pytest.mark.parametrize(("then", "told"), [(5.0, 1), (15.0, 0), (30.0, 0)])
def test_a_step_to_a_narrower_steadiness_is_told_on_one_day(
    history: History, then: float, told: int
) -> None:
    """A step is told on the day on which it is found first, and a wider one never."""
    dips = [15.0] * WINDOW_DAYS + [then] * (3 * WINDOW_DAYS)
    steps = []

    for number, dip in enumerate(dips):
        session = day_of_blips(history, number, dip)
        steps.append(new_step(history, BAND, session))

    found = [step for step in steps if step is not None]
    assert len(found) == told
    assert all(step.now.value < step.first.value for step in found)


def test_a_day_without_steadiness_blips_tells_no_step(history: History) -> None:
    for number in range(WINDOW_DAYS):
        day_of_blips(history, number, 15.0)
    last = [day_of_blips(history, WINDOW_DAYS + number, 5.0) for number in range(2 * WINDOW_DAYS)]
    empty = begin_session(history, SessionKind.FIVE, NOON + timedelta(days=99), 5.0, 1)

    assert new_step(history, BAND, last[-1]) is not None
    assert new_step(history, BAND, empty) is None


def test_the_end_of_a_day_is_about_what_was_passed_or_retained_in_it(history: History) -> None:
    passed_on(history, FIRST, 1)
    minutes = Minutes(history)

    minutes.play(minutes=1.0)

    [said] = minutes.details_of("day end")
    assert said["better"] == Better.PASSED.value
    assert str(said["lead"]).startswith("Passed: ")


def test_a_first_day_without_anything_better_ends_with_the_sound_of_its_end(
    history: History,
) -> None:
    minutes = Minutes(history, lambda _: 60.0)

    minutes.play(minutes=0.5)

    [said] = minutes.details_of("day end")
    speaker = minutes.setting.stage.speaker
    assert isinstance(speaker, Loudspeaker)
    assert (said["better"], said["early"]) == (Better.NOTHING.value, False)
    assert said["lead"] == "The first layer of your hill."
    assert speaker.heard[-1] == Earcon.DAY_DONE.value
