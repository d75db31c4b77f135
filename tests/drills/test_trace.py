"""The trace, its grid and its packed form."""

import struct
import zlib

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.trace import STEP, Grid, Trace, TraceError, nanoseconds

finite = st.floats(allow_nan=False, allow_infinity=False)


@st.composite
def traces(draw: st.DrawFn) -> Trace:
    """Any trace, with and without a clutch and a shift button."""
    steps = draw(st.lists(st.integers(1, 10**8), min_size=1, max_size=40))
    origin = draw(st.integers(-(10**15), 10**15))
    time = origin + np.cumsum(steps, dtype=np.int64)
    column = st.lists(finite, min_size=len(steps), max_size=len(steps)).map(np.array)
    state = st.lists(st.sampled_from([0.0, 1.0]), min_size=len(steps), max_size=len(steps))
    clutch, shift = draw(st.none() | column), draw(st.none() | state.map(np.array))
    return Trace(time, draw(column), draw(column), clutch, shift=shift)


@given(traces())
def test_pack_then_unpack_is_the_identity(trace: Trace) -> None:
    assert Trace.unpack(trace.pack()) == trace


@given(traces())
def test_samples_without_a_change_can_be_left_out(trace: Trace) -> None:
    whole, thin = Grid.of(trace), Grid.of(trace.changes())

    assert np.array_equal(whole.brake, thin.brake)
    assert np.array_equal(whole.throttle, thin.throttle)
    assert (whole.shift is None) == (thin.shift is None)
    if whole.shift is not None and thin.shift is not None:
        assert np.array_equal(whole.shift, thin.shift)


def test_a_grid_point_takes_the_newest_sample_at_or_before_it() -> None:
    time = np.array([0, 1_000_000, 1_999_999, 2_000_001, 4_000_000], dtype=np.int64)
    trace = Trace(time, np.array([1.0, 2, 3, 4, 5]), np.zeros(5))

    grid = Grid.of(trace)

    assert grid.brake.tolist() == [1, 2, 3, 4, 5]


@given(traces())
def test_the_grid_is_what_a_look_up_of_each_point_gives(trace: Trace) -> None:
    grid = Grid.of(trace)

    points = trace.time[0] + STEP * np.arange(len(grid), dtype=np.int64)
    newest = np.searchsorted(trace.time, points, side="right") - 1
    assert np.array_equal(grid.brake, trace.brake[newest])
    assert points[-1] <= trace.time[-1] < points[-1] + STEP


@pytest.mark.parametrize(
    ("time", "index"), [(-1, 0), (0, 0), (1, 1), (1_000_000, 1), (1_000_001, 2), (10**9, 3)]
)
def test_an_index_is_the_first_grid_point_at_or_after_a_time(time: int, index: int) -> None:
    grid = Grid.of(Trace(np.array([0, 2_000_000], dtype=np.int64), np.zeros(2), np.zeros(2)))

    assert grid.index(time) == index


@pytest.mark.parametrize(
    ("time", "brake", "said"),
    [
        ([], [], "a trace needs at least one sample, found none"),
        ([0, 1], [0.0], "every column of a trace must have the length of its time column"),
        ([0, 0], [0.0, 0.0], "the times of a trace must go strictly forward"),
        ([1, 0], [0.0, 0.0], "the times of a trace must go strictly forward"),
    ],
)
def test_a_trace_that_cannot_be_is_refused(time: list[int], brake: list[float], said: str) -> None:
    with pytest.raises(TraceError) as refused:
        Trace(np.array(time, dtype=np.int64), np.array(brake), np.zeros(len(time)))

    assert str(refused.value) == said


@pytest.mark.parametrize("kind", ["int32", "uint64", "float64"])
def test_times_that_are_no_whole_numbers_of_64_bits_are_refused(kind: str) -> None:
    with pytest.raises(TraceError) as refused:
        Trace(np.zeros(1, dtype=kind), np.zeros(1), np.zeros(1))

    assert str(refused.value) == (
        f"the times of a trace must be whole numbers of 64 bits, found {kind}"
    )


def packed(samples: int, body: bytes, mark: bytes = b"SFT1") -> bytes:
    """Bytes laid out as a packed trace without a clutch."""
    return struct.pack("<4sBI", mark, 0, samples) + zlib.compress(body)


@pytest.mark.parametrize(
    ("packed", "said"),
    [
        pytest.param(
            packed(1, bytes(24), mark=b"SFT2"),
            "a packed trace cannot be read: wrong mark or wrong length",
            id="another mark",
        ),
        pytest.param(
            packed(2, bytes(24)),
            "a packed trace cannot be read: wrong mark or wrong length",
            id="a column cut short",
        ),
        pytest.param(packed(0, b""), "a trace needs at least one sample, found none", id="empty"),
        pytest.param(
            packed(2, bytes(48)), "the times of a trace must go strictly forward", id="time stands"
        ),
        pytest.param(
            struct.pack("<4sBI", b"SFT1", 0, 1) + b"junk",
            "a packed trace cannot be read: "
            "Error -3 while decompressing data: incorrect header check",
            id="not compressed",
        ),
        pytest.param(
            b"",
            "a packed trace cannot be read: unpack_from requires a buffer of at least 9 bytes "
            "for unpacking 9 bytes at offset 0 (actual buffer size is 0)",
            id="nothing",
        ),
    ],
)
def test_bytes_that_are_no_packed_trace_are_refused(packed: bytes, said: str) -> None:
    with pytest.raises(TraceError) as refused:
        Trace.unpack(packed)

    assert str(refused.value) == said


@given(traces(), st.data())
def test_a_packed_trace_cut_short_anywhere_is_refused(trace: Trace, data: st.DataObject) -> None:
    whole = trace.pack()
    length = data.draw(st.integers(0, len(whole) - 1))

    with pytest.raises(TraceError):
        Trace.unpack(whole[:length])


def test_bytes_from_before_there_was_a_shift_button_are_still_read() -> None:
    steps, one = np.array([5, 2], dtype="<i8"), np.array([1.5, 2.5], dtype="<f8")
    planes = [steps, one, one + 1, one + 2]
    body = b"".join(column.view(np.uint8).reshape(-1, 8).T.tobytes() for column in planes)
    written = struct.pack("<4sBI", b"SFT1", 1, 2) + zlib.compress(body, 6)

    trace = Trace.unpack(written)

    assert trace == Trace(np.array([5, 7], dtype=np.int64), one, one + 1, one + 2)
    assert trace.pack() == written


def test_a_trace_with_a_shift_button_is_another_than_the_same_without() -> None:
    time, zeros = np.array([0, 1], dtype=np.int64), np.zeros(2)

    without, with_one = Trace(time, zeros, zeros), Trace(time, zeros, zeros, shift=zeros)

    assert without != with_one


def test_a_trace_with_a_clutch_is_another_than_the_same_without() -> None:
    columns = (np.array([0, 1], dtype=np.int64), np.zeros(2), np.zeros(2))

    assert Trace(*columns) == Trace(*columns)
    assert Trace(*columns) != Trace(*columns, clutch=np.zeros(2))


def test_changes_keep_the_first_sample_the_last_and_every_one_that_differs() -> None:
    brake = np.array([5.0, 5, 5, 6, 6, 6, 6])
    throttle = np.array([0.0, 0, 0, 0, 0, 1, 1])

    thin = Trace(np.arange(7, dtype=np.int64), brake, throttle).changes()

    assert thin.time.tolist() == [0, 3, 5, 6]


@pytest.mark.parametrize(
    ("seconds", "expected"), [(0.0015, 1_500_000), (1e-9, 1), (-2.5, -2_500_000_000)]
)
def test_seconds_become_whole_nanoseconds(seconds: float, expected: int) -> None:
    assert nanoseconds(seconds) == expected
