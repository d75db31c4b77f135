"""Scripts in a process of their own, as a loop and its window are one a process."""

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]


def printed(script: str) -> list[str]:
    """Lines that a script prints, on SDL's dummy video driver; it must write no error."""
    drawn_nowhere = {"SDL_VIDEODRIVER": "dummy", "PYGAME_HIDE_SUPPORT_PROMPT": "1"}
    ended = subprocess.run(
        [sys.executable, "-c", script],
        cwd=ROOT,
        env=os.environ | drawn_nowhere,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert ended.stderr == ""
    return ended.stdout.splitlines()
