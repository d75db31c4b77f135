"""Reading recordings: every way they may be written, and every mistake by its row."""

import numpy as np
import pytest

from drills.recording import Format, RecordingError, read_recording
from drills.trace import Trace

PLAIN = "time,brake,throttle\n0.00,60,0\n0.01,60.5,0\n0.02,59.5,12.5\n"
EXPECTED = Trace(
    np.array([0, 10_000_000, 20_000_000], dtype=np.int64),
    np.array([60, 60.5, 59.5]),
    np.array([0, 0, 12.5]),
)


@pytest.mark.parametrize(
    ("text", "form"),
    [
        pytest.param(PLAIN, Format(), id="comma"),
        pytest.param(PLAIN.replace(",", ";"), Format(), id="semicolon"),
        pytest.param(PLAIN.replace(",", "\t"), Format(), id="tab"),
        pytest.param(PLAIN.replace(",", ";").replace(".", ","), Format(), id="decimal comma"),
        pytest.param(PLAIN.replace(",", "\t").replace(".", ","), Format(), id="tab, comma"),
        pytest.param(PLAIN.replace("\n", "\r\n"), Format(), id="line ends of two characters"),
        pytest.param(PLAIN.replace("time,brake", "TIME, Brake"), Format(), id="other case"),
        pytest.param(PLAIN.replace("\n0.01", "\n\n0.01"), Format(), id="an empty row"),
        pytest.param(
            'time,brake,throttle\n"0,00","60","0"\n"0,01","60,5","0"\n"0,02","59,5","12,5"\n',
            Format(),
            id="quoted decimal commas",
        ),
        pytest.param(
            PLAIN.replace("time,brake,throttle", "t [s],b,Gas"),
            Format({"time": "t [s]", "brake": "B", "throttle": "gas"}),
            id="other names",
        ),
        pytest.param(
            "note,throttle,brake,time\na,0,60,0\nb,0,60.5,10\nc,12.5,59.5,20\n",
            Format(unit=0.001),
            id="another order, ms and a column that is not asked for",
        ),
        pytest.param(
            "time,brake,throttle\n0,0.6,0\n0.01,0.605,0\n0.02,0.595,0.125\n",
            Format(full=1.0),
            id="0 to 1",
        ),
    ],
)
def test_a_recording_reads_the_same_however_it_is_written(text: str, form: Format) -> None:
    trace = read_recording(text, form).trace

    assert np.array_equal(trace.time, EXPECTED.time)
    assert trace.brake == pytest.approx(EXPECTED.brake)
    assert trace.throttle == pytest.approx(EXPECTED.throttle)


def test_a_clutch_is_read_where_there_is_one() -> None:
    trace = read_recording("time,brake,throttle,clutch\n0,1,2,3\n1,4,5,6\n", Format()).trace

    assert trace.clutch is not None
    assert trace.clutch.tolist() == [3, 6]


def rows(*lines: str) -> str:
    """A recording with the usual header."""
    return "\n".join(["time,brake,throttle", *lines])


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "expected a header and at least two rows, found nothing"),
        (" \n\n", "expected a header and at least two rows, found nothing"),
        (rows(), "expected at least two rows of samples, found 0"),
        (rows("0,1,2"), "expected at least two rows of samples, found 1"),
        (
            "time,brake,gas\n0,1,2\n",
            "header: expected a column 'throttle', found time, brake, gas; "
            "--columns throttle=NAME names it",
        ),
        (
            "time,brake,brake,throttle\n",
            "header: expected one column 'brake', found 2: brake, brake; "
            "--columns brake=NAME names one",
        ),
        (rows("0,1,2", "1,abc,2"), "row 3: brake: expected a number, found 'abc'"),
        (rows("0,1,2", "1,1_0,2"), "row 3: brake: expected a number, found '1_0'"),
        (rows("0,1,2", ",1,2"), "row 3: time: expected a number, found nothing"),
        (rows("0,,2", "1,,2"), "brake: expected numbers, found an empty column"),
        (rows("0,1,2", "", "1,4", ""), "row 4: throttle: expected a number, found 2 columns"),
        (rows("0,1,2", "2,1,2", "1,1,2"), "row 4: time: expected time to go forward, found 1"),
        (rows("0,1,2", "1,nan,2"), "row 3: brake: expected a finite number, found nan"),
        (rows("0,1,2", "inf,1,2"), "row 3: time: expected a finite number, found inf"),
        (
            rows("0,1,2", "1,150.1,2"),
            "row 3: brake: expected 0 to 100 (or another --full, now 100), found 150.1",
        ),
        (
            rows("0,1,2", "1,1,-50.1"),
            "row 3: throttle: expected 0 to 100 (or another --full, now 100), found -50.1",
        ),
        (rows("1,1,2", "1,1,2"), "expected samples at two different times at least, found one"),
        (
            rows("0,1,2", "90000,1,2"),
            "time: expected at most 24 h, found 25.0 h; is it in ms (--time-unit ms)?",
        ),
        (
            rows("-1e308,1,2", "1e308,1,2"),
            "time: expected at most 24 h, found 5.6e+304 h; is it in ms (--time-unit ms)?",
        ),
        (
            rows("1e13,1,2", "1e13,1,2"),
            "time: expected a start within 9e+09 s of 0, found 1e+13 s; "
            "is it in ms (--time-unit ms)?",
        ),
        (
            rows("0,1,2", "1,1e308,2"),
            "row 3: brake: expected 0 to 100 (or another --full, now 100), found 1e+308",
        ),
        (
            rows("0,1,2", f"1,{'5' * 140_000},2"),
            "row 3: expected a row of cells, found: field larger than field limit (131072)",
        ),
        (
            "x" * 140_000,
            "row 1: expected a row of cells, found: field larger than field limit (131072)",
        ),
        (
            ",".join(f"column{n}" for n in range(10_000)),
            "header: expected a column 'time', found column0, column1, column2, column3, "
            "column4, column5, column6, column7, column8, column9, column10, column11, column1...; "
            "it is looked for in 50 lines, with tabs, ; or , between columns",
        ),
        (
            "time,\x1b[2J,\u200b",
            "header: expected a column 'brake', found time, \\x1b[2J, \\u200b; "
            "--columns brake=NAME names it",
        ),
        (
            rows("0,1,2", f"1,{'x' * 100},2"),
            f"row 3: brake: expected a number, found '{'x' * 56}...",
        ),
    ],
)
def test_a_mistake_is_named_by_row_and_column(text: str, said: str) -> None:
    with pytest.raises(RecordingError) as refused:
        read_recording(text, Format())

    assert str(refused.value) == said


@pytest.mark.parametrize(
    "end", ["0.03", "0.03,60", "0.03,60,", "0.03,60,-", "0.03,60,1.25e-", "0:00:"]
)
def test_a_last_row_that_is_cut_off_is_left_out_with_a_warning(end: str) -> None:
    recording = read_recording(PLAIN + end, Format())

    assert recording.trace == EXPECTED
    assert recording.warnings == ("the last row is cut off and was left out",)


def test_a_row_that_is_too_short_is_refused_where_a_line_end_follows_it() -> None:
    with pytest.raises(RecordingError) as refused:
        read_recording(f"{PLAIN}0.03,60\n", Format())

    assert str(refused.value) == "row 5: throttle: expected a number, found 2 columns"


def test_a_pedal_pressed_half_as_hard_again_is_still_read() -> None:
    trace = read_recording(rows("0,150,0", "1,-50,0"), Format()).trace

    assert trace.brake.tolist() == [150, -50]


@pytest.mark.parametrize(
    ("text", "warnings"),
    [
        (rows(*(f"{k / 100},60,0" for k in range(9))), ()),
        (
            rows("0,60,0", "0.01,60,0", "0.01,61,0", "0.02,60,0"),
            ("1 repeated times; the last sample of each was used",),
        ),
        (
            rows(*(f"{k / 100},60,0" for k in range(40)), "0.55,60,0"),
            ("1 gaps over 0.1 s, the longest 0.160 s at 0.390 s",),
        ),
        (
            rows(*(f"{k / 100},60,0" for k in range(40)), "900,60,0"),
            ("1 gaps over 0.1 s, the longest 899.610 s at 0.390 s",),
        ),
        (
            rows("0,60,0", "0.025,60,0", "0.05,60,0"),
            ("40.0 samples a second, under 50: timings are coarse",),
        ),
        (rows("0,102,0", "0.01,-2,0"), ()),
        (
            rows("0,112.4,0", "0.01,60,0"),
            (
                "brake: 60 to 112 %, beyond 0 to 100: pressed harder than it was set up, "
                "or another scale (--full)?",
            ),
        ),
        (
            rows("0,0.6,0", "0.01,0.6,1.5"),
            ("no pedal passes 2 %: are they 0 to 1 (--full 1)?",),
        ),
    ],
)
def test_what_makes_measures_less_sure_is_a_warning(text: str, warnings: tuple[str, ...]) -> None:
    recording = read_recording(text, Format())

    assert recording.warnings == warnings


def test_of_repeated_times_the_last_sample_is_used() -> None:
    trace = read_recording(rows("0,60,0", "0.01,60,0", "0.01,61,0", "0.02,60,0"), Format()).trace

    assert trace.brake.tolist() == [60, 61, 60]
