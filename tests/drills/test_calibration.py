"""Calibration: raw to percent and back, by two ends and nothing else."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.calibration import COUNTS, Calibration, CalibrationError, Range, counts_of
from drills.counts import Counts

RAW = st.floats(-1.0, 1.0)
ENDS = st.tuples(RAW, RAW).filter(lambda ends: abs(ends[0] - ends[1]) >= 0.2)


@pytest.mark.parametrize(
    ("rest", "full", "raw", "percent"),
    [
        (-1.0, 1.0, -1.0, 0.0),
        (-1.0, 1.0, 0.0, 50.0),
        (-1.0, 1.0, 1.0, 100.0),
        (0.0, 1.0, 0.25, 25.0),
        (1.0, -1.0, 1.0, 0.0),
        (1.0, -1.0, -0.5, 75.0),
        (-0.5, 0.5, -0.625, -12.5),
        (-0.5, 0.5, 0.75, 125.0),
    ],
)
def test_a_raw_value_is_a_share_of_the_travel(
    rest: float, full: float, raw: float, percent: float
) -> None:
    ends = Range(rest, full)

    found = ends.percent(raw)

    assert found == percent


@given(ends=ENDS, raw=RAW)
def test_raw_to_percent_and_back_is_the_same_value(ends: tuple[float, float], raw: float) -> None:
    scale = Range(*ends)

    back = scale.raw(scale.percent(raw))

    assert back == pytest.approx(raw, abs=1e-12)


@given(ends=ENDS, raw=RAW, step=st.floats(1e-6, 0.01))
def test_no_movement_is_swallowed(ends: tuple[float, float], raw: float, step: float) -> None:
    scale = Range(*ends)

    moved = scale.percent(raw + step) - scale.percent(raw)

    assert moved == pytest.approx(100 * step / (ends[1] - ends[0]), rel=1e-6)


@given(ends=ENDS, raw=RAW)
def test_an_inverted_axis_reads_as_its_mirror_image(ends: tuple[float, float], raw: float) -> None:
    normal, inverted = Range(*ends), Range(-ends[0], -ends[1])

    assert inverted.percent(-raw) == pytest.approx(normal.percent(raw), abs=1e-9)


@pytest.mark.parametrize(
    ("rest", "full", "found"),
    [
        (0.0, 0.0, "0 and 0"),
        (-1.0, -0.8001, "-1 and -0.8001"),
        (0.5, 0.375, "0.5 and 0.375"),
        (math.nan, 1.0, "nan and 1"),
        (0.0, math.nan, "0 and nan"),
    ],
)
def test_ends_that_lie_too_close_are_refused(rest: float, full: float, found: str) -> None:
    with pytest.raises(CalibrationError) as refused:
        Range(rest, full)

    assert str(refused.value) == f"expected rest and full at least 0.2 apart, found {found}"


@pytest.mark.parametrize(("rest", "full"), [(0.0, 0.2), (0.2, 0.0), (0.0, -0.2)])
def test_ends_just_far_enough_apart_make_a_scale(rest: float, full: float) -> None:
    ends = Range(rest, full)

    assert (ends.percent(rest), ends.percent(full)) == (0.0, 100.0)


@given(ends=ENDS, counts=st.lists(st.integers(-COUNTS, COUNTS), min_size=1, max_size=30))
def test_a_trace_of_counts_reads_as_each_of_them_does_alone_and_carries_them(
    ends: tuple[float, float], counts: list[int]
) -> None:
    scale = Range(*ends)
    whole = np.array(counts, dtype=np.int64)

    trace = Calibration(scale, scale).trace(Counts(5, whole, whole[::-1]))

    assert trace.brake.tolist() == [scale.percent(count / COUNTS) for count in counts]
    assert trace.throttle.tolist() == trace.brake.tolist()[::-1]
    assert trace.time.tolist() == [5 + 1_000_000 * k for k in range(len(counts))]
    assert Counts.of(trace) == Counts(5, whole, whole[::-1])


@pytest.mark.parametrize("pedals", [2, 3])
@pytest.mark.parametrize("clutch", [None, Range(0.0, 1.0)])
def test_a_clutch_is_there_only_where_both_counts_and_calibration_have_one(
    pedals: int, clutch: Range | None
) -> None:
    scale = Range(0.0, 1.0)
    counts = Counts(0, *np.zeros((pedals, 4), dtype=np.int64))

    trace = Calibration(scale, scale, clutch).trace(counts)

    assert (trace.clutch is not None) == (pedals == 3 and clutch is not None)


@pytest.mark.parametrize(
    ("raw", "counts"),
    [
        ((0.5, -1.0, 1.0), (16384, -32768, 32768)),
        ((0.0,), (0,)),
        ((0.5, 0.1), None),
        ((1.5,), None),
        ((float("nan"),), None),
        ((float("inf"),), None),
    ],
)
def test_raw_values_are_whole_counts_or_none_at_all(
    raw: tuple[float, ...], counts: tuple[int, ...] | None
) -> None:
    assert counts_of(raw) == counts
