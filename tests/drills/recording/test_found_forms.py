"""Recordings as they are found: each form reads as the plain table does, and is told in a line."""

import numpy as np
import pytest

from drills.recording import Format, read_recording
from drills.trace import Trace

EXPECTED = Trace(
    np.array([0, 20_000_000, 40_000_000, 60_000_000], dtype=np.int64),
    np.array([60, 60.5, 60.5, 59.5]),
    np.array([0, 0, 0, 12.5]),
)
AFTER_METADATA = """\
Session of an evening
Driver,"one, who says ""hello"
Rate,50
Time of day,20:15:03
Brake,a load cell

Time,Throttle,Brake
0,0,60
0.02,0,60.5
0.04,0,60.5
0.06,12.5,59.5
"""
ROW_OF_UNITS = """\
Session;evening

Time;Brake;Throttle;Gear
s;%;%;
0;60;0;4
0,02;60,5;0;4
0,04;60,5;0;3
0,06;59,5;12,5;3
"""
ROW_OF_MS = """\
time\tspeed\tbrake\tthrottle
[ms]\t[m/s]\t[%]\t[%]

0\t61\t60\t0
20\t61\t60.5\t0
40\t60\t60.5\t0
60\t60\t59.5\t12.5
"""
COMMENTS = """\
# recorded on a cold day
# lap 1, of 3
time,brake,throttle
0,60,0
# a pause
0.02,60.5,0
0.04,60.5,0
#0.05,1,1
0.06,59.5,12.5
# end
"""
HEADER_IN_A_COMMENT = """\
# columns below
# time,brake,throttle
0,60,0
0.02,60.5,0
0.04,60.5,0
0.06,59.5,12.5
"""
QUOTED_HEADER_IN_A_COMMENT = HEADER_IN_A_COMMENT.replace(
    "# time,brake,throttle", ' ## "time","brake","throttle"'
)
FIRST_CELL_A_COMMENT = HEADER_IN_A_COMMENT.replace(
    "# time,brake,throttle", '"# time","brake","throttle"'
)
UNITS_IN_HEADER = """\
Brake [%],Time (ms),Throttle %
60,0,0
60.5,20,0
60.5,40,0
59.5,60,12.5
"""
PERCENT_SIGNS = """\
time;brake;throttle
0;60 %;0%
0,02;60,5 %;0%
0,04;60,5 %;0%
0,06;59,5 %;12,5%
"""
CLOCK = """\
Time,Brake,Throttle
0:01:02.50,60,0
0:01:02.52,60.5,0
0:01:02.54,60.5,0
0:01:02.56,59.5,12.5
"""
LAP_CLOCK = """\
Lap Time,Brake,Throttle
59.98,60,0
1:00.00,60.5,0
1:00.02,60.5,0
1:00.04,59.5,12.5
"""
EMPTY_CELLS = """\
time,brake,throttle
0,60,0
0.02,60.5,
0.04,,
0.06,59.5,12.5
"""
EMPTY_AT_FIRST = """\
time,brake,throttle
-0.02,,
-0.01,60,
0,60,0
0.02,60.5,0
0.04,60.5,0
0.06,59.5,12.5
"""
EMPTY_CLUTCH = """\
time,brake,throttle,clutch
0,60,0,
0.02,60.5,0,
0.04,60.5,0,
0.06,59.5,12.5,
"""
SHARES = """\
time,brake,throttle
0,0.6,0
0.02,0.605,0
0.04,0.605,0
0.06,0.595,0.125
"""
SHARES_BY_UNIT = """\
time,brake (0-1),throttle (%)
0,0.6,0
0.02,0.605,0
0.04,0.605,0
0.06,0.595,12.5
"""
OTHER_NAMES = """\
Elapsed_Time,BrakePedal,Accelerator
0,60,0
0.02,60.5,0
0.04,60.5,0
0.06,59.5,12.5
"""
SEVERAL = """\
Session;evening
# exported twice
Lap time (s);Brake Pedal;Throttle
;;%
0:59,98;60%;0%
1:00,00;60,5%;
1:00,02;;0%
1:00,04;59,5%;12,5%
"""


FOUND = {
    "metadata": (AFTER_METADATA, ["header found in line 7"]),
    "row of units": (
        ROW_OF_UNITS,
        ["header found in line 3", "row of units found in line 4: time s, brake %, throttle %"],
    ),
    "row of units in ms": (
        ROW_OF_MS,
        ["row of units found in line 2: time ms, brake %, throttle %"],
    ),
    "comments": (COMMENTS, ["header found in line 3", "lines that begin with # were left out: 3"]),
    "header in a comment": (HEADER_IN_A_COMMENT, ["header found in line 2, after #"]),
    "quoted header in a comment": (QUOTED_HEADER_IN_A_COMMENT, ["header found in line 2, after #"]),
    "first cell a comment": (FIRST_CELL_A_COMMENT, ["header found in line 2, after #"]),
    "units in the header": (
        UNITS_IN_HEADER,
        ["units found in the header: time ms, brake %, throttle %"],
    ),
    "percent signs": (PERCENT_SIGNS, ["percent signs behind numbers were read as %"]),
    "clock": (CLOCK, ["times such as 0:01:02.50 were read as clock times"]),
    "clock from the first minute on": (
        LAP_CLOCK,
        [
            "column 'Lap Time' was read as time",
            "times such as 1:00.00 were read as clock times",
        ],
    ),
    "empty cells": (EMPTY_CELLS, ["empty cells hold the value before them: brake 1, throttle 2"]),
    "empty at first": (
        EMPTY_AT_FIRST,
        ["rows before the first value of throttle were left out: 2"],
    ),
    "empty clutch": (EMPTY_CLUTCH, ["clutch: the column is empty and was left out"]),
    "0 to 1": (
        SHARES,
        ["brake, throttle: 0 to 1, scaled to 0 to 100 %; --full 100 leaves it"],
    ),
    "0 to 1 by unit": (SHARES_BY_UNIT, ["units found in the header: brake 0-1, throttle %"]),
    "other names": (
        OTHER_NAMES,
        [
            "column 'Elapsed_Time' was read as time",
            "column 'BrakePedal' was read as brake",
            "column 'Accelerator' was read as throttle",
        ],
    ),
    "several at once": (
        SEVERAL,
        [
            "header found in line 3",
            "column 'Lap time (s)' was read as time",
            "column 'Brake Pedal' was read as brake",
            "units found in the header: time s",
            "row of units found in line 4: throttle %",
            "empty cells hold the value before them: brake 1, throttle 1",
            "percent signs behind numbers were read as %",
            "times such as 0:59,98 were read as clock times",
        ],
    ),
}
"""Text of a recording of each form, and the lines that say how it was read."""


@pytest.mark.parametrize(("text", "notes"), FOUND.values(), ids=FOUND.keys())
def test_a_recording_as_it_is_found_reads_the_same_and_says_how(
    text: str, notes: list[str]
) -> None:
    recording = read_recording(text, Format())

    trace = recording.trace
    assert np.array_equal(trace.time - trace.time[0], EXPECTED.time)
    assert trace.brake == pytest.approx(EXPECTED.brake)
    assert trace.throttle == pytest.approx(EXPECTED.throttle)
    assert trace.clutch is None
    assert list(recording.notes) == notes
    assert recording.warnings == ()


def test_clock_times_count_from_midnight_or_from_the_start_of_the_lap() -> None:
    trace = read_recording(CLOCK, Format()).trace

    assert trace.time[0] == 62_500_000_000


def test_a_plain_table_needs_no_note() -> None:
    recording = read_recording("time,brake,throttle\n0,60,0\n0.02,60,0\n", Format())

    assert recording.notes == ()


def test_a_clutch_is_found_as_the_other_pedals_are() -> None:
    text = "Time (s),Brake [%],Throttle [%],Clutch Pedal [%]\n0,60,0,5%\n0.02,60,0,\n0.04,60,0,7%\n"

    trace = read_recording(text, Format()).trace

    assert trace.clutch is not None
    assert trace.clutch.tolist() == [5, 5, 7]


@pytest.mark.parametrize(
    ("header", "form"),
    [
        ("Brake,Brake (bar),Throttle,Time", Format()),
        ("Brake [%],Brake [bar],Throttle,Time", Format({"brake": "brake [%]"})),
        ("Brake Pedal,other,Throttle,Time", Format()),
        ("Brake,Brake Pedal,Throttle,Time", Format()),
        ("Brake (front),other,Throttle,Time", Format(full=100.0)),
        ("pressure,Brake,Throttle,Time", Format({"brake": "Pressure"})),
    ],
)
def test_the_name_that_fits_best_is_the_column(header: str, form: Format) -> None:
    text = f"{header}\n60,1,0,0\n61,1,0,0.02\n"

    assert read_recording(text, form).trace.brake.tolist() == [60, 61]
