"""The command `stillfoot score`: keys, windows, options and refusals."""

import io
import subprocess
import sys
from pathlib import Path

import pytest

from engine.commands.main import main
from tests.engine.commands.command import ROOT
from tests.engine.commands.recordings import day, recording, scored
from tests.needs import peak_memory

SAMPLING = {"rate", "gap_p99", "gap_max", "resolution", "report_interval"}
TIMED = {"onset", "end", "peak", "width", "rise", "fall"}
RUN = {
    "scored", "dip", "mean_dip", "surge", "shortfall", "excess", "extra_distance", "blips",
}  # fmt: skip
BLIP = TIMED | {
    "scored", "before", "after", "carry", "early", "early_roll", "dip", "surge", "swing",
    "shortfall", "excess",
    "coupling", "lag", "extra_distance",
}  # fmt: skip
RUN_HELD = RUN | {"base", "rebound", "swing", "settle", "offset", "lead"}
BLIP_HELD = TIMED | {
    "dip", "dip_at", "dip_at_50", "rebound", "surge", "surge_at", "swing", "settle", "offset",
    "shortfall", "excess", "coupling", "lag", "extra_distance",
}  # fmt: skip


def test_each_run_has_its_measures_under_their_names(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    found = scored(capsys, str(recording(tmp_path)))

    assert set(found) == {"summary", "runs", "sampling", "notes", "warnings"}
    assert set(found["sampling"]) == SAMPLING
    assert found["notes"] == found["warnings"] == []
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
        [first], [second] = before["blips"], after["blips"]
        assert second["onset"] == pytest.approx(first["onset"] + 1000)
        assert second["dip"] == pytest.approx(first["dip"])


def test_a_run_measured_against_the_held_brake_has_the_measures_of_a_drill(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    found = scored(capsys, str(recording(tmp_path)), "--against", "held")

    for run in found["runs"]:
        assert set(run) == RUN_HELD
        assert [set(blip) for blip in run["blips"]] == [BLIP_HELD]
        assert run["base"] == 60
        assert run["dip"] == pytest.approx(10, abs=0.02)


def test_the_band_decides_when_the_brake_is_settled(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = str(recording(tmp_path))
    usual, wide = (
        scored(capsys, path, "--against", "held", *band)["runs"][0]
        for band in ([], ["--band", "11"])
    )

    assert usual["settle"] > 0.1
    assert wide["settle"] == 0


@pytest.mark.parametrize(
    ("against", "keys", "reason"),
    [
        ("chord", BLIP, "too little before it"),
        ("held", BLIP_HELD, "less than 0.1 s of held brake before the first blip"),
    ],
)
def test_a_run_without_enough_before_it_is_not_scored_and_says_so(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, against: str, keys: set[str], reason: str
) -> None:
    first_blip = 0.085 if against == "chord" else 0.15
    found = scored(capsys, str(recording(tmp_path, first=first_blip)), "--against", against)

    first, second = found["runs"]
    assert first["scored"] is False
    assert first["dip"] is None
    assert second["scored"] is True
    if first["blips"]:
        assert set(first["blips"][0]) - {"reason"} == keys
        assert reason in (first["reason"], first["blips"][0].get("reason"))


def test_a_blip_that_releases_the_brake_is_not_scored_beside_one_that_is(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = recording(tmp_path, second=3.2, released=3.45)

    [run] = scored(capsys, str(path))["runs"]

    assert [blip["scored"] for blip in run["blips"]] == [True, False]
    assert run["blips"][1]["reason"] == "the brake was released with the blip"
    assert run["dip"] == run["mean_dip"] == run["blips"][0]["dip"]


def test_a_warning_is_given_for_a_throttle_that_rests_over_3_percent(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    found = scored(capsys, str(recording(tmp_path, rest=4.5)))

    assert found["warnings"] == [
        "the throttle reads 4.5 % at rest, over 3: blips are counted above it"
    ]
    assert [run["dip"] for run in found["runs"]] == pytest.approx([10, 10], abs=0.02)


def test_pedals_from_0_to_1_score_as_those_from_0_to_100(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    percent = scored(capsys, str(recording(tmp_path)))
    share = scored(capsys, str(recording(tmp_path, scale=0.01)), "--full", "1")

    for first, second in zip(percent["runs"], share["runs"], strict=True):
        assert second["dip"] == pytest.approx(first["dip"], abs=0.001)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_a_file_or_standard_input_is_read_in_every_encoding_that_a_shell_redirects_to(
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    encoding: str,
) -> None:
    path, other = recording(tmp_path), tmp_path / "redirected.csv"
    raw = path.read_text(encoding="utf-8").replace("\n", "\r\n").encode(encoding)
    other.write_bytes(raw)
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(raw)))

    as_it_was = scored(capsys, str(path))
    redirected, from_input = scored(capsys, str(other)), scored(capsys, "-")

    assert redirected == from_input == as_it_was


def test_without_json_each_run_is_printed_as_a_table(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    code = main(["score", str(recording(tmp_path))])

    lines = capsys.readouterr().out.splitlines()
    assert code == 0
    assert [line for line in lines if line.startswith("run ")] == [
        "run 1: 1 blip from 2.01 s",
        "run 2: 1 blip from 5.01 s",
    ]
    assert "  Dip                    10.00 points" in lines


def test_no_time_is_shown_finer_than_the_device_reported(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    code = main(["score", str(recording(tmp_path, every=16))])

    lines = capsys.readouterr().out.splitlines()
    assert code == 0
    assert "run 1: 1 blip from 2.0 s" in lines


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


def test_a_day_without_samples_changes_only_the_warnings(
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
    ]


SCORE = """
import sys
from engine.commands.main import main
from tests.peak_memory import peak

assert main(["score", *sys.argv[1:]]) == 0
print(peak())
"""


@peak_memory
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
