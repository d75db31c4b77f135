"""The clutch at each of several blips: hand-made strokes, ties, and strokes over two blips."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.measures.blip import find_blips, measure_blip
from drills.measures.clutch import (
    BlipClutch,
    Stroke,
    measure_clutch,
    measure_strokes,
    strokes_of,
)
from drills.trace import STEP, Grid, Trace
from tests.drills.shapes import Values

LENGTH = 4000
"""Grid points of a trace."""
PULSE = 150
"""Grid points of a blip."""


def clutch_of(*strokes: tuple[int, int]) -> Values:
    """A clutch that is all the way down over these grid points."""
    values = np.zeros(LENGTH)
    for down, up in strokes:
        values[down:up] = 100.0
    return values


def blips_of(clutch: Values, *onsets: int) -> tuple[BlipClutch, ...]:
    """What a clutch did at blips that begin at these grid points."""
    throttle = np.zeros(LENGTH)
    for onset in onsets:
        throttle[onset : onset + PULSE] = 70.0
    time = np.arange(LENGTH, dtype=np.int64) * STEP
    grid = Grid.of(Trace(time, np.full(LENGTH, 60.0), throttle, clutch))
    pulses = [measure_blip(grid, blip, 0.0) for blip in find_blips(grid)]
    assert len(pulses) == len(onsets)
    return measure_strokes(clutch, 300, pulses)


def test_a_stroke_begins_at_half_and_ends_under_a_fifth() -> None:
    clutch = np.interp(np.arange(LENGTH), [1000, 1100, 1500, 1600], [0, 100, 100, 0])

    assert strokes_of(clutch, 0) == (Stroke(1050, 1581),)
    assert strokes_of(np.minimum(clutch, 49.9), 0) == ()
    assert strokes_of(np.where(np.arange(LENGTH) > 1300, 30.0, clutch), 0) == (Stroke(1050, None),)


def test_a_clutch_that_comes_up_between_two_blips_is_in_order_at_both() -> None:
    first, second = blips_of(clutch_of((900, 1200), (1700, 2000)), 1000, 1800)

    assert first == BlipClutch(1.0, -0.1, -0.05)
    assert second == BlipClutch(1.0, -0.1, -0.05)


def test_one_press_over_two_close_blips_is_in_order_and_over_two_apart_stayed_down() -> None:
    close = blips_of(clutch_of((900, 1700)), 1000, 1499)
    apart = blips_of(clutch_of((900, 1700)), 1000, 1500)

    assert [blip.up_early for blip in close] == [-0.55, -0.051]
    assert [blip.up_early for blip in apart] == [None, -0.05]
    assert [blip.down_late for blip in apart] == [-0.1, -0.6]


def test_a_blip_without_a_stroke_of_its_own_has_none_though_another_has() -> None:
    first, second, third = blips_of(clutch_of((900, 1200), (2700, 3000)), 1000, 1900, 2800)

    assert first.down_late == third.down_late == -0.1
    assert second == BlipClutch(0.0, None, None)


def test_a_stroke_beside_its_blip_is_told_by_how_far_it_missed() -> None:
    (late,) = blips_of(clutch_of((1200, 1500)), 1000)
    (soon,) = blips_of(clutch_of((700, 900)), 1000)

    assert (late.down_late, late.under_clutch) == (0.2, 0.0)
    assert (soon.up_early, soon.under_clutch) == (0.25, 0.0)


def test_a_clutch_that_stays_down_to_the_end_never_came_up() -> None:
    (blip,) = blips_of(clutch_of((900, LENGTH)), 1000)

    assert blip == BlipClutch(1.0, -0.1, None)


def test_of_two_strokes_a_blip_has_the_one_that_covers_most_of_it() -> None:
    (blip,) = blips_of(clutch_of((900, 1030), (1050, 1300)), 1000)

    assert (blip.down_late, blip.up_early) == (0.05, -0.15)
    assert blip.under_clutch == pytest.approx(130 / 150)


@given(st.integers(310, 1200), st.integers(1, 900))
def test_one_blip_under_one_stroke_is_timed_as_in_a_single_shift(down: int, length: int) -> None:
    clutch = clutch_of((down, down + length))
    throttle = np.where((np.arange(LENGTH) >= 1000) & (np.arange(LENGTH) < 1150), 70.0, 0.0)
    time = np.arange(LENGTH, dtype=np.int64) * STEP
    grid = Grid.of(Trace(time, np.full(LENGTH, 60.0), throttle, clutch))
    pulse = measure_blip(grid, find_blips(grid)[0], 0.0)

    (blip,) = measure_strokes(clutch, 300, [pulse])

    single = measure_clutch(clutch, 300, pulse)
    assert (blip.under_clutch, blip.down_late, blip.up_early) == (
        single.under_clutch,
        single.down_late,
        single.up_early,
    )
