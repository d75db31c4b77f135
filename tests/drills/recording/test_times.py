"""Times of a recording: its units, laps that begin again, a given rate."""

import pytest

from drills.recording import Format, RecordingError, read_recording
from drills.recording.form import Recording


def recorded(*times: object, header: str = "time", form: Format | None = None) -> Recording:
    """A recording with 60 % brake at these times."""
    text = "".join(f"{time},60,0\n" for time in times)
    return read_recording(f"{header},brake,throttle\n{text}", form or Format())


def seconds(recording: Recording) -> list[float]:
    """Times of the samples of a recording, in s."""
    return [time / 1e9 for time in recording.trace.time.tolist()]


@pytest.mark.parametrize(
    ("header", "times", "form"),
    [
        ("Time (s)", ["1", "1.02"], Format()),
        ("Time [ms]", ["1000", "1020"], Format()),
        ("time_ms", ["1000", "1020"], Format()),
        ("time ms", ["1000", "1020"], Format()),
        ("time/s", ["1", "1.02"], Format()),
        ("Time (\N{MICRO SIGN}s)", ["1000000", "1020000"], Format()),
        ("Time (ns)", ["1000000000", "1020000000"], Format()),
        ("Time (min)", ["0.0166666666667", "0.017"], Format()),
        ("Time (h:mm:ss.000)", ["0:00:01.000", "0:00:01.020"], Format()),
        ("Time (ms)", ["0:00:01.000", "0:00:01.020"], Format()),
        ("Time (ms)", ["1000", "0:00:01.020"], Format()),
        ("time", ["1000", "1020"], Format(unit=0.001)),
        ("Time (ticks)", ["1000", "1020"], Format(unit=0.001)),
    ],
)
def test_times_are_read_in_the_unit_of_the_header(
    header: str, times: list[str], form: Format
) -> None:
    recording = recorded(*times, header=header, form=form)

    assert seconds(recording) == pytest.approx([1.0, 1.02])


@pytest.mark.parametrize(
    ("header", "unit", "expected", "notes"),
    [
        ("Time (ms)", 1.0, [1, 2], ["time: the file says units of 0.001 s; read as 1 s"]),
        (
            "Time (s)",
            0.001,
            [0.001, 0.002],
            ["time: the file says units of 1 s; read as 0.001 s"],
        ),
        ("Time (ms)", 0.001, [0.001, 0.002], []),
    ],
)
def test_a_unit_that_is_asked_for_wins_over_the_header_and_that_is_said(
    header: str, unit: float, expected: list[float], notes: list[str]
) -> None:
    recording = recorded(1, 2, header=header, form=Format(unit=unit))

    assert seconds(recording) == pytest.approx(expected)
    assert list(recording.notes[1:]) == [f"{note} as asked" for note in notes]


def test_laps_that_begin_again_are_joined_by_the_interval_of_the_rows() -> None:
    recording = recorded(70.00, 70.02, 70.04, 0.013, 0.033, 6.5, 0.0, 0.02)

    assert seconds(recording) == pytest.approx(
        [70.0, 70.02, 70.04, 70.06, 70.08, 76.547, 76.567, 76.587]
    )
    assert recording.notes == (
        "time begins again 2 times, first in row 5: laps were joined 0.020 s apart",
    )


def test_midnight_is_a_time_that_begins_again() -> None:
    recording = recorded("23:59:59.97", "23:59:59.99", "0:00:00.01")

    assert seconds(recording) == pytest.approx([86399.97, 86399.99, 86400.01])
    assert recording.notes[1:] == (
        "time begins again once, first in row 4: laps were joined 0.020 s apart",
    )


@pytest.mark.parametrize(
    ("times", "row", "found"),
    [
        ((0, 0.02, 4.9, 0.01), 5, "0.01"),
        ((50, 50.02, 1.0), 4, "1"),
        ((50, 50.02, -0.5), 4, "-0.5"),
        ((50, 50.02, 44), 4, "44"),
        ((50, 50.02, 0.5, 0.52, 0.51), 6, "0.51"),
        ((50, 0.0), 3, "0"),
        ((50, 50, 0.0), 4, "0"),
    ],
    ids=[
        "short lap",
        "late lap",
        "before 0",
        "step back",
        "after a lap",
        "no interval",
        "repeated",
    ],
)
def test_any_other_step_back_is_refused(times: tuple[float, ...], row: int, found: str) -> None:
    with pytest.raises(RecordingError) as refused:
        recorded(*times)

    assert str(refused.value) == f"row {row}: time: expected time to go forward, found {found}"


@pytest.mark.parametrize(
    ("header", "first"),
    [("brake,throttle", ""), ("time,brake,throttle", "17 May,"), ("number,brake,throttle", "1,")],
)
def test_with_a_given_rate_no_time_is_read(header: str, first: str) -> None:
    rows = "".join(f"{first}{brake},0\n" for brake in (60, 61, 62))

    recording = read_recording(f"{header}\n{rows}", Format(rate=50.0))

    assert seconds(recording) == pytest.approx([0, 0.02, 0.04])
    assert recording.trace.brake.tolist() == [60, 61, 62]
    assert recording.notes == ("times are told from 50 rows a second",)


def test_rows_that_are_left_out_at_first_take_their_time() -> None:
    text = "brake,throttle\n,0\n60,0\n61,0\n"

    recording = read_recording(text, Format(rate=50.0))

    assert seconds(recording) == pytest.approx([0.02, 0.04])


@pytest.mark.parametrize(
    ("times", "header", "form", "said"),
    [
        (
            ("0:00:61", "0:01:02"),
            "time",
            Format(),
            "row 2: time: expected a number or a time such as 0:01:02.5, found '0:00:61'",
        ),
        (
            ("0:60:01", "0:01:02"),
            "time",
            Format(),
            "row 2: time: expected a number or a time such as 0:01:02.5, found '0:60:01'",
        ),
        (
            ("0:01", "2024-05-17 20:15:03"),
            "time",
            Format(),
            "row 3: time: expected a number or a time such as 0:01:02.5, "
            "found '2024-05-17 20:15:03'",
        ),
        (
            (0, 1),
            "Time (laps)",
            Format(),
            "header: time: expected s, ms, us, ns, min or h:mm:ss as its unit, found 'laps'; "
            "--time-unit reads it all the same",
        ),
        ((0, "5%"), "time", Format(), "row 3: time: expected a number, found '5%'"),
        (
            (0, 1),
            "time",
            Format(rate=1e-6),
            "time: expected at most 24 h, found 277.8 h; are there more rows a second (--rate)?",
        ),
    ],
)
def test_times_that_cannot_be_read_are_named(
    times: tuple[object, ...], header: str, form: Format, said: str
) -> None:
    with pytest.raises(RecordingError) as refused:
        recorded(*times, header=header, form=form)

    assert str(refused.value) == said
