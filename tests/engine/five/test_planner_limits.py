"""Each limit of the planner's rule: what comes next at the limit, and just past it."""

from dataclasses import replace

import pytest

from drills.level import PassRule
from engine.five.pace import PlayerPace
from engine.five.planner import MIXED_EVERY, MIXED_FROM, Planned, following
from engine.five.player_state import PlayerState
from engine.practice.results import Purpose, Result
from tests.engine.five.planning import (
    BAND,
    BY_ID,
    LEVELS,
    MIDWAY,
    a_player,
    played,
    session,
)

DUE = "still-1-light"
DONE_LEVEL, WORKED = BY_ID["blip-1-first"], BY_ID["quiet-guess"]
ONLY = [level for level in LEVELS if level.id in MIDWAY] + [
    replace(WORKED, needs=(), rule=PassRule(100, 100))
]
"""Levels of which the last is the only one to learn."""


def evenly(seconds: float, **others: float) -> PlayerPace:
    """A pace of so many seconds for every level but those named, with - written as _."""
    named = {name.replace("_", "-"): time for name, time in others.items()}
    return PlayerPace({level.id: seconds for level in [*LEVELS, BAND]} | named)


def learner(pace: PlayerPace, due: tuple[str, ...] = ()) -> PlayerState:
    """A player with one level to learn."""
    return replace(a_player(MIDWAY - {WORKED.id}, due, pace=pace), levels=ONLY)


def spent(why: Purpose, *seconds: float, level: str = DONE_LEVEL.id) -> tuple[Result, ...]:
    """Repetitions that took so many seconds each."""
    return tuple(played(Planned(BY_ID.get(level, BAND), why), time) for time in seconds)


def next_purpose(player: PlayerState, *results: Result) -> Purpose | None:
    """Why the next repetition of five minutes comes."""
    planned = following(player, session(results=results))
    return None if planned is None else planned.why


@pytest.mark.parametrize(("seconds", "checks"), [(59.0, True), (59.1, False)])
def test_another_check_begins_where_half_of_it_ends_in_a_quarter_of_the_time(
    seconds: float, checks: bool
) -> None:
    # Half of a check is 2 repetitions of 8 s, and a quarter of the time is 75 s.
    player = learner(evenly(8.0), due=(DUE,))

    why = next_purpose(player, *spent(Purpose.DUE, seconds))

    assert (why is Purpose.DUE) == checks


@pytest.mark.parametrize(
    ("count", "seconds", "checks"), [(5, 52.0, False), (6, 52.0, True), (6, 52.1, False)]
)
def test_with_more_than_five_levels_due_checks_may_take_two_fifths_of_the_time(
    count: int, seconds: float, checks: bool
) -> None:
    names = tuple(level.id for level in ONLY if level is not ONLY[-1])[:count]
    player = learner(evenly(8.0), due=names)

    why = next_purpose(player, *spent(Purpose.DUE, seconds, 52.0))

    assert (why is Purpose.DUE) == checks


@pytest.mark.parametrize(("seconds", "checks"), [(74.9, True), (75.0, False)])
def test_an_undecided_check_goes_on_until_half_of_the_time_is_spent(
    seconds: float, checks: bool
) -> None:
    results = spent(Purpose.DUE, 75.0, seconds, level=DUE)
    player = learner(evenly(8.0), due=(DUE,))
    for result in results:
        player = player.after(result)

    why = next_purpose(player, *results)

    assert (why is Purpose.DUE) == checks


@pytest.mark.parametrize(("seconds", "asks"), [(29.9, True), (30.0, False)])
def test_the_steadiness_staircase_takes_a_fifth_of_the_time(seconds: float, asks: bool) -> None:
    why = next_purpose(learner(evenly(8.0)), *spent(Purpose.BAND, 30.0, seconds))

    assert (why is Purpose.BAND) == asks


@pytest.mark.parametrize(("count", "asks"), [(5, True), (6, False)])
def test_the_steadiness_staircase_has_six_blips(count: int, asks: bool) -> None:
    why = next_purpose(learner(evenly(8.0)), *spent(Purpose.BAND, *[1.0] * count))

    assert (why is Purpose.BAND) == asks


BLIPS = spent(Purpose.BAND, *[5.0] * 6)  # 30 s: nothing more of the staircase follows
EIGHTIES = spent(Purpose.LEARN, 80.0, 80.0, 80.0)


@pytest.mark.parametrize(("left", "why"), [(30.0, Purpose.LEARN), (29.9, Purpose.DARK)])
def test_learning_goes_on_up_to_two_seconds_into_the_time_of_the_last_three(
    left: float, why: Purpose
) -> None:
    rest = spent(Purpose.LEARN, 80.0, 80.0, 80.0, 30.0 - left)

    assert next_purpose(learner(evenly(8.0)), *BLIPS, *rest) is why


@pytest.mark.parametrize(("left", "why"), [(30.0, Purpose.MIX), (29.9, Purpose.DARK)])
def test_a_short_passed_level_fills_the_time_that_is_too_short_for_the_learned_one(
    left: float, why: Purpose
) -> None:
    rest = spent(Purpose.LEARN, 80.0, 80.0, 80.0, 30.0 - left)

    assert next_purpose(learner(evenly(8.0, quiet_guess=20.0)), *BLIPS, *rest) is why


@pytest.mark.parametrize(("seconds", "level"), [(15.0, WORKED.id), (15.1, None)])
def test_a_level_of_more_than_fifteen_seconds_is_not_played_with_nothing_shown(
    seconds: float, level: str | None
) -> None:
    player = learner(evenly(8.0, quiet_guess=seconds))

    planned = following(player, session(results=spent(Purpose.DARK, 8.0)))

    assert planned is not None
    assert (planned.level.id == WORKED.id) == (level is not None)


@pytest.mark.parametrize(
    ("dark", "last", "why"),
    [
        ((10.0, 10.0, 30.0), 0.0, None),
        ((10.0, 10.0, 29.9), 0.0, Purpose.DARK),
        ((10.0, 30.0), 10.0, Purpose.DARK),
        ((10.0, 49.9), 0.0, Purpose.DARK),
        ((10.0, 50.0), 0.0, None),
    ],
)
def test_a_fourth_with_nothing_shown_takes_more_than_ten_seconds_left_a_third_any(
    dark: tuple[float, ...], last: float, why: Purpose | None
) -> None:
    results = (*EIGHTIES, *spent(Purpose.LEARN, last), *spent(Purpose.DARK, *dark))

    assert next_purpose(learner(evenly(8.0)), *results) is why


@pytest.mark.parametrize(("seconds", "comes"), [(13.0, True), (13.1, False)])
def test_the_last_may_run_over_the_end_by_twelve_seconds(seconds: float, comes: bool) -> None:
    results = (*EIGHTIES, *spent(Purpose.DARK, 9.0, 50.0))

    why = next_purpose(learner(evenly(seconds)), *results)

    assert (why is Purpose.DARK) == comes


@pytest.mark.parametrize(("count", "why"), [(14, Purpose.LEARN), (15, Purpose.MIX)])
def test_from_fifteen_of_one_level_on_a_day_every_second_reviews_a_passed_one(
    count: int, why: Purpose
) -> None:
    today = spent(Purpose.LEARN, *[8.0] * count, level=WORKED.id)
    player = replace(learner(evenly(8.0)), recent=today)

    assert next_purpose(player, *BLIPS, *today[:1]) is why


def test_reviews_are_drawn_from_the_six_hardest_passed_levels() -> None:
    player = learner(evenly(8.0))
    before = (*BLIPS, *spent(Purpose.LEARN, *[8.0] * (MIXED_EVERY - 1), level=WORKED.id))

    drawn = {
        planned.level.id
        for seed in range(80)
        if (planned := following(player, session(seed=seed, results=before))) is not None
    }

    assert drawn == {level.id for level in player.playable[-MIXED_FROM:]}


@pytest.mark.parametrize(
    ("earlier", "now", "passes"),
    [(7, True, True), (6, True, False), (7, False, False)],
)
def test_a_level_is_passed_in_a_session_by_the_repetition_that_meets_its_rule(
    earlier: int, now: bool, passes: bool
) -> None:
    # The rule asks for 8 clean of 10; a void repetition and one of another level count for none.
    level = replace(WORKED, rule=PassRule(8, 10))
    learned, other = Planned(level, Purpose.LEARN), Planned(DONE_LEVEL, Purpose.MIX)
    player = a_player(MIDWAY - {WORKED.id}).after(played(other, 8.0))
    player = player.after(played(learned, 8.0, void=True))
    for _ in range(earlier):
        player = player.after(played(learned, 8.0))
        assert level.id not in player.done

    player = player.after(played(learned, 8.0, clean=now))

    assert (level.id in player.done) is passes
    assert (level.id in player.retention) is passes
