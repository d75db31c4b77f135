"""What noise of the brake does to levels, and which of them are marked as partly luck for it.

    python tests/bench/luck.py [REPETITIONS [ID...]]

The same practised foot at each noise, through a device that reports 250 times a second: how many
of its repetitions are clean, with a star where the level is marked.
"""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

import numpy as np  # noqa: E402

from drills.calibration import COUNTS  # noqa: E402
from drills.foot import SimulatedFoot  # noqa: E402
from drills.health.luck import Hardware, is_luck  # noqa: E402
from drills.level import Level  # noqa: E402
from drills.trace import SECOND  # noqa: E402
from engine.drill.attempt import conclude  # noqa: E402
from engine.ladder.level_files import SHIPPED, load_levels  # noqa: E402
from engine.pedals.port import CalibratedPedals, Reading  # noqa: E402
from engine.pedals.rig import Rig  # noqa: E402
from engine.pedals.simulated import (  # noqa: E402
    SIMULATED_TRAVEL,
    STEP_COUNTS,
    STEPS,
    SimulatedPedals,
)
from engine.stage.headless import STEP, ManualClock  # noqa: E402
from tests.simulated_repetitions import DATE, READING, played_to_its_end  # noqa: E402

SKILLS = {"blip-5-still": 0.95, "quiet-five": 0.85, "still-1-light": 0.4, "ease-6-still": 0.9}
NOISES = (0.0, 0.3, 0.6, 1.0, 1.4, 2.0)  # points, standard deviations
INTERVAL = 0.004  # s
REPETITIONS = 40


class NoisyBrake:
    """Source around another one: a device that reports seldom, with noise on its brake."""

    name, is_feet, counts, label = "noisy", True, False, ""

    def __init__(self, inner: SimulatedPedals, noise: float, seed: int) -> None:
        self._inner = inner
        self._noise = noise
        self._rng = np.random.default_rng(seed)
        self._reported = inner.read()
        self._report = -1

    def read(self) -> Reading:
        """The newest report."""
        now = self._inner.read()
        report = int(now.time / SECOND / INTERVAL)
        if report != self._report:
            off = round(self._noise / 100 * STEPS * self._rng.standard_normal())
            brake = now.brake + off * STEP_COUNTS / COUNTS
            self._report, self._reported = report, replace(now, brake=brake)
        return replace(self._reported, time=now.time)


def clean(level: Level, skill: float, noise: float, count: int) -> int:
    """Number of clean repetitions of the simulated foot."""
    clock = ManualClock()
    foot = SimulatedPedals(SimulatedFoot(skill, 5), clock)
    noisy = NoisyBrake(foot, noise, seed=1)
    rig = Rig(clock, pedals=CalibratedPedals(noisy, SIMULATED_TRAVEL))
    rng, found = np.random.default_rng(5), 0
    for number in range(1, count + 1):
        task = level.kind.task(level, level.targets.at(number, rng), rng)
        repetition = played_to_its_end(task, foot, rig.sample, clock, STEP)
        record, _ = conclude(level, task, repetition, rig, DATE)
        found += record.verdict.clean
        foot.on_menu()
        clock.advance(READING)
    return found


def main() -> None:
    """Print the table."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else REPETITIONS
    levels = {level.id: level for level in load_levels([SHIPPED])}
    print(f"clean of {count:<8}" + "".join(f"{noise:7.1f}" for noise in NOISES))
    for name in sys.argv[2:] or SKILLS:
        level, cells = levels[name], []
        for noise in NOISES:
            star = "*" if is_luck(level, Hardware(100 / STEPS, noise, INTERVAL)) else " "
            cells.append(f"{clean(level, SKILLS.get(name, 0.9), noise, count):6d}{star}")
        print(f"{name:17}" + "".join(cells), flush=True)


if __name__ == "__main__":
    main()
