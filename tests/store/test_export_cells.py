"""A cell of an export that cannot be: said in one line, with its file, line and column."""

import shutil
from pathlib import Path

import pytest

from tests.store.exported import change, export, make, refused

COUNTS, PERCENT = "traces-000001-counts.csv", "traces-000001-percent.csv"


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An export."""
    folder = tmp_path_factory.mktemp("written")
    make(folder / "data")
    export(folder / "data", folder / "csv")
    return folder / "csv"


@pytest.fixture
def exported(whole: Path, tmp_path: Path) -> Path:
    """A copy of it that may be damaged."""
    shutil.copytree(whole, tmp_path / "csv")
    return tmp_path / "csv"


@pytest.mark.parametrize(
    ("name", "line", "header", "text", "said"),
    [
        (
            *("repetitions.csv", 2, "took (s)", "long"),
            "line 2: took (s): expected a number or nothing, found 'long'",
        ),
        (
            *("repetitions.csv", 2, "target (%)", ""),
            "line 2: target (%): expected a number, found ''",
        ),
        (
            *("repetitions.csv", 2, "target (%)", "nan"),
            "line 2: target (%): expected a number, found 'nan'",
        ),
        (
            *("repetitions.csv", 3, "clean (0 or 1)", "2"),
            "line 3: clean (0 or 1): expected a whole number from 0 to 1, found 2",
        ),
        (
            *("repetitions.csv", 3, "sitting", "9"),
            "line 3: sitting: expected a sitting of this export, found '9'",
        ),
        (
            *("repetitions.csv", 8, "trial", "2"),
            "line 8: trial: expected a trial of this export, found '2'",
        ),
        (
            *("repetitions.csv", 3, "over their limit", "[1]"),
            "line 3: over their limit: expected a list of names, found '[1]'",
        ),
        (
            *("repetitions.csv", 3, "id", "1"),
            "line 3: id: expected a row of its own, found '1, 2024-05-18T01:15:30.250+00:00'",
        ),
        (
            *("sittings.csv", 2, "what", "a nap"),
            "line 2: what: expected one of 'five minutes', 'warm-up', found 'a nap'",
        ),
        (
            *("measures.csv", 3, "repetition", "77"),
            "line 3: repetition: expected a repetition of this export, found '77'",
        ),
        (
            *("measures.csv", 3, "measure", "deep"),
            "line 3: measure: expected a measure of this export, found 'deep'",
        ),
        (
            *("measures.csv", 3, "measure", "dip"),
            "line 3: repetition: expected a row of its own, found '1, dip'",
        ),
        (*("measure-names.csv", 2, "unit", "m"), "line 2: unit: expected 'points', found 'm'"),
        (
            *("guesses.csv", 2, "repetition", "x"),
            "line 2: repetition: expected a whole number from 1 to 1000000000, found 'x'",
        ),
        (
            *("calibrations.csv", 2, "rest and full of each pedal (raw)", "[]"),
            "line 2: ends: expected rest and full of each pedal, found '[]'",
        ),
        (*("trials.csv", 2, "set-up A", "{}"), "line 2: set-up A: name: expected text, found None"),
        (
            *("sittings.csv", 2, "offset (min east of UTC)", "1440"),
            "line 2: offset (min east of UTC): expected a whole number from -1439 to 1439, "
            "found 1440",
        ),
        (
            *("sittings.csv", 2, "length (min)", "61.0"),
            "line 2: length (min): expected a number over 0 and up to 60, found 61.0",
        ),
        (
            *("drives.csv", 2, "at (UTC)", "20240517T181530"),
            "line 4: at (UTC): expected a date and time as 2024-05-17T18:15:30.250+00:00, "
            "found '20240517T181530'",
        ),
        (
            *("drives.csv", 2, "at (UTC)", "soon"),
            "line 4: at (UTC): expected a date and time, found 'soon'",
        ),
        (
            *("drive-blips.csv", 3, "number", "1"),
            "line 5: drive: expected a row of its own, found '1, 1'",
        ),
        (*("settings.csv", 2, "value", "{"), "line 2: value: expected JSON, found '{'"),
        (
            *("settings.csv", 3, "key", "binding"),
            "line 3: key: expected a row of its own, found 'binding, true'",
        ),
        (
            *("traces.csv", 3, "repetition", "1"),
            "line 3: repetition: expected a whole number from 2 to 1000000000, found 1",
        ),
        (
            *("traces.csv", 2, "calibration", "9"),
            "line 2: calibration: expected a calibration of this export, found '9'",
        ),
        (
            *("traces.csv", 2, "calibration", ""),
            "line 2: calibration: expected the one that counts are read through, found ''",
        ),
        (
            *("traces.csv", 2, "held as", "bytes"),
            "line 2: held as: expected one of 'counts', 'percent', found 'bytes'",
        ),
        (
            *(COUNTS, 4, "time (ns)", "0"),
            "line 4: time (ns): expected more than 5000000, found '0'",
        ),
        (
            *(COUNTS, 4, "time (ns)", "x"),
            f"line 4: time (ns): expected a whole number from -{10**18} to {10**18}, found 'x'",
        ),
        (
            *(COUNTS, 4, "time (ns)", "5000001"),
            "line 4: time (ns): expected whole milliseconds after 0, found '5000001'",
        ),
        (
            *(COUNTS, 4, "brake (counts)", "32769"),
            "line 4: brake (counts): expected a whole number from -32768 to 32768, found '32769'",
        ),
        (
            *(COUNTS, 4, "throttle (counts)", "1.5"),
            "line 4: throttle (counts): expected a whole number from -32768 to 32768, found '1.5'",
        ),
        (
            *(COUNTS, 4, "clutch (counts)", "5"),
            "line 2: clutch (counts): expected a whole number from -32768 to 32768, found ''",
        ),
        (*(PERCENT, 4, "brake (%)", "much"), "line 4: brake (%): expected a number, found 'much'"),
        (*(PERCENT, 4, "clutch (%)", "5.0"), "line 2: clutch (%): expected a number, found ''"),
    ],
)
def test_a_cell_that_cannot_be_is_named_with_line_and_column(
    exported: Path, name: str, line: int, header: str, text: str, said: str
) -> None:
    change(exported, name, line, header, text)

    assert refused(exported) == f"{exported / name}: {said}"
