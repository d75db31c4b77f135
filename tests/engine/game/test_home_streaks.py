"""Lines of home about days and clean repetitions in a row, and streaks that ended."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from drills.fault import Fault
from engine.five.streak_words import PASSED_STAYS, lost_words, rest_words
from engine.game.home import Home
from engine.game.home_words import PLACING_OFFER
from engine.practice.diagnosis import FaultShare
from engine.practice.focus import Focus
from engine.practice.results import LostStreak, Streaks
from engine.practice.streaks import DayStreak
from tests.engine.five.pictures import (
    ANEW,
    EARLY,
    FIRST_DAY,
    LATER,
    LONG_LOST,
    TODAY,
    home,
)
from tests.engine.kit.recording_canvas import said
from tests.engine.ladder.stages import made_levels

LEVELS = made_levels()


def home_with(streaks: Streaks) -> Home:
    """Home after three levels and twenty days."""
    return home(LEVELS, 3, streaks, 20)


def test_a_first_start_shows_no_streaks() -> None:
    texts = said(home(LEVELS, 0, FIRST_DAY, 0))

    assert not [text for text in texts if "in a row" in text or "clean" in text]


def test_streaks_are_shown_with_their_bests() -> None:
    assert {
        "5 days in a row",
        "Best 12 days in a row, 1 rest day left",
        "3 clean in a row, best 9. 7 of 12 clean today",
    } <= set(said(home_with(LATER)))


def test_a_streak_that_is_the_longest_says_so_in_place_of_its_best() -> None:
    texts = said(home_with(replace(LATER, best_days_streak=5, best_clean_streak=3)))

    assert "Your most days in a row, 1 rest day left" in texts
    assert "3 clean in a row, your best. 7 of 12 clean today" in texts


@pytest.mark.parametrize(
    ("row", "best", "words"),
    [
        (0, 0, "7 of 12 clean today"),
        (0, 1, "7 of 12 clean today"),
        (1, 1, "7 of 12 clean today"),
        (0, 9, "Best 9 clean in a row. 7 of 12 clean today"),
        (1, 9, "Best 9 clean in a row. 7 of 12 clean today"),
        (2, 9, "2 clean in a row, best 9. 7 of 12 clean today"),
    ],
)
def test_none_or_one_is_no_row(row: int, best: int, words: str) -> None:
    streaks = replace(LATER, clean_streak=row, best_clean_streak=best)

    assert words in said(home_with(streaks))


@pytest.mark.parametrize(
    ("today", "rest_left", "words"),
    [
        (12, True, "1 rest day left"),
        (0, True, "1 rest day left"),
        (0, False, "no rest day left: practise today"),
        (12, False, ""),
    ],
)
def test_the_rest_day_is_shown_before_it_is_spent(today: int, rest_left: bool, words: str) -> None:
    streaks = replace(LATER, today=today, clean_today=0, rest_left=rest_left)

    assert rest_words(streaks) == words
    assert not words or any(line.endswith(words) for line in said(home_with(streaks)))


def test_a_day_with_only_a_trial_needs_no_rest_day() -> None:
    streaks = replace(LATER, today=0, clean_today=0, rest_left=False, practised=True)

    assert rest_words(streaks) == ""


def test_without_a_streak_no_rest_day_is_mentioned() -> None:
    assert rest_words(replace(LATER, days_streak=0, today=0, rest_left=False)) == ""


@pytest.mark.parametrize(
    ("began", "ended", "words"),
    [
        (date(2024, 5, 3), date(2024, 5, 14), "12 days in a row, 3 to 14 May."),
        (date(2024, 2, 26), date(2024, 3, 8), "12 days in a row, 26 Feb to 8 Mar."),
        (date(2023, 12, 27), date(2024, 1, 7), "12 days in a row, 27 Dec 2023 to 7 Jan."),
        (date(2023, 5, 3), date(2024, 5, 14), "12 days in a row, 3 May 2023 to 14 May."),
    ],
)
def test_a_lost_streak_says_when_it_was(began: date, ended: date, words: str) -> None:
    assert lost_words(LostStreak(12, began, ended)) == words


@pytest.mark.parametrize("streaks", [ANEW, LONG_LOST])
def test_a_lost_streak_says_that_the_skill_is_still_there_and_blames_no_one(
    streaks: Streaks,
) -> None:
    texts = said(home_with(streaks))

    assert streaks.lost is not None
    line = f"{lost_words(streaks.lost)} {PASSED_STAYS}"
    is_best = streaks.best_days_streak == streaks.lost.days
    assert (line if is_best else f"{line} Best {streaks.best_days_streak}.") in texts
    assert not [text for text in texts if "lost" in text or "broke" in text]


def fault_line(streaks: Streaks, focus: Focus = EARLY) -> list[str]:
    """Lines of home about days in a row or the fault worked on."""
    texts = said(home(LEVELS, 3, streaks, 20, focus=focus))
    return [text for text in texts if text.startswith(("Working on", "128"))]


@pytest.mark.parametrize(
    ("was", "now", "words"),
    [
        ((22, 40), (14, 40), "Working on: early roll, 14 of 40, was 22"),
        ((22, 40), (22, 40), "Working on: early roll, 22 of 40"),
        ((12, 20), (14, 40), "Working on: early roll, 14 of 40, was 12 of 20"),
    ],
)
def test_the_fault_worked_on_is_told_with_its_share_as_it_was_and_is(
    was: tuple[int, int], now: tuple[int, int], words: str
) -> None:
    before, after = (FaultShare(Fault.EARLY_ROLL, *share) for share in (was, now))

    assert fault_line(LATER, Focus(before, after, TODAY)) == [words]


def test_a_streak_just_lost_comes_before_the_fault_worked_on() -> None:
    assert fault_line(LONG_LOST)[0].startswith("128 days in a row")
    assert fault_line(ANEW) == ["Working on: early roll, 14 of 40, was 22"]


def test_a_streak_that_ends_today_is_told_beside_the_fault_worked_on() -> None:
    ends = replace(LATER, days_streak=12, today=0, rest_left=False, practised=False)

    [line] = fault_line(ends)

    assert line.startswith("Working on: early roll, 14 of 40")
    assert line.endswith("No rest day left")


def test_one_who_rests_every_sunday_is_told_the_fault_on_every_other_morning() -> None:
    days = [day for day in range(28) if day % 7 != 6]
    told: list[str] = []
    before = DayStreak(TODAY)
    for day in days[1:]:
        today = TODAY + timedelta(days=day)
        morning = replace(
            LATER,
            today=0,
            days_streak=before.streak_on(today),
            rest_left=before.has_rest_left(today),
            practised=False,
        )
        told += fault_line(morning)
        before = DayStreak(today).following(before)

    assert len(told) == len(days) - 1
    assert any(line.endswith("No rest day left") for line in told)


def test_on_a_first_day_the_offer_to_find_a_place_comes_first() -> None:
    texts = said(home(LEVELS, 0, FIRST_DAY, 0, placing=True, focus=EARLY))

    assert PLACING_OFFER in texts
    assert not [text for text in texts if text.startswith("Working on")]
