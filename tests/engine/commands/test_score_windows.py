"""The command `stillfoot score`: windows, and errors for input that cannot be used."""

import os
from pathlib import Path

import pytest

from engine.commands.score_recording import ScoreError, read
from tests.engine.commands.recordings import day, recording, refused, scored
from tests.needs import endless_file


@pytest.mark.parametrize(
    ("options", "kind", "values"),
    [
        (
            ["--hold", "0:1.5", "--target", "58", "--tolerance", "3"],
            "hold",
            {"mean": 60, "constant_error": 2, "in_band": 1, "tremor": 0},
        ),
        (
            ["--step", "0:1.5", "--target", "60", "--band", "3"],
            "step",
            {"reaction": 0, "rise": 0, "overshoot": 0, "settle": 0},
        ),
        (
            ["--release", "0:1.5", "--from", "60"],
            "release",
            {"reversals": 0, "ramp_worst": 60 * 1499 / 1500},
        ),
    ],
)
def test_a_window_is_measured_instead_of_runs(
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
    options: list[str],
    kind: str,
    values: dict[str, float],
) -> None:
    found = scored(capsys, str(recording(tmp_path)), *options)

    assert set(found) == {kind, "sampling", "notes", "warnings"}
    assert found["sampling"]["rate"] == pytest.approx(1000)
    assert {name: found[kind][name] for name in values} == pytest.approx(values)


def test_a_window_that_begins_between_two_grid_points_is_timed_from_where_it_begins(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = str(recording(tmp_path))

    step = scored(capsys, path, "--step", "0.0004:1.5", "--target", "60", "--band", "3")["step"]
    release = scored(capsys, path, "--release", "0.0004:1.5", "--from", "60")["release"]

    assert (step["reaction"], step["settle"]) == pytest.approx((0.0006, 0.0006))
    # The brake stays at 60: at the last grid point, 1.5 s, the ramp has 0.0004 s left to fall.
    assert release["ramp_worst"] == pytest.approx(60 - 60 * 0.0004 / 1.5)


def test_a_window_after_a_day_without_samples_has_the_measures_of_the_one_before(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = str(day(tmp_path))
    aim = ["--target", "60", "--tolerance", "3"]

    early = scored(capsys, path, "--hold", "1.5:2.5", *aim)
    late = scored(capsys, path, "--hold", "82801.5:82802.5", *aim)

    assert late == early
    assert early["hold"]["swing"] == pytest.approx(10, abs=0.02)


WHERE = "{file}"


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--hold", "0:1"], "--hold: expected together with --target, found without"),
        (["--target", "5"], "--target: expected together with --hold or --step, found without"),
        (["--from", "5"], "--from: expected together with --release, found without"),
        (
            ["--hold", "1:99", "--target", "5", "--tolerance", "1"],
            "--hold: expected a window inside 0 to 8 s, found 1 to 99",
        ),
        (
            ["--hold", "1.0001:1.0002", "--target", "5", "--tolerance", "1"],
            "--hold: expected a window of at least 1 ms, found less",
        ),
        (
            ["--hold", "1:1.001", "--target", "5", "--tolerance", "1", "--plot", "x.png"],
            "--plot: expected a window of at least 2 ms, found less",
        ),
        (
            ["--plot", "missing/x.png"],
            f"--plot {Path('missing/x.png')}: expected a file to write to, "
            "found: No such file or directory",
        ),
        (
            ["--plot", "{folder}/folder.png"],
            f"--plot {{folder}}{os.sep}folder.png: expected a file to write to, found a folder",
        ),
        (
            ["--plot", "x\0.png"],
            "--plot: expected a file, found 'x\\x00.png' (see stillfoot score --help)",
        ),
        (
            ["--columns", "time=a,time=b"],
            "--columns: expected each column once, found 'time' twice (see stillfoot score --help)",
        ),
        (
            ["--columns", "x" * 900],
            "--columns: expected time=NAME, brake=NAME, throttle=NAME, clutch=NAME, "
            f"found '{'x' * 60}...' (see stillfoot score --help)",
        ),
        (
            ["--band", "5"],
            "--band: expected together with --against held or --step, found without",
        ),
        (
            ["--band", "5", "--hold", "0:1", "--target", "5", "--tolerance", "1"],
            "--band: expected together with --against held or --step, found --hold",
        ),
        (
            ["--v0", "50", "--hold", "0:1", "--target", "5", "--tolerance", "1"],
            "--v0: expected together with runs of blips, found --hold",
        ),
        (
            ["--against", "held", "--release", "0:1", "--from", "60"],
            "--against: expected together with runs of blips, found --release",
        ),
        (
            ["--plot", "x.png", "--release", "0:1", "--from", "60"],
            "--plot: expected together with runs of blips or --hold, found --release",
        ),
        (
            ["--from", "5", "--hold", "0:1", "--target", "5", "--tolerance", "1"],
            "--from: expected together with --release, found --hold",
        ),
        (["--v1", "50"], "--v1: expected less than --v0 = 40, found 50"),
        (["--plot", "x.gif"], "--plot: expected a name that ends in .png, found 'x.gif'"),
        (
            ["--columns", "time"],
            "--columns: expected time=NAME, brake=NAME, throttle=NAME, clutch=NAME, "
            "found 'time' (see stillfoot score --help)",
        ),
        (
            ["--columns", "brake=Bremse"],
            f"{WHERE}: header: expected a column 'Bremse', found time, brake, throttle",
        ),
        (
            ["--full", "1"],
            f"{WHERE}: row 2: brake: expected 0 to 1 (or another --full, now 1), found 60",
        ),
    ],
)
def test_input_that_cannot_be_used_is_refused_in_one_line(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, options: list[str], said: str
) -> None:
    path = recording(tmp_path)
    (tmp_path / "folder.png").mkdir()
    given = [option.replace("{folder}", str(tmp_path)) for option in options]

    line = refused(capsys, str(path), *given)

    assert line == said.replace(WHERE, str(path)).replace("{folder}", str(tmp_path))


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (
            b"\x89PNG\r\n",
            "expected UTF-8 text, found a byte at 0 that is not UTF-8; save it as UTF-8",
        ),
        (b"time,brake\0", "expected UTF-8 text, found a zero byte; save it as UTF-8"),
        (b"", "expected a header and at least two rows, found nothing"),
        (b"\xef\xbb\xbf", "expected a header and at least two rows, found nothing"),
        (
            b"\xff\xfet\0i",
            "expected UTF-16 text, found a byte at 4 that is not UTF-16; save it as UTF-8",
        ),
        (b"\xfe\xff\0t\0\0", "expected UTF-16 text, found a zero byte; save it as UTF-8"),
        (
            "time,brake".encode("utf-16-be"),
            "expected UTF-8 text, found a zero byte; save it as UTF-8",
        ),
    ],
)
def test_a_file_that_is_no_recording_is_refused(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, content: bytes, said: str
) -> None:
    path = tmp_path / "odd.csv"
    path.write_bytes(content)

    line = refused(capsys, str(path))

    assert line == f"{path}: {said}"


def test_a_window_over_an_hour_is_refused(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = day(tmp_path)

    line = refused(capsys, str(path), "--hold", "0:3601", "--target", "60", "--tolerance", "1")

    assert line == "--hold: expected a window of at most 3600 s, found 3601 s"


@endless_file
def test_a_file_that_never_ends_is_refused() -> None:
    with pytest.raises(ScoreError) as said:
        read("/dev/zero", largest=5_000_000)

    assert str(said.value) == "/dev/zero: expected at most 5 MB, found more"


def test_a_name_with_a_zero_byte_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    line = refused(capsys, "a\0b")

    assert line == ("FILE: expected a file, found 'a\\x00b' (see stillfoot score --help)")
