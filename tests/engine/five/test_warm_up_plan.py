"""What a warm-up is made of: what is due is left to be shown cold, where there is another."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from engine.five.player_state import PlayerState
from engine.five.warm_up_plan import warming
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.practice.results import Purpose, Result, Session, SessionKind
from engine.practice.retention import Retention

LEVELS, BAND = load_levels([SHIPPED]), load_band()
NOW = datetime(2024, 5, 17, 18, tzinfo=UTC)
TODAY, LATER = NOW.date(), NOW.date() + timedelta(days=5)
HOLDS = ("still-1-light", "still-2-firm", "still-3-dark")


def begun(*results: Result) -> Session:
    """A warm-up in which some repetitions were played."""
    return Session(1, SessionKind.WARM_UP, NOW, 3.0, 1, results)


def first_of(*due: str) -> str:
    """The level of the first repetition, for somebody who passed three holds, some of them due."""
    retention = {one: Retention(due=TODAY if one in due else LATER) for one in HOLDS}
    player = PlayerState(TODAY, LEVELS, frozenset(HOLDS), retention, band=BAND)
    planned = warming(player, begun())
    assert planned is not None
    return planned.level.id


@pytest.mark.parametrize(
    ("due", "wanted"),
    [
        ((), "still-3-dark"),
        (("still-3-dark",), "still-2-firm"),
        (("still-2-firm", "still-3-dark"), "still-1-light"),
        (HOLDS, "still-3-dark"),
    ],
)
def test_the_hardest_hold_that_is_not_due_comes_first(due: tuple[str, ...], wanted: str) -> None:
    assert first_of(*due) == wanted


@pytest.mark.parametrize(("seconds", "is_in"), [(10.0, True), (10.1, False)])
def test_a_hold_of_more_than_ten_seconds_is_no_warm_up(seconds: float, is_in: bool) -> None:
    holds = [level for level in LEVELS if level.id in HOLDS[:2]]
    long = replace(holds[1], own={**holds[1].own, "duration": seconds})
    player = PlayerState(TODAY, [holds[0], long], frozenset(HOLDS[:2]), band=BAND)

    planned = warming(player, begun())

    assert planned is not None
    assert (planned.level == long) == is_in


@pytest.mark.parametrize(("took", "goes_on"), [(89.9, True), (90.0, False)])
def test_a_warm_up_ends_with_its_three_minutes(took: float, goes_on: bool) -> None:
    player = PlayerState(TODAY, LEVELS, frozenset(HOLDS), band=BAND)
    results = [
        Result(HOLDS[2], TODAY, 50.0, True, False, why=Purpose.WARM, took=seconds)
        for seconds in (90.0, took)
    ]

    assert (warming(player, begun(*results)) is not None) == goes_on


def test_a_player_without_blips_holds_ten_times() -> None:
    player, results = PlayerState(TODAY, LEVELS, frozenset(HOLDS), band=BAND), list[Result]()
    while (planned := warming(player, begun(*results))) is not None:
        results.append(Result(planned.level.id, TODAY, 50.0, True, False, took=5.0))

    assert [result.level for result in results] == ["still-3-dark"] * 10
