"""Blips at a tempo, against exact intervals, numpy, and the page written a second time."""

import math
import random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.measures.blip import find_blips, measure_blip
from drills.measures.tempo import farthest, lateness, spacing_error
from drills.trace import SECOND, STEP, Grid, Trace
from tests.drills.measures import plain_ladder
from tests.drills.shapes import Values, half_sine, seconds, trace_of

ONSETS = st.lists(st.integers(0, 20_000), min_size=2, max_size=6, unique=True).map(sorted)
"""ms"""
TEMPO = st.integers(500, 1200)
"""ms"""


def stabs(at: list[float], length: float = 6.0) -> Values:
    """Throttle of equal half sines that begin at some times in s."""
    return sum(
        (80 * half_sine(0.2)(seconds(length) - t) for t in at), np.zeros(len(seconds(length)))
    )


def onsets_of(trace: Trace) -> list[float]:
    """The onsets in s of every blip of a trace whose throttle rests at 0."""
    grid = Grid.of(trace)
    return [measure_blip(grid, blip, 0.0).onset for blip in find_blips(grid)]


@pytest.mark.parametrize(
    ("onsets", "tempo", "error"),
    [
        pytest.param([0.0, 0.8, 1.6], 0.8, 0.0, id="on the beat"),
        pytest.param([0.0, 0.9], 0.8, 0.1, id="one interval a tenth long"),
        pytest.param([0.0, 0.7], 0.8, 0.1, id="one interval a tenth short"),
        # sqrt((0.03^2 + 0.04^2) / 2), by hand.
        pytest.param([0.0, 0.83, 1.59], 0.8, 0.05 / math.sqrt(2), id="0.03 long, 0.04 short"),
        # sqrt((0.01^2 + 0.02^2 + 0.02^2) / 3) = sqrt(0.0009 / 3), by hand.
        pytest.param([5.0, 5.51, 6.03, 6.51], 0.5, 0.03 / math.sqrt(3), id="four blips"),
        pytest.param([0.0, 1.0, 2.0, 3.0], 1.2, 0.2, id="even, but at another tempo"),
    ],
)
def test_the_spacing_error_is_the_root_mean_square_worked_by_hand(
    onsets: list[float], tempo: float, error: float
) -> None:
    assert spacing_error(onsets, tempo) == pytest.approx(error, abs=1e-12)


@pytest.mark.parametrize("onsets", [[], [1.5]])
def test_fewer_than_two_blips_have_no_spacing(onsets: list[float]) -> None:
    assert spacing_error(onsets, 0.8) is None


@given(ONSETS)
def test_about_their_own_mean_interval_the_error_is_the_standard_deviation(
    onsets: list[int],
) -> None:
    # numpy.std, a population one.
    times = [onset / 1000 for onset in onsets]
    gaps = np.diff(times)

    error = spacing_error(times, float(gaps.mean()))

    assert error == pytest.approx(float(gaps.std()), abs=1e-9)


@given(ONSETS, TEMPO, st.integers(-100_000, 100_000))
def test_a_shift_in_time_changes_neither_spacing_nor_lateness(
    onsets: list[int], tempo: int, shift: int
) -> None:
    here = [onset / 1000 for onset in onsets]
    there = [(onset + shift) / 1000 for onset in onsets]
    cues = [k * tempo / 1000 for k in range(len(onsets))]
    later = [(k * tempo + shift) / 1000 for k in range(len(onsets))]

    assert spacing_error(there, tempo / 1000) == pytest.approx(
        spacing_error(here, tempo / 1000), abs=1e-9
    )
    assert lateness(there, later) == pytest.approx(lateness(here, cues), abs=1e-9)


@given(TEMPO, st.integers(-300, 300), st.integers(2, 4))
def test_a_run_that_is_late_by_the_same_everywhere_keeps_its_tempo(
    tempo: int, late: int, blips: int
) -> None:
    cues = [2 + k * tempo / 1000 for k in range(blips)]
    onsets = [cue + late / 1000 for cue in cues]

    assert spacing_error(onsets, tempo / 1000) == pytest.approx(0, abs=1e-9)
    assert lateness(onsets, cues) == pytest.approx([late / 1000] * blips, abs=1e-9)


@pytest.mark.parametrize("seed", range(20))
def test_any_run_measures_what_the_plain_version_does(seed: int) -> None:
    rng = random.Random(seed)
    tempo = rng.uniform(0.5, 1.2)
    cues = [rng.uniform(1, 9) + k * tempo for k in range(rng.randint(1, 4))]
    onsets = [cue + rng.gauss(0.15, 0.1) for cue in cues]

    error, late = spacing_error(onsets, tempo), lateness(onsets, cues)

    assert error == pytest.approx(plain_ladder.spacing_error(onsets, tempo), abs=1e-12)
    assert list(late) == plain_ladder.lateness(onsets, cues)


def test_pulses_made_at_known_times_have_their_spacing_error_within_a_grid_step() -> None:
    made = [1.0, 1.83, 2.59]

    onsets = onsets_of(trace_of(np.full(6000, 60.0), stabs(made)))

    assert spacing_error(onsets, 0.8) == pytest.approx(0.05 / math.sqrt(2), abs=0.001)


@given(st.integers(-5, 10**9), st.integers(1, 999_999))
def test_samples_that_repeat_the_one_before_change_no_spacing(shift: int, part: int) -> None:
    trace = trace_of(np.full(6000, 60.0), stabs([1.0, 1.83, 2.59]))
    split = Trace(
        np.sort(np.concatenate([trace.time, trace.time[:-1] + part])) + shift,
        np.repeat(trace.brake, 2)[:-1],
        np.repeat(trace.throttle, 2)[:-1],
    )

    assert spacing_error(onsets_of(split), 0.8) == pytest.approx(
        spacing_error(onsets_of(trace), 0.8), abs=1e-9
    )


def test_a_blip_before_its_cue_is_late_by_less_than_nothing() -> None:
    assert lateness([1.95, 2.9], [2.0, 2.8]) == pytest.approx((-0.05, 0.1))


@given(st.integers(0, 10**12), st.integers(-300, 300), TEMPO)
def test_a_blip_on_a_limit_is_not_over_it(start: int, late: int, tempo: int) -> None:
    # A cue may come at any ns: two binary fractions differ by a little more or less than this.
    cues = [start / SECOND, (start + tempo * STEP) / SECOND]
    onsets = [cues[0], (start + (tempo + late) * STEP) / SECOND]

    assert lateness(onsets, cues) == (0.0, late / 1000)
    assert spacing_error(onsets, tempo / 1000) == abs(late) / 1000


def test_lateness_asks_for_a_blip_to_each_cue() -> None:
    with pytest.raises(ValueError, match=r"^expected a blip to each of 3 cues, found 2$"):
        lateness([1.0, 1.8], [1.0, 1.8, 2.6])


@pytest.mark.parametrize(
    ("values", "found"),
    [
        pytest.param([0.1, -0.3, 0.2], -0.3, id="with its sign"),
        pytest.param([0.1, 0.3, -0.2], 0.3, id="above"),
        pytest.param([-0.2, 0.2], -0.2, id="of two as far the first"),
        pytest.param([], 0.0, id="of none"),
    ],
)
def test_the_farthest_is_the_largest_by_size(values: list[float], found: float) -> None:
    assert farthest(values) == found
