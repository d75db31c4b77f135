"""Brake that leaves before the throttle: told by `stillfoot score`, and kept with the drive."""

import csv
import json
import sqlite3
from contextlib import closing
from pathlib import Path

import numpy as np
import pytest

from drills.measures.definition import DEFINITION
from engine.store.history import FILE
from tests.drills.shapes import half_sine, seconds
from tests.engine.commands.command import output_of
from tests.engine.commands.recordings import scored


def rolled(folder: Path) -> Path:
    """A recording of two runs: in the second the brake is 12 points lighter 0.2 s before."""
    time = seconds(9)
    brake, throttle = np.full(time.size, 60.0), np.zeros(time.size)
    for onset in (2.0, 6.0):
        throttle += 80 * half_sine(0.25)(time - onset)
    brake -= 10 * half_sine(0.2)(time - 2.0)
    brake[(time >= 5.8) & (time < 6.3)] = 48.0
    path = folder / "rolled.csv"
    rows = np.column_stack([time, brake, throttle])
    np.savetxt(path, rows, "%.6f", ",", header="time,brake,throttle", comments="")
    return path


def test_such_a_blip_is_flagged_and_its_dip_told_in_full(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    runs = scored(capsys, str(rolled(tmp_path)))["runs"]

    [first], [second] = (run["blips"] for run in runs)
    assert (first["early_roll"], second["early_roll"]) == (False, True)
    assert (first["early"], second["early"]) == pytest.approx((0, 12), abs=0.02)
    assert (first["dip"], second["dip"]) == pytest.approx((10, 12), abs=0.02)
    assert second["carry"] == pytest.approx(12, abs=0.02)


def test_the_table_says_so_in_words_beside_the_blip(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    lines = output_of(capsys, "score", str(rolled(tmp_path))).splitlines()

    said = "  blip 1: early roll of 12.0 points; the dip counts that"
    assert lines.count(said) == 1
    assert lines.index(said) > lines.index("run 2: 1 blip from 6.01 s")
    assert (
        sum(line.split()[:2] == ["blip", "onset"] and "early" in line.split() for line in lines)
        == 2
    )


def test_it_is_kept_told_and_exported_with_the_drive(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path, data, out = rolled(tmp_path), str(tmp_path / "data"), tmp_path / "out"

    said = output_of(capsys, "score", str(path), "--keep", "--data", data)
    output_of(capsys, "export", str(out), "--data", data)

    assert "6.0 points typically pressed more over a blip, taken as intended.\n" in said
    assert (
        "1 of 2 blips rolled early: the brake left before the throttle. "
        "12.0 points were typically gone by then, counted in the dip.\n"
    ) in said
    with (out / "drive_blip.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert [float(row["early (points)"]) for row in rows] == pytest.approx([0, 12], abs=0.02)


def test_a_drive_of_older_definitions_is_measured_again_from_its_file(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path, data = rolled(tmp_path), tmp_path / "data"
    output_of(capsys, "score", str(path), "--keep", "--data", str(data))
    with closing(sqlite3.connect(data / FILE)) as db, db:
        db.execute("UPDATE drive SET definition = 1, at_utc = '2024-01-02T03:04:05+00:00'")
        db.execute("UPDATE drive_blip SET dip = 5, early = NULL")

    found = json.loads(
        output_of(capsys, "score", str(path), "--json", "--keep", "--data", str(data))
    )

    assert (found["drive"]["kept"], found["drive"]["early"]) == (True, 1)
    with closing(sqlite3.connect(data / FILE)) as db:
        [(definition, at)] = db.execute("SELECT definition, at_utc FROM drive").fetchall()
        dips = [dip for (dip,) in db.execute("SELECT dip FROM drive_blip ORDER BY number")]
    assert (definition, at[:10]) == (DEFINITION, "2024-01-02")
    assert dips == pytest.approx([10, 12], abs=0.02)
