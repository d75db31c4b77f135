"""Traces in the file: small, with the very grid that was measured, and to be measured anew."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.calibration import COUNTS, Calibration, Range
from drills.kinds import KINDS
from drills.kinds.base import Performance
from drills.trace import SECOND, STEP, Trace, Values
from engine.store import History
from engine.store.history import FILE
from engine.store.raw import LONGEST, RawTrace, raw_of
from tests.made import BLIP, BLIP_TASK, SCALE, on_grid, record, trace

NO_CLUTCH = replace(SCALE, clutch=None)


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """A new history."""
    with History(tmp_path) as new:
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

    number = history.add(record(trace=kept))

    back = history.trace(number)
    assert back is not None
    assert replace(back, clutch=None) == on_grid(kept)
    assert (back.clutch is not None) == clutch
    if clutch:
        assert kept.clutch is not None
        newest = np.searchsorted(kept.time, back.time, side="right") - 1
        assert np.array_equal(back.clutch, kept.clutch[newest])
    assert marks(tmp_path) == [b"SFC1"]


def nudged(column: Values) -> Values:
    """A column with some values off every count."""
    return np.concatenate([column[:100] + 1e-9, column[100:]])


USUAL = trace(clutch=True)
LONG = Trace(np.array([0, (LONGEST + 1) * STEP]), USUAL.brake[:2], USUAL.throttle[:2])
ODD = {
    "brake": replace(USUAL, brake=nudged(USUAL.brake)),
    "throttle": replace(USUAL, throttle=nudged(USUAL.throttle)),
    "clutch": replace(USUAL, clutch=nudged(USUAL.brake)),
    "not a number": replace(USUAL, brake=np.full(400, np.nan)),
    "beyond an axis": replace(USUAL, brake=np.full(400, SCALE.brake.percent(1.5))),
    "hours": LONG,
}


@pytest.mark.parametrize("name", ODD)
def test_a_trace_on_no_counts_or_too_long_is_kept_as_it_is(
    history: History, tmp_path: Path, name: str
) -> None:
    number = history.add(record(trace=ODD[name]))

    back, wanted = history.trace(number), ODD[name].changes()
    assert back is not None
    assert np.array_equal(back.time, wanted.time)
    assert np.array_equal(back.brake, wanted.brake, equal_nan=True)
    assert np.array_equal(back.throttle, wanted.throttle)
    assert history.raw_trace(number) is None
    assert marks(tmp_path) == [b"SFT1"]


@pytest.mark.parametrize("scale", [None, NO_CLUTCH])
def test_a_trace_without_its_calibration_is_kept_as_it_is(
    history: History, scale: Calibration | None
) -> None:
    number = history.add(record(trace=USUAL, calibration=scale))

    assert history.trace(number) == USUAL.changes()
    assert history.raw_trace(number) is None


def test_the_longest_trace_is_kept_as_counts(history: History) -> None:
    longest = replace(LONG, time=np.array([0, LONGEST * STEP]))

    number = history.add(record(trace=longest))

    raw = history.raw_trace(number)
    assert raw is not None
    assert raw.counts.brake.size == LONGEST + 1


def test_a_calibration_is_kept_once(history: History, tmp_path: Path) -> None:
    numbers = [history.add(record(calibration=one)) for one in (SCALE, NO_CLUTCH, SCALE)]

    with closing(sqlite3.connect(tmp_path / FILE)) as other:
        kept = other.execute("SELECT id, ends FROM calibration ORDER BY id").fetchall()
    raws = [history.raw_trace(number) for number in numbers]
    assert kept == [
        (1, "[[-0.96875, 0.9], [0.96875, -0.75], [0.01, 0.99]]"),
        (2, "[[-0.96875, 0.9], [0.96875, -0.75]]"),
    ]
    assert [raw and raw.calibration for raw in raws] == [SCALE, NO_CLUTCH, SCALE]


def blip(scale: Calibration) -> Performance:
    """A blip that pulls the brake along, on whole counts of a device that is never quite still."""
    rng = np.random.default_rng(2)
    time = np.arange(0, 5 * SECOND, STEP)
    since = time / SECOND - 2.6
    pulse = np.where((since > 0) & (since < 0.25), 70 * np.sin(np.pi * since / 0.25), 0)
    percents = 60 - 0.2 * np.roll(pulse, 30), pulse
    columns = []
    for percent, one in zip(percents, (scale.brake, scale.throttle), strict=True):
        counts = np.rint(one.raw(percent) * COUNTS) + rng.integers(-2, 3, time.size)
        columns.append(one.percent(counts / COUNTS))
    return Performance(Trace(time, *columns), began=800_000_000, cues=(2_300_000_000,))


def measured(done: Performance) -> dict[str, float | None]:
    """The measures of a blip."""
    return dict(KINDS["blip"].judge(BLIP, BLIP_TASK, done).measures)


def test_every_measure_comes_out_the_same_to_the_bit(history: History) -> None:
    done = blip(SCALE)
    verdict = KINDS["blip"].judge(BLIP, BLIP_TASK, done)

    number = history.add(record(trace=done.trace, verdict=verdict))

    back = history.trace(number)
    assert back is not None
    assert measured(replace(done, trace=back)) == dict(verdict.measures)
    assert history.measures(number) == dict(verdict.measures)
    assert history.raw_trace(number) is not None
    assert verdict.measures["dip"] is not None


def test_a_repetition_can_be_measured_anew_under_another_calibration(history: History) -> None:
    half = Calibration(Range(-0.96875, 2 * 0.9 + 0.96875), SCALE.throttle)
    done = blip(SCALE)
    number = history.add(record(trace=done.trace))

    raw = history.raw_trace(number)

    assert raw is not None
    assert raw.calibration == SCALE
    before, after = measured(done), measured(replace(done, trace=raw.under(half)))
    assert before["dip"] is not None
    assert after["dip"] == pytest.approx(before["dip"] / 2)
    assert after["peak"] == before["peak"]


@pytest.mark.parametrize("scale", [NO_CLUTCH, SCALE])
def test_a_clutch_is_there_only_where_both_counts_and_calibration_have_one(
    scale: Calibration,
) -> None:
    with_clutch, without = (raw_of(trace(clutch=one), SCALE) for one in (True, False))
    assert with_clutch is not None
    assert without is not None

    found = [RawTrace(counts, SCALE).under(scale).clutch for counts in (with_clutch, without)]

    assert [clutch is not None for clutch in found] == [scale is SCALE, False]


END = st.floats(-1, 1)


@given(
    ends=st.tuples(END, END).filter(lambda pair: abs(pair[0] - pair[1]) > 0.2),
    counts=st.lists(st.integers(-COUNTS, COUNTS), min_size=1, max_size=30),
    start=st.integers(-(10**12), 10**12),
)
def test_every_count_of_an_axis_is_had_back_under_any_calibration(
    ends: tuple[float, float], counts: list[int], start: int
) -> None:
    scale = Range(*ends)
    percent = np.array([scale.percent(count / COUNTS) for count in counts])
    time = start + STEP * np.arange(len(counts), dtype=np.int64)

    found = raw_of(Trace(time, percent, percent), Calibration(scale, scale))

    assert found is not None
    assert found.start == start
    assert found.brake.tolist() == counts
    assert found.throttle.tolist() == counts
