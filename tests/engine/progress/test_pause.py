"""After a pause nothing is told as that of now: no practice has shown it since."""

from dataclasses import replace
from datetime import timedelta

import pytest

from drills.score import Reason, Verdict
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.progress.kind_words import value_words
from engine.progress.pause import PAUSE, is_paused, when_words
from engine.progress.progress import Progress, progress_of
from engine.progress.steadiness_words import steadiness_words
from engine.store import History
from engine.store.repetitions import add_repetition
from tests.engine.progress.pictures import TODAY, progress
from tests.made import record

LEVELS = load_levels([SHIPPED])
YEAR = progress(LEVELS, 365)
DAY = timedelta(days=1)


def later(pause: timedelta) -> Progress:
    """The same practice, looked at after a pause."""
    return replace(YEAR, today=TODAY + pause)


@pytest.mark.parametrize(("pause", "words"), [(PAUSE - DAY, "now"), (PAUSE, "up to 17 May")])
def test_from_two_weeks_without_practice_on_it_is_said_up_to_when_a_value_is_known(
    pause: timedelta, words: str
) -> None:
    assert when_words(TODAY, TODAY + pause) == words
    assert is_paused(TODAY, TODAY + pause) == (words != "now")


def test_a_kind_of_drill_has_the_words_beside_its_value() -> None:
    kind = replace(YEAR.kinds[2], when="up to 17 May")

    assert value_words(kind) == "Dip 5 points up to 17 May, likely 5 to 6."


def test_a_history_is_told_up_to_the_newest_day_of_each_kind(history: History) -> None:
    measures = {"dip": 9.0, "surge": 1.0, "peak": 60.0, "extra_distance": 0.9}
    blip = record(verdict=Verdict(Reason.CLEAN, 80.0, (), measures), trace=None)
    add_repetition(history, blip)
    played = blip.at.date()

    told = [progress_of(history, LEVELS, load_band(), played + pause) for pause in (DAY, PAUSE)]

    assert [kind.when for one in told for kind in one.kinds] == ["now", "up to 17 May"]


def test_steadiness_after_a_pause_has_its_days_and_no_now() -> None:
    before, after = (steadiness_words(later(pause)).lead for pause in (PAUSE - DAY, PAUSE))

    assert before == "Yes: ±15.5 on 31 May 2023, ±8.3 now."
    assert after == "Yes, by 25 Apr: ±15.5 on 31 May 2023, ±8.3 then."


def test_without_a_step_steadiness_after_a_pause_is_that_of_the_last_day() -> None:
    told = replace(later(PAUSE), steadiness_step=None)

    assert steadiness_words(told).lead == "No clear change: ±8.3 up to 17 May."
