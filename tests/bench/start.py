"""How long until the first picture, against a process that only opens a window.

    python tests/bench/start.py [rounds]

Both are started in turn under the same display; the middle of each and their ratio are printed.
"""

import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from tests.screen import virtual_display  # noqa: E402
from tests.waiting import EventTail  # noqa: E402

ROUNDS = 11
BARE = """
import numpy, pygame
pygame.display.init()
pygame.display.set_mode((1280, 720), pygame.RESIZABLE)
pygame.display.flip()
import time
print(time.monotonic(), flush=True)
"""


def bare(environment: dict[str, str]) -> float:
    """Seconds from starting a bare process to its first picture."""
    began = time.monotonic()
    done = subprocess.run(
        [sys.executable, "-c", BARE], env=environment, capture_output=True, text=True, check=True
    )
    return float(done.stdout.split()[-1]) - began


def game(environment: dict[str, str]) -> float:
    """Seconds from starting the game to its first picture."""
    with tempfile.TemporaryDirectory() as folder:
        log = Path(folder) / "events.jsonl"
        command = [sys.executable, "-m", "engine", "--data", folder, "--events", str(log)]
        began = time.monotonic()
        running = subprocess.Popen(command, env=environment, cwd=ROOT)
        try:
            drawn = EventTail(log).wait(lambda event: event["event"] == "drawn", 30)
        finally:
            running.kill()
            running.wait()
        return float(drawn["t"]) - began


def main() -> None:
    """Print the table."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS
    with virtual_display() as environment:
        # An installed program has its bytecode beside it, as pygame and numpy have theirs.
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        bare(environment), game(environment)
        times = [(bare(environment), game(environment)) for _ in range(rounds)]
    empty, full = (statistics.median(column) for column in zip(*times, strict=True))
    print(f"bare window   {empty * 1000:7.1f} ms")
    print(f"stillfoot     {full * 1000:7.1f} ms")
    print(f"ratio         {full / empty:7.2f}   aim: at most 1.5")


if __name__ == "__main__":
    main()
