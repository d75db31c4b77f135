"""The score, whether a repetition was clean, and what its endings mean."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.score import Limit, Reason, score, weigh

limits = st.lists(st.tuples(st.floats(0.01, 100), st.integers(1, 10)), min_size=1, max_size=5).map(
    lambda pairs: [Limit(at, weight / sum(w for _, w in pairs)) for at, weight in pairs]
)
shares = st.lists(st.none() | st.floats(0, 20), min_size=5, max_size=5)


@given(limits)
def test_a_perfect_repetition_scores_100(asked: list[Limit]) -> None:
    assert score([0.0] * len(asked), asked) == 100


@given(limits)
def test_a_repetition_on_every_limit_scores_50(asked: list[Limit]) -> None:
    assert score([limit.at for limit in asked], asked) == pytest.approx(50)


@given(limits, shares)
def test_a_value_of_none_counts_as_four_times_its_limit(
    asked: list[Limit], parts: list[float | None]
) -> None:
    sizes = [
        None if part is None else part * limit.at for part, limit in zip(parts, asked, strict=False)
    ]
    filled = [
        4 * limit.at if size is None else size for size, limit in zip(sizes, asked, strict=True)
    ]

    assert score(sizes, asked) == pytest.approx(score(filled, asked))


@given(limits, shares, st.integers(0, 4), st.floats(0.01, 5))
def test_a_score_falls_as_any_value_grows_and_stays_from_0_to_100(
    asked: list[Limit], parts: list[float | None], which: int, more: float
) -> None:
    sizes = [(part or 0.0) * limit.at for part, limit in zip(parts, asked, strict=False)]
    worse = list(sizes)
    worse[which % len(asked)] += more * asked[which % len(asked)].at

    assert 0 < score(worse, asked) < score(sizes, asked) <= 100


def test_a_score_is_worked_out_by_its_formula() -> None:
    # 100 * 2 ** -(0.5 * 5/10 + 0.3 * 6/2 + 0.2 * 4) = 100 * 2 ** -1.95
    asked = [Limit(10, 0.5), Limit(2, 0.3), Limit(1, 0.2)]

    assert score([5, 6, None], asked) == pytest.approx(25.881623)


def test_values_without_a_limit_each_are_refused() -> None:
    with pytest.raises(ValueError, match=r"^zip\(\) argument 2 is shorter than argument 1$"):
        score([1.0, 2.0], [Limit(1, 1)])


@pytest.mark.parametrize(
    ("dip", "reason", "over"),
    [
        (15.0, Reason.CLEAN, ()),
        (15.000001, Reason.OVER_LIMIT, ("dip",)),
        (-15.000001, Reason.OVER_LIMIT, ("dip",)),
        (None, Reason.OVER_LIMIT, ("dip",)),
    ],
)
def test_a_limit_itself_is_clean_and_anything_past_it_or_none_is_not(
    dip: float | None, reason: Reason, over: tuple[str, ...]
) -> None:
    verdict = weigh({"dip": dip, "settle": 0.0}, {"settle": Limit(1, 0.5), "dip": Limit(15, 0.5)})

    assert (verdict.reason, verdict.over) == (reason, over)
    assert verdict.clean == (reason is Reason.CLEAN)
    assert not verdict.void


@pytest.mark.parametrize("size", [0.5, 2.0, 5.0])
def test_a_value_with_a_sign_weighs_by_its_size(size: float) -> None:
    limits = {"constant_error": Limit(2.0, 1.0)}

    light, heavy = (weigh({"constant_error": sign * size}, limits) for sign in (-1, 1))

    assert light.score == heavy.score == pytest.approx(100 * 2 ** (-size / 2))


def test_what_was_asked_and_not_done_is_not_clean_even_within_every_limit() -> None:
    verdict = weigh({"dip": 1.0}, {"dip": Limit(15, 1)}, Reason.EXTRA_BLIP)

    assert verdict.reason is Reason.EXTRA_BLIP
    assert verdict.over == ()
    assert not verdict.clean
    assert verdict.score == pytest.approx(100 * 2 ** (-1 / 15))


def test_measures_over_their_limits_are_named_in_the_order_of_the_level() -> None:
    limits = {"settle": Limit(1, 0.2), "dip": Limit(2, 0.4), "surge": Limit(3, 0.4)}

    verdict = weigh({"surge": 9.0, "dip": 1.0, "settle": None}, limits)

    assert verdict.over == ("settle", "surge")


def test_a_void_repetition_is_one_that_could_not_be_judged() -> None:
    void = {reason for reason in Reason if reason.void}

    assert void == {
        Reason.ANTICIPATION,
        Reason.NO_TARGET,
        Reason.GAP,
        Reason.UNPLUGGED,
        Reason.FOCUS_LOST,
        Reason.LEFT,
    }
