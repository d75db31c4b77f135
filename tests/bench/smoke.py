"""Every benchmark once, as short as it can be: whether it still runs, and nothing of what it says.

    python tests/bench/smoke.py [NAME ...]

All of them, or those that are named. The exit code is 1 where one fails, or where one has no line
in SHORTEST; what a failed one wrote is printed.
"""

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

HERE = Path(__file__).resolve().parent
LONGEST = 300.0
"""Seconds after which one is taken to hang."""
SHORTEST = {
    "band.py": ("1", "6", "10"),
    "campaign.py": ("--short",),
    "change.py": ("2",),
    "coach_judged.py": ("1",),
    "counting.py": ("2", "1"),
    "sense_judged.py": ("1",),
    "diagnosis.py": ("3", "8"),
    "drives.py": ("1", "2"),
    "faults.py": ("1", "frozen", "honest"),
    "feet.py": (str(Path(tempfile.gettempdir()) / "stillfoot-feet.png"), "640x360"),
    "first_minutes.py": (),
    "learning.py": ("1",),
    "history.py": ("--rounds=1", "--months=2", "--days=1", "--levels=1", "--devices=1"),
    "retention.py": ("20",),
    "learners.py": ("2", "2"),
    "levels.py": ("2", "still-1-light"),
    "loop.py": ("1", "1"),
    "luck.py": ("1", "still-1-light"),
    "motion.py": ("1",),
    "measures.py": ("1", "10"),
    "pace.py": ("1",),
    "personal.py": ("--feet=1", "--days=80"),
    "pieces.py": (str(Path(tempfile.gettempdir()) / "stillfoot-pieces.png"),),
    "rates.py": ("20",),
    "reach.py": ("2", "blip-1-first"),
    "record.py": ("--minutes=0.05", "--kills=1"),
    "sense.py": ("2", "2"),
    "sense_at_best.py": ("2",),
    "sessions.py": ("1", "1"),
    "sounds.py": (),
    "start.py": ("1",),
    "trail.py": ("1", "1"),
    "trial.py": ("10", "10"),
    "trial_days.py": ("5",),
    "trial_played.py": ("6", "", "1"),
    "week.py": ("1",),
    "zone_feet.py": ("--zones=2",),
    "year.py": ("--weeks=1", "--days-a-week=2", "--samples=1"),
}
"""Arguments of each benchmark that let it end soon."""
PARTS = {"game_timing.py", "jobs.py", "rendered_sounds.py"}
"""Programs that another benchmark starts."""


def without_entry() -> Iterator[str]:
    """Benchmarks that nothing says how to run, and lines for those that are gone."""
    programs = {one.name for one in HERE.glob("*.py") if "__main__" in one.read_text("utf-8")}
    yield from sorted((programs - {Path(__file__).name}) ^ (SHORTEST.keys() | PARTS))


def runs(name: str) -> bool:
    """Run one and say how long it took; whether it ended well."""
    began = time.monotonic()
    try:
        ended = subprocess.run(
            [sys.executable, HERE / name, *SHORTEST[name]],
            env=os.environ | {"PYGAME_HIDE_SUPPORT_PROMPT": "1"},
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            timeout=LONGEST,
            check=False,
        )
        code, wrote = ended.returncode, ended.stdout
    except subprocess.TimeoutExpired as error:
        code, wrote = -1, f"not over after {LONGEST:g} s\n{error.stdout!r}"
    well = code == 0 and bool(wrote.strip())
    print(f"{'ok' if well else 'FAILED':8}{name:20}{time.monotonic() - began:6.1f} s", flush=True)
    if not well:
        print(f"exit code {code}\n{wrote}", flush=True)
    return well


def main() -> int:
    """Run them; the exit code."""
    missing = list(without_entry())
    for name in missing:
        print(f"{name}: expected a line in SHORTEST for each benchmark, and none for others")
    well = [runs(name) for name in sys.argv[1:] or SHORTEST]
    return 0 if all(well) and not missing else 1


if __name__ == "__main__":
    sys.exit(main())
