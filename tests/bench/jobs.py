"""Work on a whole history, each job timed in a process of its own, with all that it starts.

To measure more, add a Job to JOBS.
"""

import json
import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import redirect_stdout, suppress
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

import pygame  # noqa: E402

from engine.commands.main import main as stillfoot  # noqa: E402
from engine.ladder.level_files import load_band  # noqa: E402
from engine.progress.history_pages import PAGES  # noqa: E402
from engine.progress.history_screens import HistoryPage  # noqa: E402
from engine.progress.progress import progress_of  # noqa: E402
from engine.store import open_history  # noqa: E402
from tests.bench.simulated_practice import FIRST, LEVELS  # noqa: E402

LOOK = 0.05
"""s from one look at the memory of a job to the next."""


@dataclass(frozen=True)
class Job:
    """Something that is done with a whole history."""

    name: str
    """For the table."""
    run: Callable[[Path, Path], None]
    """Does it with a data folder, and a folder for what it leaves to the next."""


@dataclass(frozen=True)
class Cost:
    """What a job took."""

    seconds: float
    """s, from begin to end."""
    cores: float
    """1, processor time of it and all it started, over that."""
    memory: float
    """MB, the most that they had together; what they share is counted once."""


def look_back(data: Path, _: Path) -> None:
    """The screen of the history, opened, and each of its pages drawn."""
    today = FIRST.date() + timedelta(days=4000)
    with open_history(data, []) as history:
        shown = progress_of(history, LEVELS, load_band(), today)
    pygame.font.init()
    surface = pygame.Surface((1920, 1080), depth=32)
    for name in PAGES:
        HistoryPage(shown, name).draw(surface, 0.0)


def command(*words: str, folder: str = "{data}") -> Callable[[Path, Path], None]:
    """A command of the program as a job, run on a data folder.

    In the words and the folder, `{data}` is the job's data folder and `{left}` the folder for what
    it leaves to later jobs.
    """

    def run(data: Path, left: Path) -> None:
        # What it prints would be taken for what the job took.
        with Path(os.devnull).open("w") as nowhere, redirect_stdout(nowhere):
            arguments = [word.format(data=data, left=left) for word in (*words, "--data", folder)]
            assert stillfoot(arguments) == 0

    return run


JOBS = (
    Job("look back", look_back),
    Job("report", command("report", "--html", "{left}/a.html", "--png", "{left}/a.png")),
    Job("export", command("export", "--traces", "{left}/csv")),
    Job("backup", command("backup", "{left}/backup")),
    Job("restore", command("restore", "{left}/backup", folder="{left}/restored")),
    Job("remeasure", command("remeasure", "--dry-run")),
)
"""In the order that they can be done."""


def cost(job: Job, data: Path, left: Path) -> Cost:
    """What a job takes, as a process and those it starts."""
    command = [sys.executable, __file__, job.name, str(data), str(left)]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True) as process:
        most = 0.0
        while process.poll() is None:
            most = max(most, sum(map(memory_of, family(process.pid))))
            time.sleep(LOOK)
        assert process.returncode == 0
        assert process.stdout is not None
        # Libraries may greet on the lines before.
        seconds, processor = json.loads(process.stdout.read().splitlines()[-1])
    return Cost(seconds, processor / seconds, most)


def family(number: int) -> Iterator[int]:
    """A process and all below it, as Linux lists them."""
    yield number
    with suppress(OSError):
        for task in Path(f"/proc/{number}/task").iterdir():
            for child in (task / "children").read_text(encoding="ascii").split():
                yield from family(int(child))


def memory_of(number: int) -> float:
    """MB of a process, its part of what it shares with others; 0 where it has ended."""
    with suppress(OSError):
        for line in Path(f"/proc/{number}/smaps_rollup").read_text(encoding="ascii").splitlines():
            if line.startswith("Pss:"):
                return int(line.split()[1]) / 1000
    return 0.0


def main() -> None:
    """Do one job, and print what it took: s, and s of processors."""
    name, data, left = sys.argv[1:]
    began, before = time.perf_counter(), sum(os.times()[:4])
    next(job for job in JOBS if job.name == name).run(Path(data), Path(left))
    took = time.perf_counter() - began
    print(json.dumps([took, sum(os.times()[:4]) - before]))


if __name__ == "__main__":
    main()
