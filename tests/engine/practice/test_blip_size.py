"""A deviation scaled to one size of blip does not depend on the size it was played with."""

from itertools import islice
from statistics import median

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.kinds.asked_size import with_size
from engine.ladder.level_files import load_band
from engine.practice.blip_size import BLIP, scaled
from tests.simulated_repetitions import counted

SIZES = st.floats(40.0, 80.0)


@given(deviation=st.floats(0.0, 60.0), one=SIZES, other=SIZES)
def test_two_feet_of_equal_scaled_deviation_read_the_same_at_any_size(
    deviation: float, one: float, other: float
) -> None:
    found = [scaled(deviation * peak / BLIP, peak) for peak in (one, other)]

    assert found == [pytest.approx(deviation)] * 2


def test_the_same_foot_reads_alike_at_small_and_large_blips_only_when_scaled() -> None:
    raw, like = {}, {}
    for size in (45.0, 75.0):
        level = with_size(load_band(), size)
        measures = [one.verdict.measures for one in islice(counted(level, 0.5, 3), 30)]
        blips = [(max(m["dip"] or 0.0, m["surge"] or 0.0), m["peak"] or 0.0) for m in measures]
        assert all(abs(peak - size) <= 20 for _, peak in blips)
        raw[size] = median(deviation for deviation, _ in blips)
        like[size] = median(scaled(deviation, peak) for deviation, peak in blips)

    assert raw[75.0] > 1.4 * raw[45.0]
    assert like[75.0] == pytest.approx(like[45.0], rel=0.15)
