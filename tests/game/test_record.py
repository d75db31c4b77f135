"""`stillfoot record` on virtual pedals, in a process of its own without a display."""

import os
import subprocess
import sys
from pathlib import Path

import numpy as np

from drills.calibration import COUNTS
from drills.recording import Format, read_recording
from tests.record_process import ENDS, REPORTED, ROOT, SLOWER, SPAN

SECONDS = 1.3
"""Seconds of recording."""


def test_a_terminated_recording_has_whole_reports_in_order_and_opened_the_pedals_alone(
    tmp_path: Path,
) -> None:
    headless = {name: value for name, value in os.environ.items() if name != "DISPLAY"}
    file = tmp_path / "drive.csv"

    ended = subprocess.run(
        [sys.executable, "tests/record_process.py", str(tmp_path), str(file), f"{SECONDS}"],
        cwd=ROOT,
        env=headless,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )

    trace = read_recording(file.read_text(), Format()).trace
    reports = np.load(tmp_path / REPORTED)
    assert ended.returncode == 0, ended.stderr
    assert '"opened": ["Quiet Works Pedals"]' in ended.stdout
    assert "No blips with the brake on were found" in ended.stdout
    assert trace.clutch is not None
    for pedal, slower in zip((trace.brake, trace.throttle, trace.clutch), SLOWER, strict=True):
        counts = np.array([(ENDS.raw(value) + 1) * COUNTS for value in pedal.tolist()])
        whole = np.rint(counts)
        assert np.abs(counts - whole).max() < 1e-6
        assert np.diff(whole).min() >= 0
        assert np.isin(whole, reports // slower % SPAN).all()
    assert trace.brake[-1] > trace.brake[0]
