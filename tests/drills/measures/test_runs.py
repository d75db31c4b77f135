"""A recording with long silences measures as the whole of its grid does, in little memory."""

import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drills.measures.blip import Pulse, find_braked_blips
from drills.measures.chord import ChordRun, Unscorable
from drills.measures.distance import Stop
from drills.measures.disturbance import Run
from drills.measures.runs import (
    NotScored,
    chord_runs,
    held_runs,
    measure_held,
    measure_recording,
    throttle_floor,
)
from drills.pieces import LONG_SILENCE, part, pieces, points
from drills.trace import SECOND, STEP, Grid, Trace
from tests.drills.shapes import half_sine, seconds, trace_of
from tests.needs import peak_memory

ROOT = Path(__file__).resolve().parents[3]
THROTTLES = (0.0, 0.0, 3.0, 4.9, 5.0, 7.0, 9.9, 10.0, 40.0, 80.0)
BRAKES = (0.0, 4.0, 20.0, 55.0, 58.5, 60.0, 60.0, 71.25)


@st.composite
def recordings(draw: st.DrawFn) -> Trace:
    """Steps of brake and throttle up to 0.7 s apart, with silences and blips beside them."""
    steps = draw(st.lists(st.integers(STEP, 700 * STEP), min_size=8, max_size=60))
    count = len(steps)
    throttle = draw(st.lists(st.sampled_from(THROTTLES), min_size=count, max_size=count))
    brake = draw(st.lists(st.sampled_from(BRAKES), min_size=count, max_size=count))
    for place in draw(st.lists(st.integers(4, count - 3), max_size=4)):
        steps[place] += draw(st.integers(8 * SECOND, 40 * SECOND))
        if draw(st.booleans()):
            throttle[place - 2 : place + 2] = [80.0, 0.0, 80.0, 0.0]
            steps[place - 1] = steps[place + 1] = 200 * STEP
    start = draw(st.integers(-(10**12), 10**12))
    return Trace(start + np.cumsum(steps, dtype=np.int64), np.array(brake), np.array(throttle))


def on_the_whole(trace: Trace, floor: float | None = None) -> list[Run | NotScored]:
    """Every run, measured on the whole grid at once."""
    grid = Grid.of(trace)
    known = throttle_floor(trace) if floor is None else floor
    return held_runs(grid, find_braked_blips(grid, known))


def chords_on_the_whole(trace: Trace) -> list[ChordRun | Unscorable]:
    """The same, each blip against its chord."""
    grid = Grid.of(trace)
    return chord_runs(grid, find_braked_blips(grid, throttle_floor(trace)), Stop())


def timed(run: Run | NotScored) -> list[Pulse]:
    """The pulses of a run."""
    return list(run.blips) if isinstance(run, NotScored) else [blip for blip, _ in run.blips]


def reaches_over(trace: Trace, run: Run | NotScored) -> bool:
    """Whether a pulse of a run is still open when a long silence ends."""
    ends = trace.time[1:][np.diff(trace.time) > LONG_SILENCE] / SECOND
    return any(blip.onset < end <= blip.end for blip in timed(run) for end in ends)


@settings(max_examples=150)
@given(recordings())
def test_every_run_is_the_one_of_the_whole_to_the_last_bit(trace: Trace) -> None:
    whole = on_the_whole(trace)

    runs, chords = measure_held(trace), measure_recording(trace)

    assert len(runs) == len(whole)
    for run, expected in zip(runs, whole, strict=True):
        assert run == expected or reaches_over(trace, expected)
    if not any(reaches_over(trace, expected) for expected in whole):
        assert chords == chords_on_the_whole(trace)


@given(recordings())
def test_the_floor_is_the_fifth_percentile_of_throttle_while_braked(trace: Trace) -> None:
    grid = Grid.of(trace)
    braked = grid.throttle[grid.brake >= 10]

    floor = throttle_floor(trace)

    assert floor == pytest.approx(np.percentile(braked, 5) if braked.size else 0.0, abs=1e-12)


def blips_apart(silence: float, held: float = 0.0) -> Trace:
    """Two recordings of 3 s, a blip at 1 s in each, `silence` s apart; throttle held between."""
    time = seconds(3)
    one = trace_of(60 - 10 * half_sine(0.2)(time - 1), 80 * half_sine(0.25)(time - 1))
    before = np.where(time > 1.2, np.maximum(one.throttle, held), one.throttle)
    after = np.where(time < 1.1, np.maximum(one.throttle, held), one.throttle)
    later = one.time + round((3 + silence) * SECOND)
    return Trace(np.append(one.time, later), np.tile(one.brake, 2), np.append(before, after))


@pytest.mark.parametrize("silence", [9.0, 10.5, 60.0])
def test_a_blip_on_either_side_of_a_silence_is_found(silence: float) -> None:
    trace = blips_apart(silence)

    runs = measure_held(trace)

    assert runs == on_the_whole(trace)
    assert len(runs) == 2


def test_a_throttle_kept_over_5_percent_in_a_silence_is_one_long_press_and_no_blip() -> None:
    trace = blips_apart(60.0, held=7.0)

    runs = measure_held(trace, floor=0.0)

    assert runs == on_the_whole(trace, floor=0.0) == []


def test_a_throttle_that_rests_high_is_counted_above_that() -> None:
    trace = blips_apart(60.0, held=7.0)

    runs = measure_held(trace)

    assert throttle_floor(trace) == 7.0
    assert len(runs) == 2


def test_a_blip_right_after_a_silence_is_measured_on_the_brake_held_before_it() -> None:
    time = seconds(2)
    pulse = trace_of(np.full(2000, 52.0), 80 * half_sine(0.25)(time))
    trace = Trace(
        np.append(0, pulse.time + 3600 * SECOND),
        np.append(60.0, pulse.brake),
        np.append(0.0, pulse.throttle),
    )

    [run] = measure_held(trace)

    assert isinstance(run, Run)
    assert (run.base, run.dip) == (60.0, 8.0)
    assert timed(run)[0].onset == pytest.approx(3600.008)


def test_a_pulse_still_open_in_a_silence_ends_five_seconds_into_it() -> None:
    # 4 % of throttle ends a candidate, and is over 10 % of a pulse of 20 %.
    levels = [0.0] * 1000 + [20.0] * 100 + [4.0, 4.0, 0.0]
    at = STEP * np.append(np.arange(1102, dtype=np.int64), [1102 + 60_000, 1103 + 60_000])
    trace = Trace(at[: len(levels)], np.full(len(levels), 60.0), np.array(levels))

    [run] = measure_held(trace)

    assert timed(run)[0].end == pytest.approx(6.101)


@given(recordings(), st.data())
def test_a_part_is_that_part_of_the_whole_grid(trace: Trace, data: st.DataObject) -> None:
    whole = Grid.of(trace)
    start = data.draw(st.integers(0, len(whole) - 1))
    stop = data.draw(st.integers(start + 1, len(whole)))

    found = part(trace, start, stop)

    assert points(trace) == len(whole)
    assert found.start == whole.start + start * STEP
    assert np.array_equal(found.brake, whole.brake[start:stop])
    assert np.array_equal(found.throttle, whole.throttle[start:stop])


@given(recordings())
def test_pieces_hold_every_sample_and_no_silence_beyond_five_seconds(trace: Trace) -> None:
    found = list(pieces(trace))

    stretches = [(start, start + len(grid)) for start, grid in found]
    at = -((trace.time[0] - trace.time) // STEP)
    seen = at[at < points(trace)]
    assert stretches == sorted(stretches)
    assert all(any(start <= k < stop for start, stop in stretches) for k in seen.tolist())
    assert sum(stop - start for start, stop in stretches) <= 11_000 * trace.time.size


MEASURE = """
import sys
import numpy as np
from drills.measures.runs import measure_recording
from drills.trace import SECOND, Trace
from tests.peak_memory import peak

hours = np.linspace(0, 24 * 3600 * SECOND, int(sys.argv[1])).astype(np.int64)
measure_recording(Trace(hours, np.full(hours.size, 60.0), np.zeros(hours.size)))
print(peak())
"""


@peak_memory
@pytest.mark.parametrize("rows", [2, 8000])
def test_a_day_with_few_rows_takes_little_memory(rows: int) -> None:
    done = subprocess.run(
        [sys.executable, "-c", MEASURE, str(rows)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )

    assert int(done.stdout) < 100
