"""Whether scores fall; the rates are a small version of `python tests/bench/rates.py`."""

from dataclasses import replace
from functools import partial

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from engine.five.planner import Planned
from engine.practice.fatigue import Scored, fatigue_of, scored_in
from engine.practice.results import Purpose
from tests.bench.falling_scores import tired, tired_of_mixed, tires_at
from tests.bench.rates import hits
from tests.engine.five.planning import BY_ID, played

STEADY = [82.0, 90.0, 86.0, 80.0, 91.0, 84.0, 88.0, 85.0]
FALLING = [*STEADY, *(86.0 - 4 * place for place in range(1, 13))]
"""Eight scores about 86, then twelve that fall by 48."""


def of(kind: str, scores: list[float]) -> list[Scored]:
    """Repetitions of a kind."""
    return [Scored(kind, one) for one in scores]


def chance(scores: list[float]) -> float:
    """p-value as the docstring of the test says it, by matrices and scipy."""
    n = len(scores)
    t = np.maximum(0, np.arange(n) - (n - 13))
    c = t - t.mean()
    r = stats.rankdata(scores)
    r -= r.mean()
    by = np.column_stack([np.ones(n), c, np.arange(n)])
    e = r - by @ np.linalg.lstsq(by, r, rcond=None)[0]
    a = (e[:-1] @ e[1:]) / (e @ e)
    rho = np.clip((0.3 + a + (2 + 4 * a) / n) / 2, 0, 0.8)
    alike = rho ** np.abs(np.subtract.outer(np.arange(n), np.arange(n)))
    return float(stats.norm.sf(-(c @ r) / (np.std(r, ddof=1) * np.sqrt(c @ alike @ c))))


def test_twelve_falling_scores_say_what_falls_and_by_how_much() -> None:
    found = fatigue_of(of("blip", FALLING))

    assert found is not None
    assert found.kind == "blip"
    assert found.fall == pytest.approx(48.0, abs=1.0)


@pytest.mark.parametrize(
    "scores",
    [[], FALLING[1:], [70.0] * 20, [0.0] * 20, FALLING[::-1], STEADY * 3],
)
def test_fewer_scores_or_scores_that_do_not_fall_are_no_fatigue(scores: list[float]) -> None:
    assert fatigue_of(of("blip", scores)) is None


def test_scores_that_fall_from_the_first_one_on_are_found() -> None:
    assert fatigue_of(of("blip", [90.0 - 4 * place for place in range(20)])) is not None


@pytest.mark.parametrize("count", [20, 31, 40, 55])
def test_scores_fall_where_their_chance_is_under_an_even_share_of_the_level(count: int) -> None:
    rng = np.random.default_rng(count)
    found = set()
    for fall in np.linspace(0, 40, 120):
        lost = fall * np.clip((np.arange(count) - count + 15) / 14, 0, 1)
        scores = np.clip(np.round(75 + 10 * rng.standard_normal(count) - lost), 0, 100).tolist()
        falls = fatigue_of(of("blip", scores)) is not None
        assert falls == (chance(scores) <= 0.17 / max(40, count))
        found.add(falls)

    assert found == {False, True}


def test_other_kinds_in_between_are_ignored() -> None:
    pairs = zip(of("hold", FALLING[::-1]), of("blip", FALLING), strict=True)
    mixed = [one for pair in pairs for one in pair]

    assert fatigue_of(mixed) == fatigue_of(of("blip", FALLING))
    assert fatigue_of(mixed[:-1]) is None


def test_a_foot_that_drops_to_nothing_is_told_so_though_most_are_tied() -> None:
    found = fatigue_of(of("blip", [80.0] * 14 + [0.0] * 8))

    assert found is not None
    assert found.fall > 40


def test_the_longer_the_session_the_surer_it_must_be() -> None:
    last = (84.0, 75.0, 79.0, 82.0, 75.0, 81.0, 76.0, 78.0, 72.0, 79.0, 70.0, 68.0)
    scores = [*STEADY, *last]
    most = int(0.17 / chance(scores)) - len(scores)
    assert 20 < most < 1000

    assert fatigue_of([*of("hold", [70.0] * most), *of("blip", scores)]) is not None
    assert fatigue_of([*of("hold", [70.0] * (most + 1)), *of("blip", scores)]) is None


def test_a_suggestion_is_not_repeated_before_twenty_newer_ones_of_its_kind() -> None:
    session = [*of("hold", [70.0] * 3), *of("blip", FALLING)]
    first = fatigue_of(session)
    assert first is not None

    rest = [one for one in session if one.kind != first.kind]
    said = [fatigue_of([*rest, *of("blip", FALLING[:count])]) for count in range(21)]

    assert rest == of("hold", [70.0] * 3)
    assert said == [None] * 20 + [first]


@given(
    scores=st.lists(st.integers(0, 100).map(float), min_size=20, max_size=40),
    factor=st.integers(1, 4),
    more=st.integers(-9, 9),
)
def test_only_the_order_of_scores_says_whether_they_fall_and_their_scale_by_how_much(
    scores: list[float], factor: int, more: int
) -> None:
    found = fatigue_of(of("blip", scores))
    other = fatigue_of(of("blip", [factor * score + more for score in scores]))

    assert (found is None) == (other is None)
    if found is not None and other is not None:
        assert other.fall == pytest.approx(factor * found.fall)
        assert found.fall > 0


@pytest.mark.parametrize(
    ("once", "times"),
    [
        (partial(tired, count=40), 200),
        (partial(tired, count=30, alike=0.3), 300),
        (partial(tired, count=40, alike=0.3, zeros=0.25), 200),
        (partial(tired_of_mixed, count=60, kinds=3, alike=0.3), 150),
    ],
)
def test_a_foot_that_does_not_tire_is_called_so_in_fewer_than_5_of_100_sessions(
    once: partial[bool], times: int
) -> None:
    assert hits(once, times) < 0.05 * times


def test_neighbours_that_are_alike_do_not_look_like_a_fall() -> None:
    # The bench finds 4.2 %: of 400 sessions, more than 27 in 1 of 100 runs.
    assert hits(partial(tired, count=40, alike=0.3), 400) <= 27


@pytest.mark.parametrize("alike", [0.0, 0.3])
def test_a_fall_of_two_standard_deviations_over_fifteen_is_found_in_half(alike: float) -> None:
    # The bench finds 68 % and 53 %: of 400, the second fewer than 188 in 1 of 100 runs.
    assert hits(partial(tires_at, begin=25, alike=alike), 400) >= 188


def test_only_what_feet_played_in_sight_is_scored_against_what_is_usual() -> None:
    counts = replace(played(Planned(BY_ID["blip-1-first"], Purpose.LEARN), 9.0), score=70.0)
    others = (
        replace(counts, feet=False),
        replace(counts, void=True, score=None),
        replace(counts, why=Purpose.DARK),
    )

    found = scored_in([counts, *others, replace(counts, score=40.0)], {counts.level: 60.0}, {})

    assert found == [Scored("blip", 10.0), Scored("blip", -20.0)]
    assert scored_in([counts, counts], {counts.level: 60.0}, {"blip": 1}) == [Scored("blip", 10.0)]
