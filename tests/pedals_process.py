"""`stillfoot pedals` in this process, on virtual pedals that follow what is asked.

    python tests/pedals_process.py DATA FILE [SECONDS]

The brake is on a device of 12 bits that reports 125 times a second, the throttle on one of 8 bits
that reports 60 times; both have noise. The shift button is on a third device. After so many
seconds it is stopped as a terminal does.
"""

import os
import signal
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))

import numpy as np  # noqa: E402

from drills.calibration import Range  # noqa: E402
from drills.health.course import LENGTH, course_of  # noqa: E402
from drills.trace import Pedal, Values  # noqa: E402
from engine.commands.main import main  # noqa: E402
from engine.pedals.bound import Binding, BoundAxis, BoundButton  # noqa: E402
from engine.pedals.sdl import Devices  # noqa: E402
from engine.setup.saved_rigs import add_rig  # noqa: E402
from engine.stage.polling import joysticks_without_window  # noqa: E402
from engine.store import open_history  # noqa: E402
from tests.drills.health.virtual import TREMOR, TWO, foot  # noqa: E402
from tests.rig import Feeder, VirtualPedals  # noqa: E402
from tests.waiting import wait_for, wait_until  # noqa: E402

ENDS = Range(-0.875, 0.875)
BITS = (12, 8)
RATES = (125.0, 60.0)  # Hz
NOISE = (0.4, 0.6)  # points, a standard deviation
KINDS = tuple(zip(TWO, BITS, RATES, NOISE, strict=True))
REST = (-0.875,)
LEVER = 1  # number of the button that is the shift button


def reported(pedal: Pedal, bits: int, rate: float, noise: float) -> Values:
    """Positions of an axis, -1 to 1, that its device reports one after another."""
    times = np.arange(0, 2 * LENGTH, 1 / rate)
    way = foot(course_of(TWO), pedal, times, TREMOR)
    way += noise * np.random.default_rng(bits).standard_normal(times.size)
    step = 2.0 / 2**bits
    axis = np.array([ENDS.raw(place) for place in way.tolist()])
    return np.asarray(np.floor((axis + 1) / step) * step - 1)


def follower(axis: Values, rate: float) -> Callable[[float], list[float]]:
    """Where an axis of so many reports a second is so many s after the beginning."""

    def position(seconds: float) -> list[float]:
        return [float(axis[min(round(seconds * rate), axis.size - 1)])]

    return position


def bind(folder: Path) -> None:
    """Keep the first two devices as pedals that were set up, with a shift button on the third."""
    devices = Devices()
    devices.rescan()
    *pedals, shifter = (device.identity for device in devices.plugged)
    brake, throttle = (BoundAxis(device, 0, ENDS) for device in pedals)
    with open_history(folder, []) as history:
        add_rig(history, Binding(brake, throttle, shift=BoundButton(shifter, LEVER)))


def run(folder: Path, file: Path, seconds: float | None) -> int:
    """Check the health of the pedals; the exit code."""
    with (
        joysticks_without_window(),
        VirtualPedals("Quiet Brake", 1, REST, product=1) as brake,
        VirtualPedals("Quiet Throttle", 1, REST, product=2) as throttle,
        VirtualPedals("Quiet Shifter", 0, (), product=3, buttons=2),
    ):
        bind(folder)
        feeders = [
            Feeder(pedals, follower(reported(*kind), kind[2]), kind[2])
            for pedals, kind in zip((brake, throttle), KINDS, strict=True)
        ]

        def follow() -> None:
            wait_for(file.exists)
            for feeder in feeders:
                feeder.start()
            wait_until(time.monotonic() + (LENGTH - 0.1 if seconds is None else seconds))
            for feeder in feeders:
                feeder.stop()
            if seconds is not None:
                os.kill(os.getpid(), signal.SIGINT)

        threading.Thread(target=follow, daemon=True).start()
        return main(["pedals", "--save", str(file), "--data", str(folder)])


if __name__ == "__main__":
    stop_after = float(sys.argv[3]) if len(sys.argv) > 3 else None
    sys.exit(run(Path(sys.argv[1]), Path(sys.argv[2]), stop_after))
