"""What a trial by days can find, by the days of the player."""

from datetime import date, timedelta
from math import exp, log1p, sqrt

import pytest

from engine.practice.steadiness import SteadinessBlip
from engine.trial.by_days_power import FEWEST_DAYS, FINDABLE, USUAL_SPREAD, power_of
from engine.trial.outcome import NOTICEABLE

FIRST = date(2024, 5, 17)


def blips(days: list[float], count: int = 6, peak: float = 60.0) -> list[SteadinessBlip]:
    """So many equal blips on each of some days, by their points."""
    return [
        SteadinessBlip(FIRST + timedelta(days=number), 10.0, points, peak)
        for number, points in enumerate(days)
        for _ in range(count)
    ]


def test_the_spread_is_that_of_neighbouring_days() -> None:
    power = power_of(blips([8.0, 8.0 * exp(0.2)] * 6))

    assert not power.is_guess
    assert -log1p(-power.share) == pytest.approx(FINDABLE * 0.2)
    assert power.typical == pytest.approx(8.0 * exp(0.1))


def test_a_slow_trend_is_no_spread() -> None:
    power = power_of(blips([8.0 * exp(-0.01 * day) for day in range(30)]))

    assert -log1p(-power.share) == pytest.approx(FINDABLE * 0.01)


def test_with_too_few_days_it_is_a_guess() -> None:
    few = power_of(blips([8.0] * (FEWEST_DAYS - 1)))
    none = power_of([])

    assert (few.is_guess, none.is_guess) == (True, True)
    assert -log1p(-few.share) == pytest.approx(FINDABLE * USUAL_SPREAD)
    assert (none.typical, none.points) == (None, None)


def test_days_with_too_few_blips_are_left_out() -> None:
    assert power_of(blips([8.0] * 20, count=3)).typical is None


def test_what_no_player_notices_is_not_promised() -> None:
    assert power_of(blips([8.0] * 20)).points == NOTICEABLE


def test_the_blips_are_scaled_to_one_size() -> None:
    assert power_of(blips([8.0] * 20, peak=80.0)).typical == pytest.approx(6.0)


def test_the_points_are_those_of_the_difference_around_the_typical_blip() -> None:
    power = power_of(blips([8.0, 12.0] * 6))

    share, middle = power.share, sqrt(8.0 * 12.0)
    assert power.points is not None
    assert power.points == pytest.approx(middle * (1 / sqrt(1 - share) - sqrt(1 - share)))
