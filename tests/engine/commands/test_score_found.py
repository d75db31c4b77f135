"""The command `stillfoot score` on recordings as they are found: options, notes, drives."""

from pathlib import Path

import pytest

from engine.commands.main import main
from engine.road.saved import all_drives
from engine.store import open_history
from tests.engine.commands.recordings import recording, refused, scored

NOTES = [
    "header found in line 3",
    "units found in the header: time ms",
    "percent signs behind numbers were read as %",
]
"""What is told of the recording of `found_form`."""


def found_form(folder: Path) -> tuple[Path, Path]:
    """A plain recording, and the same with metadata, a header in ms and UTF-16."""
    plain = recording(folder)
    rows = [row.split(",") for row in plain.read_text(encoding="utf-8").splitlines()[1:]]
    lines = ["an evening", "", "Time (ms);Brake;Throttle"]
    lines += [
        f"{float(time) * 1000:.3f};{brake} %;{throttle} %".replace(".", ",")
        for time, brake, throttle in rows
    ]
    other = folder / "found.csv"
    other.write_bytes("\r\n".join([*lines, ""]).encode("utf-16"))
    return plain, other


def without_time(folder: Path) -> tuple[Path, Path]:
    """A plain recording, and the same without its column of times, 1000 rows a second."""
    plain = recording(folder)
    rows = plain.read_text(encoding="utf-8").splitlines()
    other = folder / "found.csv"
    other.write_text("\n".join(row.partition(",")[2] for row in rows), encoding="utf-8")
    return plain, other


def test_a_recording_as_it_is_found_is_measured_as_the_plain_one(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    plain, other = found_form(tmp_path)

    found = scored(capsys, str(other))

    assert found.pop("notes") == NOTES
    as_plain = scored(capsys, str(plain))
    assert as_plain.pop("notes") == []
    assert found == as_plain


def test_the_table_tells_how_the_recording_was_read(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    _, other = found_form(tmp_path)

    code = main(["score", str(other)])

    lines = capsys.readouterr().out.splitlines()
    assert code == 0
    assert [line for line in lines if line.startswith("note: ")] == [
        f"note: {note}" for note in NOTES
    ]


def test_a_recording_without_times_is_read_with_a_rate(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    plain, other = without_time(tmp_path)

    found = scored(capsys, str(other), "--rate", "1000")

    assert found.pop("notes") == ["times are told from 1000 rows a second"]
    assert found["runs"] == scored(capsys, str(plain))["runs"]
    assert refused(capsys, str(other)) == (
        f"{other}: header: expected a column 'time', found brake, throttle; "
        "--columns time=NAME names it, --rate HZ does without"
    )


@pytest.mark.parametrize(
    ("options", "other"),
    [(["--time-unit", "s"], "--time-unit"), (["--columns", "time=t"], "--columns time=NAME")],
)
def test_a_rate_and_an_option_about_times_exclude_each_other(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, options: list[str], other: str
) -> None:
    path = str(recording(tmp_path))

    assert refused(capsys, path, "--rate", "60", *options) == (
        f"--rate: expected without {other}, found both"
    )


def test_a_drive_is_kept_however_its_recording_was_found(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    _, other = found_form(tmp_path)
    data = tmp_path / "data"

    drive = scored(capsys, str(other), "--keep", "--data", str(data))["drive"]

    assert (drive["kept"], drive["blips"]) == (True, 2)
    assert drive["dip"] == pytest.approx(10, abs=0.02)
    with open_history(data, []) as history:
        assert [kept.name for kept in all_drives(history)] == ["found.csv"]


def test_pedals_that_turn_out_to_be_0_to_1_score_as_those_from_0_to_100(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    percent = scored(capsys, str(recording(tmp_path)))
    share = scored(capsys, str(recording(tmp_path, scale=0.01)))

    assert len(share["notes"]) == 1
    for first, second in zip(percent["runs"], share["runs"], strict=True):
        assert second["dip"] == pytest.approx(first["dip"], abs=0.001)
