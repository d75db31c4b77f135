"""`stillfoot record` in this process, on virtual pedals that count their reports.

    python tests/record_process.py DATA FILE SECONDS

The brake reports 1000 times a second, the throttle 250 and the clutch 125 times: each report is
one count further, so that a recording tells which of them it has. A wheel is plugged in beside
them, out and in again. After so many seconds it is stopped as a terminal stops it, and lines of
JSON say what there was to record, and which devices were opened for it.
"""

import json
import os
import signal
import sys
import threading
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))

import numpy as np  # noqa: E402
import pygame  # noqa: E402

from drills.calibration import COUNTS, Range  # noqa: E402
from engine.commands.main import main  # noqa: E402
from engine.pedals.bound import Binding, BoundAxis  # noqa: E402
from engine.pedals.sdl import Devices  # noqa: E402
from engine.setup.saved_rigs import add_rig  # noqa: E402
from engine.stage.polling import joysticks_without_window  # noqa: E402
from engine.store import open_history  # noqa: E402
from tests.rig import Feeder, VirtualPedals  # noqa: E402
from tests.waiting import wait_for, wait_until  # noqa: E402

RATE = 1000.0  # Hz, of the brake
SLOWER = (1, 4, 8)  # reports of the brake for one of brake, throttle and clutch
ENDS = Range(-1.0, 1.0 - 1 / COUNTS)
SPAN = 2 * COUNTS - 1  # counts from one end to the other
REPORTED = "reported.npy"  # in the data folder: the numbers of the reports that were made
SETTLING = 1.0  # s of recording before processor time counts


class Counting:
    """Where the pedals are so many s after the start; the reports of the brake are noted."""

    def __init__(self) -> None:
        self.reported: list[int] = []

    def __call__(self, seconds: float) -> list[float]:
        """Every pedal, -1 to 1."""
        step = round(seconds * RATE)
        self.reported.append(step)
        return [(step // slower % SPAN) / COUNTS - 1 for slower in SLOWER]


def bind(folder: Path) -> None:
    """Keep the only device as pedals that were set up."""
    devices = Devices()
    devices.rescan()
    [device] = devices.plugged
    brake, throttle, clutch = (BoundAxis(device.identity, axis, ENDS) for axis in range(3))
    with open_history(folder, []) as history:
        add_rig(history, Binding(brake, throttle, clutch))


def count_openings() -> list[str]:
    """Names of the devices that are opened in this process from now on, as they are opened."""
    opened: list[str] = []
    opens = pygame.joystick.Joystick

    def opening(index: int) -> pygame.joystick.JoystickType:
        joystick = opens(index)
        opened.append(joystick.get_name())
        return joystick

    vars(pygame.joystick)["Joystick"] = opening
    return opened


def run(folder: Path, file: Path, seconds: float) -> int:
    """Record for so long; the exit code."""
    clock = time.pthread_getcpuclockid(threading.get_ident())
    with joysticks_without_window(), VirtualPedals() as pedals:
        bind(folder)
        wheel = VirtualPedals("Wheel", product=2, buttons=9).plug().leave()
        opened = count_openings()
        counting = Counting()
        feeder = Feeder(pedals, counting, RATE)

        def drive() -> None:
            wait_for(file.exists)
            began = time.monotonic_ns()
            feeder.start()
            print(json.dumps({"began": began}), flush=True)
            wheel.unplug()
            wheel.plug().leave()
            wait_until(began / 1e9 + SETTLING)
            before, at = time.clock_gettime(clock), time.monotonic()
            wait_until(began / 1e9 + seconds)
            share = (time.clock_gettime(clock) - before) / (time.monotonic() - at)
            feeder.stop()
            np.save(folder / REPORTED, np.array(counting.reported))
            print(json.dumps({"processor": share, "opened": opened}), flush=True)
            os.kill(os.getpid(), signal.SIGTERM)

        threading.Thread(target=drive, daemon=True).start()
        return main(["record", str(file), "--data", str(folder)])


if __name__ == "__main__":
    sys.exit(run(Path(sys.argv[1]), Path(sys.argv[2]), float(sys.argv[3])))
