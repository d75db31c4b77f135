"""The command `stillfoot score`: keys, windows, options and refusals."""

import io
import json
import sys
from pathlib import Path

import numpy as np
import pytest

from engine.commands.main import main
from tests.drills.shapes import half_sine, seconds

RUN = {
    "scored", "base", "dip", "rebound", "surge", "swing", "settle", "shortfall", "excess",
    "extra_distance", "mean_dip", "blips",
}  # fmt: skip
BLIP = {
    "onset", "end", "peak", "width", "rise", "fall", "dip", "dip_at", "rebound", "surge", "swing",
    "settle", "shortfall", "excess", "coupling", "lag", "extra_distance",
}  # fmt: skip


def recording(folder: Path, start: float = 0.0, first: float = 2.0, scale: float = 1.0) -> Path:
    """60 % held, with two blips that each take 10 % off the brake, in two runs."""
    time = seconds(8)
    throttle, brake = np.zeros(time.size), np.full(time.size, 60.0)
    for onset in (first, 5.0):
        throttle += 80 * half_sine(0.25)(time - onset)
        brake -= 10 * half_sine(0.2)(time - onset)
    path = folder / "hill climb.csv"
    rows = np.column_stack([time + start, brake * scale, throttle * scale])
    np.savetxt(path, rows, "%.6f", ",", header="time,brake,throttle", comments="")
    return path


def scored(capsys: pytest.CaptureFixture[str], *arguments: str) -> dict[str, object]:
    """What `score --json` prints."""
    code = main(["score", "--json", *arguments])
    out, err = capsys.readouterr()
    assert (code, err) == (0, "")
    return dict(json.loads(out))


def refused(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    """The one line that `score` refuses with."""
    code = main(["score", *arguments])
    out, err = capsys.readouterr()
    assert (code, out, err.count("\n")) == (2, "", 1)
    return err.removeprefix("stillfoot: ").rstrip("\n")


def test_each_run_has_its_measures_under_their_names(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    found = scored(capsys, str(recording(tmp_path)))

    assert set(found) == {"runs", "sampling", "warnings"}
    assert set(found["sampling"]) == {"rate", "gap_p99", "gap_max", "resolution"}
    assert found["warnings"] == []
    assert [run["scored"] for run in found["runs"]] == [True, True]
    for run in found["runs"]:
        assert set(run) == RUN
        assert [set(blip) for blip in run["blips"]] == [BLIP]
        # Half-sine dip of 10 over 0.2 s: area 1.273240 %·s (computed).
        assert run["dip"] == pytest.approx(10, abs=0.02)
        assert run["shortfall"] == pytest.approx(1.273240, abs=1e-3)


def test_times_are_on_the_axis_of_the_file(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    early = scored(capsys, str(recording(tmp_path)))
    late = scored(capsys, str(recording(tmp_path, start=1000.0)))

    for before, after in zip(early["runs"], late["runs"], strict=True):
        [one], [other] = before["blips"], after["blips"]
        assert other["onset"] == pytest.approx(one["onset"] + 1000)
        assert other["dip"] == pytest.approx(one["dip"])


def test_a_run_without_enough_before_it_is_not_scored_and_says_so(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    found = scored(capsys, str(recording(tmp_path, first=0.15)))

    first, second = found["runs"]
    assert first["scored"] is False
    assert first["reason"] == "less than 0.1 s of held brake before the first blip"
    assert first["dip"] is None
    assert set(first["blips"][0]) == BLIP
    assert second["scored"] is True


def test_pedals_from_0_to_1_score_as_those_from_0_to_100(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    percent = scored(capsys, str(recording(tmp_path)))
    share = scored(capsys, str(recording(tmp_path, scale=0.01)), "--full", "1")

    for one, other in zip(percent["runs"], share["runs"], strict=True):
        assert other["dip"] == pytest.approx(one["dip"], abs=0.001)


def test_standard_input_is_read_for_a_dash(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = recording(tmp_path)
    from_file = scored(capsys, str(path))
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(path.read_bytes())))

    from_input = scored(capsys, "-")

    assert from_input == from_file


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

    assert set(found) == {kind}
    assert {name: found[kind][name] for name in values} == pytest.approx(values)


def test_a_person_reads_a_table_and_a_sentence_for_each_run(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    code = main(["score", str(recording(tmp_path))])

    lines = capsys.readouterr().out.splitlines()
    assert code == 0
    assert [line for line in lines if line.startswith("run ")] == [
        "run 1: 1 blip from 2.008 s",
        "run 2: 1 blip from 5.008 s",
    ]
    told = "  The brake fell 10 % as the throttle went in; it was steady again after 0.16 s."
    assert lines.count(told) == 2


def test_speeds_and_deceleration_change_the_distance_alone(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = str(recording(tmp_path))
    usual = scored(capsys, path)["runs"][0]

    fast = scored(capsys, path, "--v0", "80", "--v1", "10", "--decel", "12")["runs"][0]

    assert fast["extra_distance"] > 2 * usual["extra_distance"]
    assert fast["dip"] == usual["dip"]


def test_the_picture_is_saved(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    picture = tmp_path / "picture.png"

    scored(capsys, str(recording(tmp_path)), "--plot", str(picture))

    assert picture.read_bytes().startswith(b"\x89PNG")


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
        (["--v1", "50"], "--v1: expected less than --v0 = 40, found 50"),
        (["--plot", "x.gif"], "--plot: expected a name that ends in .png, found 'x.gif'"),
        (
            ["--columns", "time"],
            "argument --columns: expected time=NAME, brake=NAME, throttle=NAME, clutch=NAME, "
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
def test_what_cannot_be_used_is_said_in_one_line(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, options: list[str], said: str
) -> None:
    path = recording(tmp_path)

    line = refused(capsys, str(path), *options)

    assert line == said.replace(WHERE, str(path))


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"\x89PNG\r\n", "expected UTF-8 text, found a byte that is not at 0"),
        (b"time,brake\0", "expected UTF-8 text, found a zero byte"),
        (b"", "expected a header and at least two rows, found nothing"),
    ],
)
def test_a_file_that_is_no_recording_is_refused(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, content: bytes, said: str
) -> None:
    path = tmp_path / "odd.csv"
    path.write_bytes(content)

    line = refused(capsys, str(path))

    assert line == f"{path}: {said}"
