"""The command `stillfoot score`: keys, windows, options and refusals."""

import io
import json
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from drills.recording import Format
from engine.commands.main import main
from engine.commands.scoring import ScoreError, load
from tests.drills.shapes import half_sine, seconds
from tests.engine.commands.command import ROOT

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


def day(folder: Path) -> Path:
    """A blip, and another one 23 h later, with nothing between."""
    path = recording(folder)
    rows = path.read_text(encoding="utf-8").splitlines()
    parts = [row.partition(",") for row in rows[1:]]
    later = [f"{82_800 + float(time):.6f},{pedals}" for time, _, pedals in parts]
    path.write_text("\n".join(rows + later), encoding="utf-8")
    return path


def test_a_day_of_silence_changes_nothing_but_what_is_warned_of(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    before = scored(capsys, str(recording(tmp_path)))["runs"]

    found = scored(capsys, str(day(tmp_path)))

    assert found["runs"][:2] == before
    assert len(found["runs"]) == 4
    for run, again in zip(found["runs"][:2], found["runs"][2:], strict=True):
        assert again["blips"][0]["onset"] == pytest.approx(run["blips"][0]["onset"] + 82_800)
        assert again["dip"] == run["dip"]
    assert found["warnings"] == [
        "1 gaps over 0.1 s, the longest 82792.001 s at 7.999 s",
        "0.2 samples a second, under 50: timings are coarse",
    ]


def test_a_window_after_a_day_of_silence_is_the_window_before_it(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = str(day(tmp_path))
    aim = ["--target", "60", "--tolerance", "3"]

    early = scored(capsys, path, "--hold", "1.5:2.5", *aim)
    late = scored(capsys, path, "--hold", "82801.5:82802.5", *aim)

    assert late == early
    assert early["hold"]["swing"] == pytest.approx(10, abs=0.02)


SCORE = """
import sys
from engine.commands.main import main
from tests.peak import peak

assert main(["score", *sys.argv[1:]]) == 0
print(peak())
"""


@pytest.mark.skipif(sys.platform != "linux", reason="asks Linux for the peak of a process")
@pytest.mark.parametrize(
    "options",
    [
        [],
        ["--hold", "100:400", "--target", "60", "--tolerance", "3"],
        ["--plot", "{folder}/picture.png"],
        ["--hold", "4000:4009", "--target", "6", "--tolerance", "3", "--plot", "{folder}/hold.png"],
    ],
    ids=["runs", "window", "picture of runs", "picture of a window"],
)
def test_a_day_between_two_rows_takes_little_memory(tmp_path: Path, options: list[str]) -> None:
    path = day(tmp_path)
    given = [option.format(folder=tmp_path) for option in options]

    done = subprocess.run(
        [sys.executable, "-c", SCORE, str(path), *given],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )

    assert int(done.stdout.splitlines()[-1]) < 200


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
            "--plot missing/x.png: expected a file to write to, found: No such file or directory",
        ),
        (
            ["--plot", "{folder}/folder.png"],
            "--plot {folder}/folder.png: expected a file to write to, found: Is a directory",
        ),
        (
            ["--plot", "x\0.png"],
            "argument --plot: expected a file, found 'x\\x00.png' (see stillfoot score --help)",
        ),
        (
            ["--columns", "time=a,time=b"],
            "argument --columns: expected each column once, found 'time' twice "
            "(see stillfoot score --help)",
        ),
        (
            ["--columns", "x" * 900],
            "argument --columns: expected time=NAME, brake=NAME, throttle=NAME, clutch=NAME, "
            f"found '{'x' * 60}...' (see stillfoot score --help)",
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
    (tmp_path / "folder.png").mkdir()
    given = [option.replace("{folder}", str(tmp_path)) for option in options]

    line = refused(capsys, str(path), *given)

    assert line == said.replace(WHERE, str(path)).replace("{folder}", str(tmp_path))


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"\x89PNG\r\n", "expected UTF-8 text, found a byte that is not at 0"),
        (b"time,brake\0", "expected UTF-8 text, found a zero byte"),
        (b"", "expected a header and at least two rows, found nothing"),
        (b"\xef\xbb\xbf", "expected a header and at least two rows, found nothing"),
        ("time,brake".encode("utf-16"), "expected UTF-8 text, found UTF-16"),
        ("time,brake".encode("utf-16-be"), "expected UTF-8 text, found a zero byte"),
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


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="needs a file that never ends")
def test_a_file_that_never_ends_is_refused() -> None:
    with pytest.raises(ScoreError) as said:
        load("/dev/zero", Format(), largest=5_000_000)

    assert str(said.value) == "/dev/zero: expected at most 5 MB, found more"


def test_a_name_with_a_zero_byte_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    line = refused(capsys, "a\0b")

    assert line == ("argument FILE: expected a file, found 'a\\x00b' (see stillfoot score --help)")
