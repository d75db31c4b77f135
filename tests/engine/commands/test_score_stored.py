"""The option `--keep` of `stillfoot score` stores a recording in the history, once."""

import json
from datetime import datetime
from hashlib import sha256
from pathlib import Path

import numpy as np
import pytest

from drills.score import Reason, Verdict
from engine.road.saved import all_drives
from engine.road.words import NOT_EASED
from engine.store import open_history
from engine.store.repetitions import add_repetition
from tests.earlier import EARLIER, change
from tests.engine.commands.command import output_of, refused
from tests.engine.commands.recordings import recording
from tests.made import record


def test_a_recording_is_stored_as_a_drive_and_described_after_its_table(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path, data = recording(tmp_path), tmp_path / "data"
    table = output_of(capsys, "score", str(path))

    output = output_of(capsys, "score", str(path), "--keep", "--data", str(data))

    assert output == (
        f"{table}\n"
        "10.0 points on the road.\n"
        "No drill to compare with yet. A day's first 5 repetitions are left out.\n"
        "Saved with your history.\n"
    )
    with open_history(data, []) as history:
        [drive] = all_drives(history)
    assert drive.name == "hill climb.csv"
    assert drive.digest == sha256(path.read_bytes()).hexdigest()
    assert [blip.onset for blip in drive.blips] == pytest.approx([2.0, 5.0], abs=0.02)
    assert abs((drive.at - datetime.now().astimezone()).total_seconds()) < 60


def test_a_drive_is_compared_with_the_drills_of_the_last_weeks(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path, data = recording(tmp_path), tmp_path / "data"
    dips = [30.0] * 5 + [7.0] * 9
    with open_history(data, []) as history:
        for dip in dips:
            verdict = Verdict(Reason.CLEAN, 80.0, (), {"dip": dip})
            add_repetition(
                history, record(verdict=verdict, at=datetime.now().astimezone(), trace=None)
            )

    output = output_of(capsys, "score", str(path), "--keep", "--data", str(data))

    assert output.endswith(
        "10.0 points on the road.\n"
        "7.0 points in single drill blips (9 on 1 day). "
        "Those are measured differently: against what was held.\n"
        f"{NOT_EASED}\n"
        "Saved with your history.\n"
    )


def test_the_same_recording_is_stored_once(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path, data = recording(tmp_path), tmp_path / "data"
    again = path.rename(tmp_path / "again.csv")
    output_of(capsys, "score", str(again), "--keep", "--data", str(data))

    line = refused(capsys, "score", str(again), "--keep", "--data", str(data))

    assert line == "stillfoot: again.csv: this recording is in the history already\n"
    with open_history(data, []) as history:
        assert len(all_drives(history)) == 1


def test_as_json_the_drive_is_one_more_key(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path, data = str(recording(tmp_path)), str(tmp_path / "data")
    plain = json.loads(output_of(capsys, "score", path, "--json"))

    found = json.loads(output_of(capsys, "score", path, "--json", "--keep", "--data", data))

    drive = found.pop("drive")
    assert found == plain
    assert (drive["kept"], drive["blips"], drive["scored"]) == (True, 2, 2)
    assert drive["dip"] == pytest.approx(10, abs=0.02)
    assert drive["worst"] == max(run["dip"] for run in found["runs"])
    assert (drive["places"], drive["noise"]) == ([], found["summary"]["noise"])
    assert [(one["kind"], one["count"]) for one in drive["drills"]] == [("trail", 0), ("blip", 0)]


def test_a_recording_without_blips_is_not_stored(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path, data = tmp_path / "still.csv", tmp_path / "data"
    rows = np.column_stack([np.arange(0, 2, 0.01), np.full(200, 60.0), np.zeros(200)])
    np.savetxt(path, rows, "%.3f", ",", header="time,brake,throttle", comments="")

    output = output_of(capsys, "score", str(path), "--keep", "--data", str(data))

    assert output == (
        "No blips with the brake on were found.\n\n"
        "No blips with the brake on were found: nothing to keep.\n"
    )
    with open_history(data, []) as history:
        assert all_drives(history) == []


@pytest.mark.parametrize(
    ("mode", "found"),
    [
        (("--against", "held"), "--against held"),
        (("--hold", "1:2", "--target", "60", "--tolerance", "5"), "--hold"),
    ],
)
def test_only_blips_measured_against_their_chord_are_stored(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, mode: tuple[str, ...], found: str
) -> None:
    path, data = recording(tmp_path), tmp_path / "data"

    line = refused(capsys, "score", str(path), "--keep", "--data", str(data), *mode)

    assert line == f"stillfoot: --keep: expected blips against their chord, found {found}\n"
    assert not data.exists()


def play_drills_to_remeasure(data: Path) -> None:
    """Store repetitions of today in a data folder, one of them by older definitions."""
    with open_history(data, []) as history:
        for _ in range(14):
            verdict = Verdict(Reason.CLEAN, 80.0, (), {"dip": 7.0})
            add_repetition(
                history, record(verdict=verdict, at=datetime.now().astimezone(), trace=None)
            )
    change(data, f"UPDATE repetition SET definition = {EARLIER} WHERE id = 1")


def test_a_drive_is_not_compared_with_drills_that_are_being_remeasured(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path, data = recording(tmp_path), tmp_path / "data"
    play_drills_to_remeasure(data)

    output = output_of(capsys, "score", str(path), "--keep", "--data", str(data))

    assert output.endswith(
        "\nMeasured again: 0 of 1 earlier repetitions. Figures over days come back after the "
        "last.\n"
        "Saved with your history.\n"
    )
    assert "10.0 points on the road." in output


@pytest.mark.parametrize(
    ("waits", "said"),
    [
        (False, None),
        (
            True,
            "Measured again: 0 of 1 earlier repetitions. Figures over days come back after "
            "the last.",
        ),
    ],
)
def test_json_says_why_a_drive_is_compared_with_no_drills(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, waits: bool, said: str | None
) -> None:
    path, data = recording(tmp_path), tmp_path / "data"
    if waits:
        play_drills_to_remeasure(data)

    output = output_of(capsys, "score", str(path), "--keep", "--json", "--data", str(data))

    drive = json.loads(output)["drive"]
    assert drive["drills_missing"] == said
    assert bool(drive["drills"]) is not waits
