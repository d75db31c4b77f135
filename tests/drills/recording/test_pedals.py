"""Scale of recorded pedals: as asked, as the units say, or as the values show."""

import pytest

from drills.recording import Format, RecordingError, read_recording

SCALED = "brake, throttle: 0 to 1, scaled to 0 to 100 %; --full 100 leaves it"
SMALL = "no pedal passes 2 %: are they 0 to 1 (--full 1)?"


def text_of(*brakes: object, header: str = "time,brake,throttle") -> str:
    """A recording of these brakes, 20 ms apart, and no throttle."""
    rows = "".join(f"{0.02 * n:.2f},{brake},0\n" for n, brake in enumerate(brakes))
    return f"{header}\n{rows}"


@pytest.mark.parametrize(
    ("brakes", "header", "form", "percent", "notes", "warnings"),
    [
        ((0.1, 1.05), "time,brake,throttle", Format(), (10, 105), [SCALED], None),
        ((0.1, 0.2), "time,brake,throttle", Format(), (10, 20), [SCALED], []),
        ((0.1, 1.06), "time,brake,throttle", Format(), (0.1, 1.06), [], [SMALL]),
        ((0.1, 0.19), "time,brake,throttle", Format(), (0.1, 0.19), [], [SMALL]),
        ((0.1, 1), "time,brake,throttle", Format(full=100.0), (0.1, 1), [], [SMALL]),
        ((0.1, 1), "time,brake,throttle", Format(full=1.0), (10, 100), [], []),
        ((0.1, 1), "time,brake,throttle", Format(full=2.0), (5, 50), [], []),
        (("0.1%", "1%"), "time,brake,throttle", Format(), (0.1, 1), None, [SMALL]),
        ((0.1, 1), "time,brake [%],throttle", Format(), (0.1, 1), None, [SMALL]),
        ((0.1, 1), "time,brake,throttle [%]", Format(), (0.1, 1), None, [SMALL]),
        ((0.1, 1), "time,brake [-],throttle [-]", Format(), (10, 100), [SCALED], []),
        ((0.1, 0.15), "time,brake [0-1],throttle", Format(), (10, 15), None, []),
        ((1, 10), "time,brake (kN),throttle", Format(full=20.0), (5, 50), [], []),
        (
            (1, 10),
            "time,brake (kN),throttle [%]",
            Format(full=20.0),
            (5, 50),
            [
                "units found in the header: throttle %",
                "brake: full at 20 as asked; the rest as their units say",
            ],
            [],
        ),
        (
            (0.1, 1),
            "time,brake [%],throttle [%]",
            Format(full=1.0),
            (10, 100),
            [
                "units found in the header: brake %, throttle %",
                "brake, throttle: units of the recording passed over, full at 1 as asked",
            ],
            [],
        ),
    ],
)
def test_pedals_are_read_in_percent(
    brakes: tuple[object, ...],
    header: str,
    form: Format,
    percent: tuple[float, ...],
    notes: list[str] | None,
    warnings: list[str] | None,
) -> None:
    recording = read_recording(text_of(*brakes, header=header), form)

    assert recording.trace.brake.tolist() == pytest.approx(percent)
    assert notes is None or list(recording.notes) == notes
    assert warnings is None or list(recording.warnings) == warnings


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            text_of(1, 2, header="time,brake (bar),throttle"),
            "header: brake: expected % or 0-1 as its unit, found 'bar'; "
            "--full reads it all the same",
        ),
        (
            "a drive\n\n" + text_of(1, 2, header="time,brake,throttle (V)"),
            "header in line 3: throttle: expected % or 0-1 as its unit, found 'V'; "
            "--full reads it all the same",
        ),
        (
            "time,brake,throttle\ns,bar,%\n0,1,2\n1,2,3\n",
            "row 2: brake: expected % or 0-1 as its unit, found 'bar'; "
            "--full reads it all the same",
        ),
        (
            "time (s),brake,throttle\nms,%,%\n0,1,2\n1,2,3\n",
            "row 2: time: expected 's' as in the header, found 'ms'",
        ),
        (
            text_of(0.5, 1.6, header="time,brake (0-1),throttle"),
            "row 3: brake: expected 0 to 1 (or another --full, now 1), found 1.6",
        ),
        (
            "a drive\n" + text_of("50 %", "50 bar"),
            "row 4: brake: expected a number, found '50 bar'",
        ),
        (
            text_of("%", 1),
            "row 2: brake: expected a number, found '%'",
        ),
        (
            "time,brake,throttle\n0,00,60,5,0,0\n0,02,60,5,0,0\n",
            "row 2: expected 3 columns as in the header, found 6; "
            "decimal commas need ; or tabs between columns",
        ),
        (
            "a drive\nbrake,throttle\n1,2\n",
            "header in line 2: expected a column 'time', found brake, throttle; "
            "--columns time=NAME names it, --rate HZ does without",
        ),
        (
            "# time,brake\ntime,brake,gas\n1,2,3\n",
            "header in line 2: expected a column 'throttle', found time, brake, gas; "
            "--columns throttle=NAME names it",
        ),
        (
            "time brake throttle\n0 1 2\n1 2 3\n",
            "header: expected a column 'time', found time brake throttle; "
            "it is looked for in 50 lines, with tabs, ; or , between columns",
        ),
        (
            "\n" * 50 + text_of(1, 2),
            "header: expected one in the first 50 lines, found none",
        ),
        (
            "brake,brake pressure,throttle,accelerator,time,throttle\n1,2\n",
            "header: expected one column 'throttle', found 2: throttle, throttle; "
            "--columns throttle=NAME names one",
        ),
        (
            "time,brake (bar),brake (%),throttle\n1,2\n",
            "header: expected one column 'brake', found 2: brake (bar), brake (%); "
            "--columns brake=NAME names one",
        ),
    ],
)
def test_what_cannot_be_read_is_named_with_what_would_help(text: str, said: str) -> None:
    with pytest.raises(RecordingError) as refused:
        read_recording(text, Format())

    assert str(refused.value) == said


def test_a_given_full_brake_in_bar_leaves_a_throttle_in_percent_alone() -> None:
    text = "time,brake,throttle\ns,bar,%\n0,20,50\n0.02,40,0\n"

    trace = read_recording(text, Format(full=40.0)).trace

    assert trace.brake.tolist() == [50, 100]
    assert trace.throttle.tolist() == [50, 0]


def test_a_column_of_words_at_the_end_of_the_rows_needs_no_name() -> None:
    trace = read_recording("time,brake,throttle\n0,60,0,bump\n0.02,61,0\n", Format()).trace

    assert trace.brake.tolist() == [60, 61]
