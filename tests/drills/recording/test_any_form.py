"""One recording reads the same in every form, and as fast rows as well as slow ones."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.recording import Format, read_recording
from drills.recording.cells import plain_columns, read_columns
from drills.recording.header import read_header
from drills.text import decoded
from tests.drills.recording.writing import FORMS, Form, written

SAMPLES = st.lists(
    st.tuples(st.integers(1, 90), st.integers(0, 1000), st.integers(0, 1000)),
    min_size=2,
    max_size=30,
)
CELLS = st.one_of(
    st.sampled_from(["1", "2.5", " 3 ", "-4", "1e1", "1_0", "", "nan", "inf", "1,5", '"6"', '"']),
    st.sampled_from(["7%", "0:01:02", "x", "#", "\u0663", "0x5", "1d5", "1 2", "\x1f", "\u00a01"]),
    st.floats(-50, 150).map(repr),
)


@given(SAMPLES, FORMS)
def test_samples_read_back_the_same_in_every_form(
    steps: list[tuple[int, int, int]], form: Form
) -> None:
    # A first full press of both pedals: with less, pedals from 0 to 1 are told only by a unit.
    times = np.cumsum([step for step, _, _ in steps], dtype=np.int64) + 3_500_000
    samples = [(int(times[0]) - 10, 1000, 1000)]
    samples += [(int(at), b, t) for at, (_, b, t) in zip(times, steps, strict=True)]
    raw, unit = written(samples, form)

    trace = read_recording(decoded(raw), Format(unit=unit)).trace

    assert trace.time.tolist() == [at * 1_000_000 for at, _, _ in samples]
    assert trace.brake == pytest.approx([brake / 10 for _, brake, _ in samples])
    assert trace.throttle == pytest.approx([throttle / 10 for _, _, throttle in samples])


@given(st.lists(st.tuples(CELLS, CELLS), min_size=1, max_size=8), st.sampled_from(",;\t"))
def test_rows_read_at_once_are_those_read_one_by_one(
    pedals: list[tuple[str, str]], mark: str
) -> None:
    rows = [f"{n}{mark}{brake}{mark}{throttle}" for n, (brake, throttle) in enumerate(pedals)]
    lines = [mark.join(["time", "brake", "throttle"]), *rows]
    header = read_header(lines, Format())
    at_once = plain_columns(lines, header)
    # A comment makes no difference but that no row is read at once.
    assert plain_columns([*lines, "# end"], header) is None

    if at_once is not None:
        one_by_one = read_columns([*lines, "# end"], header, Format(), is_open=False)
        assert at_once.rows.tolist() == one_by_one.rows.tolist()
        for name, values in one_by_one.values.items():
            assert at_once.values[name].tolist() == values.tolist()


def test_plain_rows_are_read_at_once() -> None:
    lines = ["time;brake;throttle", "0;60;0", "0.02;60.5;1e1"]

    columns = plain_columns(lines, read_header(lines, Format()))

    assert columns is not None
    assert columns.rows.tolist() == [2, 3]
    assert columns.values["throttle"].tolist() == [0, 10]
