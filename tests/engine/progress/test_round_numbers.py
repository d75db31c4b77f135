"""Numbers as a person would round them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.progress.round_numbers import SHARES, rounded_down, share_words, share_words_up


@given(count=st.floats(1, 1e6))
def test_a_count_rounded_down_is_near_and_never_above(count: float) -> None:
    assert rounded_down(count) <= count
    assert count - rounded_down(count) <= max(1.0, 0.26 * count)


@pytest.mark.parametrize(
    ("share", "nearest", "above"),
    [
        (0.0, "a tenth", "a tenth"),
        (0.21, "a fifth", "a quarter"),
        (1 / 3, "a third", "a third"),
        (0.34, "a third", "half"),
        (0.8, "three quarters", "nine tenths"),
        (0.95, "nine tenths", ""),
    ],
)
def test_a_share_has_the_nearest_words_and_those_that_are_not_below(
    share: float, nearest: str, above: str
) -> None:
    assert (share_words(share), share_words_up(share)) == (nearest, above)


def test_the_shares_rise() -> None:
    assert [share for share, _ in SHARES] == sorted(share for share, _ in SHARES)
