"""The staircase of the steadiness drill, against published rules."""

from collections.abc import Callable, Sequence

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.practice.blip_size import BLIP
from engine.practice.steadiness import (
    BEGINNING,
    FIRST_STEP,
    NARROWEST,
    STEP,
    WIDEST,
    SteadinessBlip,
    next_tolerance,
    stepped,
)
from tests.steady_foot import DAY, SteadyFoot, followed

TRIALS = 200_000
Rule = Callable[[float, bool], float]


def down_up(hits_needed: int) -> Rule:
    """So many hits in a row make it narrower by a tenth, one miss wider by as much."""
    row = 0

    def rule(asked: float, inside: bool) -> float:
        nonlocal row
        row = row + 1 if inside else 0
        if not inside:
            return asked / STEP
        return asked * STEP if row % hits_needed == 0 else asked

    return rule


def share_of_hits(rule: Rule) -> float:
    """Of a long track of a foot that stays the same."""
    rng = np.random.default_rng(1991)
    asked, hits = 8.0, 0
    for deviation in (8 * np.exp(rng.normal(0, 0.5, TRIALS))).tolist():
        inside = deviation <= asked
        hits += inside
        asked = rule(asked, inside)
    return hits / TRIALS


def turning(asked: Sequence[float]) -> list[SteadinessBlip]:
    """Hits and misses in turn at these tolerances: every blip but the first is a reversal."""
    return [
        SteadinessBlip(DAY, one, one / 2 if place % 2 == 0 else one * 2, BLIP)
        for place, one in enumerate(asked)
    ]


def test_the_staircase_converges_on_three_hits_in_four() -> None:
    # Kaernbach 1991 (formula from memory): steps of 1 and 3 rest at 3 / (1 + 3).
    assert share_of_hits(stepped) == pytest.approx(0.75, abs=0.005)


@pytest.mark.parametrize(("hits_needed", "share"), [(2, 0.7071), (3, 0.7937)])
def test_other_rules_converge_on_their_published_shares(hits_needed: int, share: float) -> None:
    # Levitt 1971 (table from memory): n down and 1 up rests at the n-th root of a half.
    assert share_of_hits(down_up(hits_needed)) == pytest.approx(share, abs=0.005)


def test_what_goes_just_as_far_as_asked_is_inside() -> None:
    assert SteadinessBlip(DAY, 8.0, 8.0, BLIP).inside
    assert not SteadinessBlip(DAY, 8.0, 8.001, BLIP).inside


def test_the_first_blip_of_all_is_asked_the_tolerance_it_begins_with() -> None:
    assert next_tolerance([]) == BEGINNING


def test_the_first_steps_are_wide_until_four_reversals() -> None:
    blips = turning([20.0, 16.0, 30.0, 24.0, 40.0])

    assert next_tolerance(blips[:3]) == pytest.approx(30.0 * FIRST_STEP)
    assert next_tolerance(blips[:4]) == pytest.approx(24.0 / FIRST_STEP**3)
    assert next_tolerance(blips) == pytest.approx(40.0 * STEP)


def test_no_tolerance_is_under_what_a_pedal_shows_or_over_what_is_still_held() -> None:
    hits = followed(SteadyFoot(median=0.01), days=10)
    misses = followed(SteadyFoot(median=90.0, spread=0.01), days=10)

    assert next_tolerance(hits) == NARROWEST
    assert next_tolerance(misses) == WIDEST


@given(asked=st.floats(NARROWEST, WIDEST), step=st.sampled_from([STEP, FIRST_STEP]))
def test_a_hit_never_widens_and_a_miss_never_narrows(asked: float, step: float) -> None:
    assert NARROWEST <= stepped(asked, True, step) <= asked
    assert asked <= stepped(asked, False, step) <= WIDEST


@given(asked=st.floats(1, 10), step=st.sampled_from([STEP, FIRST_STEP]))
def test_one_miss_undoes_three_hits(asked: float, step: float) -> None:
    narrower = stepped(stepped(stepped(asked, True, step), True, step), True, step)

    assert stepped(narrower, False, step) == pytest.approx(asked)
