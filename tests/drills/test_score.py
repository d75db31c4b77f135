"""The score, whether a repetition was clean, and what its endings mean."""

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.score import ABSENT, Reason, Verdict, load, score, weigh

LIMITS = st.dictionaries(
    st.sampled_from(["dip", "surge", "settle", "offset", "reaction"]),
    st.floats(0.01, 100),
    min_size=1,
)
SHARES = st.lists(st.none() | st.floats(0, 20), min_size=5, max_size=5)


def measured(limits: dict[str, float], shares: Sequence[float | None]) -> dict[str, float | None]:
    """Values that are so many times their limits."""
    return {
        name: None if share is None else share * limit
        for (name, limit), share in zip(limits.items(), shares, strict=False)
    }


@given(LIMITS)
def test_a_perfect_repetition_scores_100(limits: dict[str, float]) -> None:
    assert weigh(measured(limits, [0.0] * 5), limits).score == 100


@given(LIMITS, SHARES, st.integers(0, 4))
def test_a_repetition_with_its_worst_value_on_its_limit_scores_50(
    limits: dict[str, float], shares: list[float | None], which: int
) -> None:
    values = measured(limits, [min(share or 0.0, 1.0) for share in shares])
    name = list(limits)[which % len(limits)]
    values[name] = limits[name]

    verdict = weigh(values, limits)

    assert verdict.score == 50
    assert verdict.clean


@given(LIMITS, SHARES)
def test_clean_is_50_or_more_and_not_clean_is_50_or_less(
    limits: dict[str, float], shares: list[float | None]
) -> None:
    verdict = weigh(measured(limits, shares), limits)

    assert verdict.score is not None
    assert verdict.score >= 50 if verdict.clean else verdict.score <= 50


@given(LIMITS, SHARES)
def test_a_value_of_none_counts_as_four_times_its_limit(
    limits: dict[str, float], shares: list[float | None]
) -> None:
    filled = [ABSENT if share is None else share for share in shares]

    without, instead = (weigh(measured(limits, some), limits) for some in (shares, filled))

    assert without.score == pytest.approx(instead.score)


@given(LIMITS, SHARES, st.integers(0, 4), st.floats(0, 5))
def test_a_score_never_rises_as_any_value_grows_and_falls_with_the_worst(
    limits: dict[str, float], shares: list[float | None], which: int, more: float
) -> None:
    values = measured(limits, [share or 0.0 for share in shares])
    before = weigh(values, limits)
    name = list(limits)[which % len(limits)]
    worse = {**values, name: (values[name] or 0.0) + more * limits[name]}
    most = max(limits, key=lambda one: load(values[one], limits[one]))
    worst = {**values, most: (values[most] or 0.0) + 0.1 * limits[most]}

    after, last = weigh(worse, limits), weigh(worst, limits)

    assert before.score is not None
    assert after.score is not None
    assert last.score is not None
    assert 0 < after.score <= before.score <= 100
    assert last.score < before.score


@given(LIMITS, SHARES)
def test_the_worst_value_is_the_one_furthest_over_its_limit(
    limits: dict[str, float], shares: list[float | None]
) -> None:
    values = measured(limits, shares)

    verdict = weigh(values, limits)

    loads = {name: load(values[name], limit) for name, limit in limits.items()}
    seen = [loads[name] for name in verdict.over if values[name] is not None]
    if verdict.over:
        assert loads[verdict.worst] == max(seen or loads.values())
        assert verdict.worst in verdict.over


@given(LIMITS, st.lists(st.floats(0, 1), min_size=5, max_size=5))
def test_a_clean_repetition_is_told_of_the_brake_unless_a_timing_is_very_near_its_limit(
    limits: dict[str, float], shares: list[float]
) -> None:
    values = measured(limits, shares)

    worst = weigh(values, limits).worst

    loads = {name: load(values[name], limit) for name, limit in limits.items()}
    assert loads[worst] == max(loads.values()) or loads.get("reaction", 0.0) <= 0.9
    told = [name for name in limits if name != "reaction" or worst == name]
    assert loads[worst] == max(loads[name] for name in told)
    assert worst != "reaction" or len(limits) == 1 or loads[worst] > 0.9


@pytest.mark.parametrize(
    ("reaction", "worst"), [(0.45, "dip"), (0.53, "dip"), (0.55, "reaction"), (0.61, "reaction")]
)
def test_the_answer_to_the_cue_is_told_only_near_its_limit(reaction: float, worst: str) -> None:
    limits = {"dip": 6.0, "settle": 0.3, "reaction": 0.6}

    verdict = weigh({"dip": 1.0, "settle": 0.0, "reaction": reaction}, limits)

    assert verdict.worst == worst


def test_a_score_is_worked_out_by_its_formula() -> None:
    # 100 * 2 ** -max(5/10, 6/2, 4) and 100 * 2 ** -max(5/10, 2.5/2)
    assert score([5 / 10, 6 / 2, ABSENT]) == pytest.approx(6.25)
    assert score([5 / 10, 2.5 / 2]) == pytest.approx(42.044821)


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
    verdict = weigh({"dip": dip, "settle": 0.0}, {"settle": 1.0, "dip": 15.0})

    assert (verdict.reason, verdict.over) == (reason, over)
    assert verdict.clean == (reason is Reason.CLEAN)
    assert not verdict.void


@pytest.mark.parametrize("size", [0.5, 2.0, 5.0])
def test_a_value_with_a_sign_weighs_by_its_size(size: float) -> None:
    limits = {"constant_error": 2.0}

    light, heavy = (weigh({"constant_error": sign * size}, limits) for sign in (-1, 1))

    assert light.score == heavy.score == pytest.approx(100 * 2 ** (-size / 2))


def test_what_was_asked_and_not_done_is_worth_nothing_even_within_every_limit() -> None:
    verdict = weigh({"dip": 1.0}, {"dip": 15.0}, Reason.EXTRA_BLIP)

    assert verdict.reason is Reason.EXTRA_BLIP
    assert verdict.over == ()
    assert not verdict.clean
    assert verdict.score == 0


def test_where_nothing_was_measured_no_measure_is_over_its_limit() -> None:
    verdict = weigh({}, {"dip": 15.0}, Reason.NO_BLIP)

    assert (verdict.over, verdict.worst, verdict.score) == ((), "", 0)


def test_measures_over_their_limits_are_named_in_the_order_of_the_level() -> None:
    limits = {"settle": 1.0, "dip": 2.0, "surge": 3.0}

    verdict = weigh({"surge": 9.0, "dip": 1.0, "settle": None}, limits)

    assert verdict.over == ("settle", "surge")
    assert verdict.worst == "surge"
    assert verdict.score == 100 * 2**-4


def test_a_void_repetition_is_one_that_could_not_be_judged() -> None:
    void = {reason for reason in Reason if reason.void}

    assert void == {
        Reason.ANTICIPATION,
        Reason.NO_TARGET,
        Reason.GAP,
        Reason.UNPLUGGED,
        Reason.FOCUS_LOST,
        Reason.LEFT,
        Reason.SELDOM,
        Reason.AT_END,
        Reason.NOT_MOVED,
        Reason.STALLED,
        Reason.JUMPED,
        Reason.OFF_SIZE,
        Reason.MISCOUNTED,
        Reason.UNHEARD,
    }


@pytest.mark.parametrize(
    ("score", "shown"), [(49.99, "49"), (50.0, "50"), (100.0, "100"), (0.0, "0"), (None, "-")]
)
def test_a_score_is_shown_rounded_down_so_that_50_is_clean(score: float | None, shown: str) -> None:
    assert Verdict(Reason.OVER_LIMIT, score).points == shown
