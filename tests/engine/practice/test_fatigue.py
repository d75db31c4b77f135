"""Whether the foot tires; the rates are a small version of `python tests/bench/rates.py`."""

from functools import partial

import pytest

from engine.practice.fatigue import Fatigue, Scored, fatigue_of
from tests.bench.rates import hits, tired, tired_of_mixed

FALLING = [90.0 - 4 * place for place in range(12)]


def of(kind: str, scores: list[float]) -> list[Scored]:
    """Repetitions of a kind."""
    return [Scored(kind, one) for one in scores]


def test_twelve_falling_scores_say_what_tires_and_how_fast() -> None:
    assert fatigue_of(of("blip", FALLING)) == Fatigue("blip", 4.0)


@pytest.mark.parametrize(
    "scores",
    [[], FALLING[:11], [70.0] * 12, [0.0] * 12, FALLING[::-1], [*FALLING[6:], *FALLING[:6]]],
)
def test_fewer_scores_or_scores_that_do_not_fall_are_no_fatigue(scores: list[float]) -> None:
    assert fatigue_of(of("blip", scores)) is None


def test_only_the_newest_twelve_are_looked_at() -> None:
    assert fatigue_of(of("blip", [20.0, 95.0, 60.0, *FALLING])) == Fatigue("blip", 4.0)
    assert fatigue_of(of("blip", [*FALLING, *FALLING[::-1]])) is None


def test_other_kinds_in_between_are_ignored() -> None:
    pairs = zip(of("hold", FALLING[::-1]), of("blip", FALLING), strict=True)
    mixed = [one for pair in pairs for one in pair]

    assert fatigue_of(mixed) == Fatigue("blip", 4.0)
    assert fatigue_of(mixed[:-1]) is None


def test_a_foot_that_drops_to_nothing_tires_though_most_are_tied() -> None:
    scores = [80.0, 81.0, 79.0, 78.0, 77.0, 76.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0]

    found = fatigue_of(of("blip", scores))

    assert found is not None
    assert found.fall > 0


def test_the_more_repetitions_there_are_the_surer_it_must_be() -> None:
    # Of 66 pairs 12 rise, so S is -42: chance does as much in 0.00159, and 0.03 / 19 is less.
    wobbly = of("blip", [FALLING[place] for place in (2, 1, 0, 5, 4, 3, 8, 7, 6, 11, 10, 9)])

    assert fatigue_of([*of("hold", [70.0] * 6), *wobbly]) is not None
    assert fatigue_of([*of("hold", [70.0] * 7), *wobbly]) is None


def test_a_suggestion_is_not_repeated_before_twelve_newer_ones_of_its_kind() -> None:
    session = [*of("hold", [70.0] * 3), *of("blip", FALLING)]
    first = fatigue_of(session)
    assert first is not None

    rest = [one for one in session if one.kind != first.kind]
    said = [fatigue_of([*rest, *of("blip", FALLING[:count])]) for count in range(13)]

    assert rest == of("hold", [70.0] * 3)
    assert said == [None] * 12 + [first]


@pytest.mark.parametrize(
    ("once", "times"),
    [
        (partial(tired, count=30), 400),
        (partial(tired, count=30, zeros=0.25), 400),
        (partial(tired, count=60), 500),
        (partial(tired_of_mixed, count=60, kinds=3), 200),
    ],
)
def test_a_foot_that_does_not_tire_is_called_tired_in_fewer_than_5_of_100_sessions(
    once: partial[bool], times: int
) -> None:
    assert hits(once, times) < 0.05 * times


def test_a_fall_of_a_third_of_the_spread_each_time_is_found_in_8_of_10_sessions() -> None:
    assert hits(partial(tired, fall=4.0, count=30), 200) >= 0.8 * 200
