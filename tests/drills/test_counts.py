"""Axis counts on the grid, and their packed form."""

import lzma
import struct

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.counts import Counts
from drills.trace import Trace, TraceError

COUNT = st.integers(-(2**15), 2**15) | st.integers(-(2**30), 2**30)


@st.composite
def counts(draw: st.DrawFn) -> Counts:
    """Any counts: wild ones, and those of a converter whose noise is small."""
    size = draw(st.integers(1, 60))
    wild = st.lists(COUNT, min_size=size, max_size=size)
    step, first = draw(st.integers(1, 300)), draw(st.integers(-(2**15), 2**15))
    noise = st.lists(st.integers(-3, 3), min_size=size, max_size=size)
    quiet = noise.map(lambda moved: [first + step * one for one in np.cumsum(moved).tolist()])
    column = (wild | quiet).map(lambda values: np.array(values, dtype=np.int64))
    start = draw(st.integers(-(10**15), 10**15))
    states = st.lists(st.integers(0, 1), min_size=size, max_size=size)
    shift = states.map(lambda values: np.array(values, dtype=np.int64))
    clutch = draw(st.none() | column)
    return Counts(start, draw(column), draw(column), clutch, shift=draw(st.none() | shift))


@given(counts())
def test_pack_then_unpack_is_the_identity(counted: Counts) -> None:
    back = Counts.unpack(counted.pack())

    assert back == counted
    assert all(pedal.dtype == np.int64 for pedal in back.pedals)


def test_leaps_from_end_to_end_of_32_bits_come_back() -> None:
    ends = np.array([0, 2**30, -(2**30), 8, -(2**30), 2**30, 2**30, 1, 2**30], dtype=np.int64)
    two = np.where(ends > 0, 2**30, -(2**30))
    counted = Counts(0, ends, two)

    assert Counts.unpack(counted.pack()) == counted


@given(counts(), st.data())
def test_packed_counts_cut_short_anywhere_are_refused(counted: Counts, data: st.DataObject) -> None:
    whole = counted.pack()
    length = data.draw(st.integers(0, len(whole) - 1))

    with pytest.raises(TraceError):
        Counts.unpack(whole[:length])


@given(counts(), st.data())
def test_packed_counts_with_a_changed_byte_are_refused(
    counted: Counts, data: st.DataObject
) -> None:
    whole = bytearray(counted.pack())
    at = data.draw(st.integers(0, len(whole) - 1))
    whole[at] ^= data.draw(st.integers(1, 255))

    with pytest.raises(TraceError):
        Counts.unpack(bytes(whole))


def test_a_noisy_hold_takes_little_more_than_its_noise() -> None:
    rng = np.random.default_rng(4)
    noise = rng.integers(-2, 3, (2, 5000))
    hold = np.rint(9000 + 40 * np.sin(np.arange(5000) / 90)).astype(np.int64)

    packed = Counts(0, hold + noise[0], -31000 + noise[1]).pack()

    # The noise alone has 2 * 5000 * log2(5) bits; first differences double its power.
    assert len(packed) < 1.5 * 2 * 5000 * np.log2(5) / 8


def test_counts_are_told_apart() -> None:
    pedal, other = np.array([1, 2]), np.array([1, 3])
    one = Counts(5, pedal, pedal)

    same = [Counts(5, pedal, pedal) == one]
    others = [
        *(Counts(6, pedal, pedal), Counts(5, other, pedal), Counts(5, pedal, other)),
        *(Counts(5, pedal, pedal, pedal), Counts(5, pedal[:1], pedal[:1]), 5),
    ]

    assert same == [True]
    assert all(one != another for another in others)
    assert Counts(5, pedal, pedal, pedal) != Counts(5, pedal, pedal, other)


def packed(head: tuple[int, int, int], *pedals: bytes, mark: bytes = b"SFC1") -> bytes:
    """Bytes laid out as packed counts: how many pedals, points in each, and the first time."""
    return mark + lzma.compress(struct.pack("<BIq", *head) + b"".join(pedals))


def pedal(points: bytes) -> bytes:
    """One pedal in steps of 2 counts."""
    return struct.pack("<I", 2) + points


def test_packed_counts_are_laid_out_as_they_say() -> None:
    last = struct.pack("<Q", 2000)
    body = packed((2, 3, 9), pedal(b"\x00\x01\x04"), pedal(b"\x02\xff\x00") + last)

    counted = Counts.unpack(body)

    assert counted.start == 9
    assert counted.brake.tolist() == [0, -2, 2]
    assert counted.throttle.tolist() == [2, 2002, 2002]
    assert counted.clutch is None


WRONG = "a packed trace cannot be read: wrong mark or wrong length"


@pytest.mark.parametrize(
    ("packed", "said"),
    [
        pytest.param(packed((2, 1, 0), pedal(b"a"), pedal(b"a"), mark=b"SFC2"), WRONG, id="mark"),
        pytest.param(packed((1, 1, 0), pedal(b"a")), WRONG, id="one pedal"),
        pytest.param(packed((4, 1, 0), *[pedal(b"a")] * 4), WRONG, id="four pedals"),
        pytest.param(packed((2, 0, 0), pedal(b""), pedal(b"")), WRONG, id="no points"),
        pytest.param(packed((2, 1, 0), pedal(b"a"), pedal(b"a"), b"more"), WRONG, id="more"),
        pytest.param(
            packed((2, 2, 0), pedal(b"aa"), pedal(b"a")),
            "a packed trace cannot be read: buffer is smaller than requested size",
            id="a pedal cut short",
        ),
        pytest.param(
            b"SFC1" + b"junk" * 9,
            "a packed trace cannot be read: Input format not supported by decoder",
            id="not compressed",
        ),
    ],
)
def test_bytes_that_are_no_packed_counts_are_refused(packed: bytes, said: str) -> None:
    with pytest.raises(TraceError) as refused:
        Counts.unpack(packed)

    assert str(refused.value) == said


def test_counts_without_a_shift_button_keep_the_bytes_they_always_had() -> None:
    pedal = np.array([7, 8], dtype=np.int64)

    packed = Counts(5, pedal, pedal).pack()

    assert lzma.decompress(packed[4:])[0] == 2
    assert Counts.unpack(packed).shift is None


def test_counts_of_a_trace_keep_its_shift_button_on_the_grid() -> None:
    time = np.array([0, 400_000, 2_500_000, 4_000_000], dtype=np.int64)
    pedals, shift = np.zeros(4), np.array([0.0, 1.0, 0.0, 0.0])
    trace = Trace(time, pedals, pedals, None, np.zeros((2, 4), dtype=np.int64), shift)

    counted = Counts.of(trace)

    assert counted is not None
    assert counted.shift is not None
    assert counted.shift.tolist() == [0, 1, 1, 0, 0]
