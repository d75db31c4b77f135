"""Traces in the history file: small, with the grid that was measured and the counts behind it."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from drills.calibration import COUNTS, Calibration, Range
from drills.counts import Counts
from drills.kinds import KINDS
from drills.task import Performance
from drills.trace import SECOND, STEP, Grid, Trace
from engine.store import History, open_history
from engine.store.history import FILE
from engine.store.repetitions import add_repetition, measures_of
from engine.store.traces import LONGEST, calibration_of, trace_of
from tests.made import BLIP, BLIP_TASK, SCALE, on_grid, record, trace

NO_CLUTCH = replace(SCALE, clutch=None)


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """A new history."""
    with open_history(tmp_path, []) as new:
        yield new


def marks(folder: Path) -> list[bytes]:
    """The first bytes of each packed trace."""
    with closing(sqlite3.connect(folder / FILE)) as other:
        return [row[0] for row in other.execute("SELECT substr(packed, 1, 4) FROM trace")]


@pytest.mark.parametrize("clutch", [False, True])
def test_a_trace_comes_back_with_the_same_grid(
    history: History, tmp_path: Path, clutch: bool
) -> None:
    kept = trace(clutch=clutch)

    number = add_repetition(history, record(trace=kept))

    back = trace_of(history, number)
    assert back is not None
    assert replace(back, clutch=None, counts=None) == on_grid(kept)
    assert (back.clutch is not None) == clutch
    if clutch:
        assert kept.clutch is not None
        assert back.clutch is not None
        newest = np.searchsorted(kept.time, back.time, side="right") - 1
        assert np.array_equal(back.clutch, kept.clutch[newest])
    assert marks(tmp_path) == [b"SFC1"]


def shifts(of: Trace) -> Trace:
    """The same trace with a shift button that is pressed some times."""
    return replace(of, shift=(np.arange(of.time.size) % 50 < 6).astype(np.float64))


@pytest.mark.parametrize("clutch", [False, True])
@pytest.mark.parametrize("counted", [False, True])
def test_the_shift_button_comes_back_with_the_grid_and_its_times(
    history: History, clutch: bool, counted: bool
) -> None:
    kept = shifts(trace(clutch=clutch))
    kept = kept if counted else replace(kept, counts=None)

    back = trace_of(history, add_repetition(history, record(trace=kept)))

    assert back is not None
    wanted, found = Grid.of(kept).shift, Grid.of(back).shift
    assert wanted is not None
    assert found is not None
    assert 5 < np.count_nonzero(np.diff(wanted) > 0) < 10
    assert np.array_equal(found, wanted)


USUAL = trace(clutch=True)
LONG = Trace(
    np.array([0, (LONGEST + 1) * STEP], dtype=np.int64),
    USUAL.brake[:2],
    USUAL.throttle[:2],
    counts=np.eye(2, dtype=np.int64),
)
NOT_A_NUMBER = replace(USUAL, brake=np.full(400, np.nan), counts=None)


@pytest.mark.parametrize(
    "odd", [replace(USUAL, counts=None), NOT_A_NUMBER, LONG], ids=["uncounted", "nan", "hours"]
)
def test_a_trace_that_knows_no_counts_or_is_too_long_is_kept_as_it_is(
    history: History, tmp_path: Path, odd: Trace
) -> None:
    number = add_repetition(history, record(trace=odd))

    back, wanted = trace_of(history, number), odd.changes()
    assert back is not None
    assert np.array_equal(back.time, wanted.time)
    assert np.array_equal(back.brake, wanted.brake, equal_nan=True)
    assert np.array_equal(back.throttle, wanted.throttle)
    assert back.counts is None
    assert marks(tmp_path) == [b"SFT1"]


@pytest.mark.parametrize("scale", [None, NO_CLUTCH])
def test_a_trace_without_its_calibration_is_kept_as_it_is(
    history: History, scale: Calibration | None
) -> None:
    number = add_repetition(history, record(trace=USUAL, calibration=scale))

    back = trace_of(history, number)
    assert back == USUAL.changes()
    assert back.counts is None
    assert calibration_of(history, number) == scale


def test_the_longest_trace_is_kept_as_counts(history: History) -> None:
    longest = replace(LONG, time=np.array([0, LONGEST * STEP], dtype=np.int64))

    number = add_repetition(history, record(trace=longest))

    back = trace_of(history, number)
    assert back is not None
    assert back.counts is not None
    assert back.counts[:, 0].tolist() == [1, 0]
    assert back.counts[:, -1].tolist() == [0, 1]
    assert back.time.size == LONGEST + 1


def test_a_calibration_is_kept_once(history: History, tmp_path: Path) -> None:
    numbers = [
        add_repetition(history, record(calibration=one)) for one in (SCALE, NO_CLUTCH, SCALE)
    ]

    with closing(sqlite3.connect(tmp_path / FILE)) as other:
        kept = other.execute("SELECT id, ends FROM calibration ORDER BY id").fetchall()
    assert kept == [
        (1, "[[-0.96875, 0.9], [0.96875, -0.75], [0.01, 0.99]]"),
        (2, "[[-0.96875, 0.9], [0.96875, -0.75]]"),
    ]
    assert [calibration_of(history, number) for number in numbers] == [SCALE, NO_CLUTCH, SCALE]


def blip(scale: Calibration) -> Performance:
    """A blip that pulls the brake along, on whole counts of a device that is never quite still."""
    rng = np.random.default_rng(2)
    time = np.arange(0, 5 * SECOND, STEP, dtype=np.int64)
    since = time / SECOND - 2.6
    pulse = np.where((since > 0) & (since < 0.25), 70 * np.sin(np.pi * since / 0.25), 0)
    percents = 60 - 0.2 * np.roll(pulse, 30), pulse
    counts = [
        np.array([round(one.raw(value) * COUNTS) for value in percent.tolist()], dtype=np.int64)
        + rng.integers(-2, 3, time.size)
        for percent, one in zip(percents, (scale.brake, scale.throttle), strict=True)
    ]
    return Performance(scale.trace(Counts(0, *counts)), 800_000_000, (2_300_000_000,))


def measured(done: Performance) -> dict[str, float | None]:
    """The measures of a blip."""
    return dict(KINDS["blip"].judge(BLIP, BLIP_TASK, done).verdict.measures)


def test_every_measure_comes_out_the_same_to_the_bit(history: History) -> None:
    done = blip(SCALE)
    verdict = KINDS["blip"].judge(BLIP, BLIP_TASK, done).verdict

    number = add_repetition(history, record(trace=done.trace, verdict=verdict))

    back = trace_of(history, number)
    assert back is not None
    assert measured(replace(done, trace=back)) == dict(verdict.measures)
    assert measures_of(history, number) == dict(verdict.measures)
    assert back.counts is not None
    assert verdict.measures["dip"] is not None


def test_a_repetition_can_be_remeasured_under_another_calibration(history: History) -> None:
    half = Calibration(Range(-0.96875, 2 * 0.9 + 0.96875), SCALE.throttle)
    done = blip(SCALE)
    number = add_repetition(history, record(trace=done.trace))

    back = trace_of(history, number)

    assert back is not None
    counts = Counts.of(back)
    assert counts is not None
    assert calibration_of(history, number) == SCALE
    before, after = measured(done), measured(replace(done, trace=half.trace(counts)))
    assert before["dip"] is not None
    assert after["dip"] == pytest.approx(before["dip"] / 2)
    assert after["peak"] == before["peak"]
