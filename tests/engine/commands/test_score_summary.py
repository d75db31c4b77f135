"""What `stillfoot score` says first: a summary, and then a few runs or all of them."""

from pathlib import Path

import numpy as np
import pytest

from engine.commands.score_summary import FEW_RUNS
from tests.drills.shapes import half_sine, seconds
from tests.engine.commands.command import output_of, refused
from tests.engine.commands.recordings import recording, scored

DIPS = (4.0, 12.0, 8.0, 16.0, 6.0)


def many(folder: Path, noise: float = 0.0) -> Path:
    """A recording of a run for each of the dips, 5 s apart, and one that releases the brake."""
    time = seconds(5.0 * len(DIPS) + 8.0)
    brake, throttle = np.full(time.size, 60.0), np.zeros(time.size)
    for number, dip in enumerate(DIPS):
        throttle += 80 * half_sine(0.25)(time - 2.0 - 5.0 * number)
        brake -= dip * half_sine(0.2)(time - 2.0 - 5.0 * number)
    brake += np.random.default_rng(3).normal(0, noise, time.size)
    late = 2.0 + 5.0 * len(DIPS)
    throttle += 80 * half_sine(0.25)(time - late)
    brake[time >= late + 0.25] = 0.0
    path = folder / "many.csv"
    rows = np.column_stack([time, brake, throttle])
    np.savetxt(path, rows, "%.4f", ",", header="time,brake,throttle", comments="")
    return path


def runs_of(output: str) -> list[str]:
    """The first line of each run that was printed, without its time."""
    return [line.partition(":")[0] for line in output.splitlines() if line.startswith("run ")]


def test_the_summary_comes_first_and_then_the_runs_with_the_deepest_dips(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    lines = output_of(capsys, "score", str(many(tmp_path))).splitlines()

    assert lines[:2] == [
        "6 blips in 33 s, 5 scored. 1 not scored: the brake was released with the blip.",
        "8.0 points typical dip, the middle half 6.0 to 12.0. 16.0 is the worst.",
    ]
    assert runs_of("\n".join(lines)) == ["run 4", "run 2", "run 3"]
    assert (
        f"6 runs of blips. Below: the {FEW_RUNS} with the deepest dips. "
        "--runs prints the other 3 too."
    ) in lines


def test_all_runs_are_printed_in_order_where_that_is_asked(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    output = output_of(capsys, "score", str(many(tmp_path)), "--runs")

    assert runs_of(output) == [f"run {number}" for number in range(1, 7)]
    assert "--runs" not in output


def test_few_runs_are_all_printed(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    output = output_of(capsys, "score", str(recording(tmp_path)))

    assert runs_of(output) == ["run 1", "run 2"]
    assert "--runs" not in output


def test_against_what_was_held_there_is_a_summary_too(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    found = scored(capsys, str(many(tmp_path)), "--against", "held")

    assert found["summary"]["typical"]["dip"] == pytest.approx(7, abs=0.1)
    assert (found["summary"]["blips"], found["summary"]["early_known"]) == (6, 0)
    assert found["summary"]["extra_distance"] == pytest.approx(
        max(blip["extra_distance"] for run in found["runs"] for blip in run["blips"])
    )


def test_json_has_the_summary_and_every_run_whole(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = str(many(tmp_path))
    found, asked = scored(capsys, path), scored(capsys, path, "--runs")

    assert found == asked
    assert len(found["runs"]) == 6
    summary = found["summary"]
    assert (summary["blips"], summary["scored"], summary["early"]) == (6, 5, 0)
    assert summary["reasons"] == {"the brake was released with the blip": 1}
    assert summary["typical"] == pytest.approx(
        {"count": 5, "dip": 8, "low": 6, "high": 12}, abs=0.02
    )
    assert summary["extra_distance"] == max(run["extra_distance"] for run in found["runs"][:5])
    assert (summary["seconds"], summary["places"]) == (pytest.approx(33, abs=0.01), [])


def test_a_noisy_brake_is_told_and_a_quiet_one_is_not(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    quiet = scored(capsys, str(many(tmp_path)))
    noisy = scored(capsys, str(many(tmp_path, noise=1.0)))

    assert quiet["warnings"] == []
    assert noisy["warnings"] == [
        "the brake of this recording is noisy, 1.0 points: it makes dips deeper"
    ]
    assert noisy["summary"]["noise"] == pytest.approx(0.954, rel=0.05)


def test_runs_are_refused_where_a_window_is_measured(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = str(recording(tmp_path))

    line = refused(
        capsys, "score", path, "--hold", "1:2", "--target", "60", "--tolerance", "5", "--runs"
    )

    assert line == ("stillfoot: --runs: expected together with runs of blips, found --hold\n")
