"""The measures against the same page of definitions written a second time, on many traces."""

from dataclasses import asdict, fields

import numpy as np
import pytest

from drills.measures.base import base_at_cue, base_before_beat
from drills.measures.blip import Pulse, find_blips
from drills.measures.chord import OF_A_CHORD, ChordDisturbance, ChordRun
from drills.measures.disturbance import Run, measure_run
from drills.measures.hold import measure_hold
from drills.measures.runs import measure_held, measure_recording
from drills.trace import STEP, Grid, Trace
from tests.drills.measures import plain, plain_chord, plain_held
from tests.drills.measures.cases import cases
from tests.drills.measures.early_cases import early_cases

CASES = [pytest.param(samples, id=name) for name, samples in (*cases(), *early_cases())]
TOLERANCE = 1e-9


def trace_of(samples: plain.Samples) -> Trace:
    """The trace of a case."""
    time, brake, throttle = zip(*samples, strict=True)
    return Trace(np.array(time, dtype=np.int64), np.array(brake), np.array(throttle))


def same_blip(blip: Pulse, expected: plain.Measures, start: float) -> bool:
    """Whether a pulse has the timing expected of it."""
    values = {**asdict(blip), "onset": blip.onset - start, "end": blip.end - start}
    wanted = {
        **expected,
        "first": expected["onset"],
        "after": expected["end"],
        "onset": expected["onset"] / 1000,
        "end": expected["end"] / 1000,
    }
    return values == pytest.approx({name: wanted[name] for name in values}, abs=TOLERANCE)


def same_disturbance(values: plain.Measures, expected: plain.Measures) -> bool:
    """Whether a disturbance is the one expected, with one of the best lags."""
    gain, lag = values.pop("coupling"), values.pop("lag")
    couplings = expected["couplings"]
    if couplings:
        coupled = gain == pytest.approx(couplings.get(lag), abs=TOLERANCE)
    else:
        coupled = (gain, lag) == (None, None)
    wanted = {name: expected[name] for name in values}
    return coupled and values == pytest.approx(wanted, abs=TOLERANCE)


def same_run(run: Run, want: plain.Measures, grid: Grid) -> bool:
    """Whether a run is the one expected, with each of its blips."""
    of_run = {field.name: getattr(run, field.name) for field in fields(run)}
    parts = of_run.pop("blips")
    expected = {name: want[name] for name in of_run}
    expected |= {name: grid.seconds(want[name]) for name in ("start", "stop")}
    return (
        of_run == pytest.approx(expected, abs=TOLERANCE)
        and len(parts) == len(want["blips"])
        and all(
            same_blip(blip, part, grid.seconds(0)) and same_disturbance(asdict(done), part)
            for (blip, done), part in zip(parts, want["blips"], strict=True)
        )
    )


@pytest.mark.parametrize("samples", CASES)
def test_every_run_measures_what_the_plain_version_does(samples: plain.Samples) -> None:
    trace = trace_of(samples)
    grid = Grid.of(trace)
    brake, throttle = plain.grid(samples)
    expected = plain_held.recording(brake, throttle)

    runs = measure_held(trace)

    assert grid.brake.tolist() == brake
    assert grid.throttle.tolist() == throttle
    assert [isinstance(run, Run) for run in runs] == [want is not None for want in expected]
    for run, want in zip(runs, expected, strict=True):
        if not isinstance(run, Run) or want is None:
            continue
        assert same_run(run, want, grid)


@pytest.mark.parametrize("samples", CASES)
def test_every_blip_measures_against_its_chord_what_the_plain_version_does(
    samples: plain.Samples,
) -> None:
    trace = trace_of(samples)
    grid = Grid.of(trace)
    expected = plain_chord.recording(*plain.grid(samples))

    runs = measure_recording(trace)

    assert [len(run.blips) for run in runs] == [len(want) for want in expected]
    for run, want in zip(runs, expected, strict=True):
        scored = [part for part in want if "dip" in part]
        assert isinstance(run, ChordRun) == bool(scored)
        for (blip, done), part in zip(run.blips, want, strict=True):
            assert same_blip(blip, part, grid.seconds(0))
            assert isinstance(done, ChordDisturbance) == ("dip" in part)
            if isinstance(done, ChordDisturbance):
                values = {name: getattr(done, name) for name in OF_A_CHORD}
                assert same_disturbance(values, part)
        if isinstance(run, ChordRun):
            dips = [part["dip"] for part in scored]
            metres = sum(part["extra_distance"] for part in scored)
            assert run.dip == pytest.approx(max(dips))
            assert run.mean_dip == pytest.approx(plain.mean(dips))
            assert run.extra_distance == pytest.approx(metres, abs=TOLERANCE)


@pytest.mark.parametrize("samples", CASES[::3])
@pytest.mark.parametrize(
    ("ahead", "begins", "ends"), [(250, -400, 100), (1000, -400, 100), (-60, -900, -400)]
)
def test_blips_that_were_asked_for_measure_what_the_plain_version_does(
    samples: plain.Samples, ahead: int, begins: int, ends: int
) -> None:
    trace = trace_of(samples)
    grid = Grid.of(trace)
    brake, throttle = plain.grid(samples)
    run = plain.pressed(throttle, 0.0)
    assert [(blip.start, blip.stop) for blip in find_blips(grid)] == run
    if not run:
        return
    shaped = plain.pulses(throttle, run)
    asked = (run[0][0] if shaped is None else shaped[0]["onset"]) - ahead
    expected = plain_held.run_of(
        brake, throttle, run, base_over=(asked + begins, asked + ends), band=4.0
    )

    windows = base_at_cue if ends > 0 else base_before_beat
    base = windows(grid, grid.start + asked * STEP)
    found = measure_run(grid, find_blips(grid), 4.0, base=base)

    assert isinstance(found, Run) == (expected is not None)
    assert not isinstance(found, Run) or expected is None or same_run(found, expected, grid)


def test_the_cases_hold_runs_of_one_and_of_several_and_runs_that_are_not_scored() -> None:
    runs = [
        run
        for _, samples in cases()
        for run in plain_held.recording(*plain.grid(samples), band=5.0)
    ]

    lengths = [0 if run is None else len(run["blips"]) for run in runs]
    assert min(lengths.count(length) for length in (0, 1, 2, 3)) >= 2


def test_the_cases_hold_blips_that_are_early_that_are_not_and_that_cannot_tell() -> None:
    parts = [
        part
        for _, samples in early_cases()
        for run in plain_chord.recording(*plain.grid(samples))
        for part in run
        if "dip" in part
    ]

    early = [part["early"] for part in parts]
    assert sum(one is not None and one > 5 for one in early) >= 5
    assert sum(one is not None and one <= 5 for one in early) >= 2
    assert early.count(None) >= 3


@pytest.mark.parametrize("samples", CASES[::8])
@pytest.mark.parametrize("length", [400, 999, 1000, 1237])
def test_a_hold_measures_what_the_plain_version_does(samples: plain.Samples, length: int) -> None:
    grid = Grid.of(trace_of(samples))
    brake, _ = plain.grid(samples)

    hold = measure_hold(grid.brake[100 : 100 + length], 60, 4)

    expected = plain.hold(brake[100 : 100 + length], 60, 4)
    assert asdict(hold) == pytest.approx(expected, abs=TOLERANCE)
