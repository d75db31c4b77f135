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

from engine.commands.cores import all_cores  # noqa: E402
from engine.commands.main import main as stillfoot  # noqa: E402
from engine.commands.remeasure import Remeasured, remeasure  # noqa: E402
from engine.ladder.level_files import load_band  # noqa: E402
from engine.progress.history_pages import PAGES  # noqa: E402
from engine.progress.history_screens import HistoryPage  # noqa: E402
from engine.progress.progress import progress_of  # noqa: E402
from engine.store import open_history  # noqa: E402
from engine.store.backup import back_up  # noqa: E402
from engine.store.export import export  # noqa: E402
from engine.store.repetitions import newest_number  # noqa: E402
from tests.bench.evening import FIRST, LEVELS  # noqa: E402

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


def report(data: Path, left: Path) -> None:
    """Said, and as a page and a picture."""
    # What it prints would be taken for what the job took.
    with Path(os.devnull).open("w") as nowhere, redirect_stdout(nowhere):
        files = ["--html", str(left / "a.html"), "--png", str(left / "a.png")]
        assert stillfoot(["report", "--data", str(data), *files]) == 0


def write_out(data: Path, left: Path) -> None:
    """Everything as CSV, with traces."""
    with open_history(data, []) as history:
        export(history, left / "csv", silent, traces=True)


def copy_out(data: Path, left: Path) -> None:
    """A backup."""
    with open_history(data, []) as history:
        back_up(history, left / "backup")


def measure_again(data: Path, _: Path) -> None:
    """Every trace, changing nothing."""
    with open_history(data, []) as history:
        newest = newest_number(history)
    found = Remeasured()
    assert not list(remeasure(data, newest, found, all_cores, silent))
    assert found.measured + found.left_out.total() == newest


def silent(_done: int, _of: int) -> None:
    """Nobody is told."""


JOBS = (
    Job("look back", look_back),
    Job("report", report),
    Job("export", write_out),
    Job("backup", copy_out),
    Job("remeasure", measure_again),
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
        seconds, processor = json.loads(process.stdout.read())
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
