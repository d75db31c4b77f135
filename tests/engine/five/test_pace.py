"""How long a repetition takes the player."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.five.pace import LATEST, LONGEST, USUAL, PlayerPace, pace_of
from engine.practice.results import Result
from tests.made import HOLD, level

DAY = date(2024, 5, 17)
KNOWN = level(id="known")
OTHER = level(id="other")


def took(*seconds: float | None, of: str = "known", void: bool = False) -> list[Result]:
    """Repetitions of a blip level that took some times."""
    one = Result(of, DAY, None if void else 80.0, clean=not void, void=void, kind="blip")
    return [replace(one, took=time) for time in seconds]


def test_a_level_takes_the_mean_of_what_it_took() -> None:
    pace = pace_of(took(6.0, 7.0, 11.0))

    assert pace.of(KNOWN) == 8.0


def test_a_level_never_played_takes_what_its_kind_does() -> None:
    pace = pace_of([*took(6.0), *took(8.0, of="another")])

    assert pace.of(OTHER) == 7.0


def test_a_level_that_measures_for_long_is_not_taken_for_a_short_one_of_its_kind() -> None:
    short = replace(took(6.0, of="short")[0], kind="hold")

    pace = pace_of([short])

    assert pace.of(replace(HOLD, own={"duration": 20.0})) == USUAL + 20


def test_a_new_player_has_the_usual_pace() -> None:
    assert PlayerPace().of(KNOWN) == USUAL
    assert PlayerPace().of(HOLD) == USUAL + 2


def test_only_the_newest_count() -> None:
    pace = pace_of(took(*[30.0] * 20, *[7.0] * LATEST))

    assert pace.of(KNOWN) == 7.0


def test_void_repetitions_slow_the_pace_of_counted_ones() -> None:
    pace = pace_of([*took(8.0, 8.0), *took(4.0, void=True)])

    assert pace.of(KNOWN) == 10.0


@pytest.mark.parametrize(
    "results",
    [
        took(None, None),
        took(LONGEST + 0.1, 3600.0),
        took(5.0, void=True),
        took(0.0),
        took(-5.0),
        [],
    ],
)
def test_results_without_a_usable_time_leave_the_usual_pace(results: list[Result]) -> None:
    assert pace_of(results).of(KNOWN) == USUAL


def test_a_repetition_of_a_minute_still_tells_the_pace() -> None:
    assert pace_of(took(LONGEST)).of(KNOWN) == LONGEST


@given(times=st.lists(st.floats(1, LONGEST), min_size=1, max_size=40))
def test_the_pace_lies_within_the_times_it_is_computed_from(times: list[float]) -> None:
    pace = pace_of(took(*times)).of(KNOWN)

    assert min(times) - 1e-9 <= pace <= max(times) + 1e-9
