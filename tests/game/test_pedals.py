"""`stillfoot pedals` on virtual pedals, in a process of its own without a display."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from drills.health.pedal import measure_health
from drills.health.raw_file import read_raw
from engine.commands.main import main
from engine.setup.health_saved import saved_hardware
from engine.store import open_history
from tests.pedals_process import KINDS, ROOT, reported


def check(folder: Path, *seconds: str) -> subprocess.CompletedProcess[str]:
    """Run the health check in a process, and stop it after some seconds if they are given."""
    headless = {name: value for name, value in os.environ.items() if name != "DISPLAY"}
    file = str(folder / "pedals.txt")
    return subprocess.run(
        [sys.executable, "tests/pedals_process.py", str(folder), file, *seconds],
        cwd=ROOT,
        env=headless,
        capture_output=True,
        text=True,
        timeout=90,
        check=False,
    )


def test_pedals_of_two_devices_are_told_as_they_are_and_again_from_the_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    ended = check(tmp_path)

    assert (ended.returncode, ended.stderr) == (0, "")
    raw = read_raw((tmp_path / "pedals.txt").read_text(encoding="utf-8"))
    assert [bound.device for bound in raw.pedals] == ["Quiet Brake", "Quiet Throttle"]
    for health, kind in zip(measure_health(raw), KINDS, strict=True):
        _, bits, rate, _ = kind
        resting = reported(*kind)[round(27.1 * rate) : round(29.9 * rate)]
        assert health.timing is not None
        assert health.step == pytest.approx(100 / 2**bits / 0.875, rel=0.05)
        assert health.timing.interval == pytest.approx(1 / rate, rel=0.05)
        assert health.rest == pytest.approx(resting.std() / 1.75 * 100, rel=0.05)
        assert (health.jumps, health.leap) == (0, None)
        assert health.dead_low < 5
    with open_history(tmp_path, []) as history:
        hardware = saved_hardware(history)
    assert hardware is not None
    assert hardware.interval == pytest.approx(1 / 60, rel=0.05)
    main(["pedals", "--replay", str(tmp_path / "pedals.txt"), "--data", str(tmp_path)])
    assert ended.stdout.endswith(capsys.readouterr().out)
    assert "5 s  Press the brake slowly." in ended.stdout
    assert "\nShift button: button 2 of Quiet Shifter.\n" in f"\n{ended.stdout}"


def test_ctrl_c_leaves_with_one_line_and_no_file(tmp_path: Path) -> None:
    ended = check(tmp_path, "0.5")

    assert (ended.returncode, ended.stderr) == (130, "stillfoot: stopped: nothing was measured\n")
    assert not (tmp_path / "pedals.txt").exists()
