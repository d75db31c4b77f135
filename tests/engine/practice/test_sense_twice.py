"""Sense of pressure once more: against scipy, a published data set, and feet whose own is known.

An error that grows with the weight is the same at every weight once both sides are divided by it:
`pressed / asked = gain + offset / asked` is a plain line in `1 / asked`.
"""

from collections.abc import Sequence
from datetime import date, timedelta
from pathlib import Path

import numpy as np
import pytest
from scipy import stats

from engine.practice.sense import Squeeze, sense_of
from engine.practice.size_made import SizedBlip, size_made
from engine.store import open_history
from engine.store.asked import sense_now
from tests.bench.feet_histories import SQUEEZES, squeezed
from tests.bench.sensing_feet import SensingFoot

DAY = date(2024, 3, 1)
ANSCOMBE_X = (10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5)
ANSCOMBE_Y = (8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68)
"""First data set of Anscombe (1973), "Graphs in Statistical Analysis": its line is 3.00 + 0.500 x,
as published."""


def a_day_for_six(asked: Sequence[float], pressed: Sequence[float]) -> list[Squeeze]:
    """Squeezes in order, six a day."""
    return [
        Squeeze(DAY + timedelta(days=number // 6), weight, brake)
        for number, (weight, brake) in enumerate(zip(asked, pressed, strict=True))
    ]


def drawn(rng: np.random.Generator, gain: float, offset: float, of_days: float) -> list[Squeeze]:
    """Thirty squeezes on five days of a foot with a known sense of pressure."""
    asked = rng.integers(35, 75, 30, endpoint=True).astype(float)
    days = np.repeat(rng.normal(0, of_days, 5), 6)
    pressed = offset + (gain + rng.normal(0, 0.08, 30) + days) * asked
    return a_day_for_six(asked.tolist(), pressed.tolist())


def test_gain_and_offset_are_those_of_scipy_once_each_squeeze_is_divided_by_its_weight() -> None:
    squeezes = drawn(np.random.default_rng(4), 0.85, 6.0, 0.03)
    asked = np.array([one.asked for one in squeezes])
    pressed = np.array([one.pressed for one in squeezes])

    sense = sense_of(squeezes)
    line = stats.linregress(1 / asked, pressed / asked)

    assert sense is not None
    assert sense.gain is not None
    assert sense.offset is not None
    assert sense.gain.value == pytest.approx(line.intercept, rel=1e-9)
    assert sense.offset.value == pytest.approx(line.slope, rel=1e-9)
    for one in sense.errors:
        error = line.slope + (line.intercept - 1) * one.weight
        assert one.error.value == pytest.approx(error, abs=1e-9)


def test_a_published_line_is_found_as_gain_and_offset() -> None:
    asked = [300.0 / x for x in ANSCOMBE_X] * 3
    pressed = [weight * y / 10 for weight, y in zip(asked, ANSCOMBE_Y * 3, strict=True)]

    sense = sense_of(a_day_for_six(asked, pressed))

    assert sense is not None
    assert sense.gain is not None
    assert sense.offset is not None
    assert 10 * sense.gain.value == pytest.approx(3.00, abs=0.005)
    assert 10 * sense.offset.value / 300 == pytest.approx(0.500, abs=0.0005)


def test_where_one_weight_alone_was_asked_its_error_is_the_mean_and_no_gain_is_told() -> None:
    rng = np.random.default_rng(6)
    pressed = rng.normal(54, 4, 30).tolist()

    sense = sense_of(a_day_for_six([60.0] * 30, pressed))

    assert sense is not None
    assert sense.gain is None
    assert [one.weight for one in sense.errors] == [60.0]
    assert sense.errors[0].error.value == pytest.approx(float(np.mean(pressed)) - 60)


@pytest.mark.parametrize("of_days", [0.0, 0.03])
def test_intervals_of_gain_and_error_hold_the_truth_in_nineteen_of_twenty(of_days: float) -> None:
    rng = np.random.default_rng(11)
    gains, errors, feet = 0, 0, 400

    for _ in range(feet):
        sense = sense_of(drawn(rng, 0.9, 4.0, of_days))
        assert sense is not None
        assert sense.gain is not None
        gains += sense.gain.low <= 0.9 <= sense.gain.high
        middle = sense.errors[len(sense.errors) // 2]
        true = 4.0 - 0.1 * middle.weight
        errors += middle.error.low <= true <= middle.error.high

    # A share of 0.95 of 400 has a standard deviation of 4.4: three of them below 380.
    assert gains >= 366
    assert errors >= 366


def test_a_foot_of_known_sense_is_measured_through_the_history(tmp_path: Path) -> None:
    foot = SensingFoot(21, offset=6.0, gain=0.85, noise=0.0)

    with open_history(tmp_path, []) as history:
        entered = list(squeezed(foot, history, SQUEEZES[-1], 30))
        sense = sense_now(history)

    assert len(entered) == 30
    assert sense is not None
    assert sense.gain is not None
    assert sense.offset is not None
    assert sense.gain.value == pytest.approx(0.85, abs=0.03)
    assert sense.offset.value == pytest.approx(6.0, abs=1.5)
    assert sense.fault is not None
    assert sense.fault.error.value == pytest.approx(6 - 0.15 * sense.fault.weight, abs=0.6)


def test_the_size_of_blips_is_the_plain_mean_and_spread_of_their_peaks() -> None:
    peaks = np.random.default_rng(9).normal(48, 11, 40).tolist()
    blips = [SizedBlip(DAY + timedelta(days=n // 6), peak) for n, peak in enumerate(peaks)]

    made = size_made(blips, 60.0)

    assert made is not None
    assert made.mean == pytest.approx(float(np.mean(peaks)), abs=1e-9)
    assert made.spread == pytest.approx(float(np.std(peaks, ddof=1)), rel=0.02)
    assert made.is_small
    assert not made.is_big
    error = float(np.std(peaks, ddof=1)) / np.sqrt(40)
    assert made.high - made.low >= 2 * stats.t.ppf(0.975, 39) * error * 0.8
