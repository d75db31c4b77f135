"""How long a repetition and a set take a person: seconds of each phase, at a person's pace.

    python tests/bench/pace.py [LEVELS]

Sets of every blip level, or of the first LEVELS of them. A person lets go when the light comes
back, reads the target for 0.4 s, squeezes for 0.6 s, and answers a cue after 0.35 s with a stab of
0.25 s (common practice). Two of ten are not clean.
"""

from __future__ import annotations

import math
import sys
import tempfile
from collections import defaultdict
from datetime import UTC, datetime
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

import numpy as np  # noqa: E402

from drills.calibration import UNIT  # noqa: E402
from drills.phases import Event, Phase, Transition  # noqa: E402
from drills.task import Task  # noqa: E402
from drills.trace import SECOND  # noqa: E402
from engine.drill.attempt import Setting  # noqa: E402
from engine.drill.set import run_set  # noqa: E402
from engine.ladder.level_files import SHIPPED, load_levels  # noqa: E402
from engine.pedals.port import CalibratedPedals, Reading  # noqa: E402
from engine.pedals.rig import Rig  # noqa: E402
from engine.stage.headless import ManualClock  # noqa: E402
from engine.store import open_history  # noqa: E402
from tests.fakes import Audience, a_stage  # noqa: E402

READS, SQUEEZES, LETS_GO = 0.4, 0.6, 0.3  # s
ANSWERS, STAB = 0.35, 0.25  # s
TREMOR, TREMBLES = 0.02, 9.0  # % and Hz, as no foot is still
STEP = 1_000_000  # ns
DATE = datetime(2024, 5, 17, tzinfo=UTC)


class Person(Audience):
    """Feet that do what the screen asks, at their own pace."""

    name, is_feet, counts, label = "person", True, True, ""

    def __init__(self, clock: ManualClock, level_limit: float) -> None:
        super().__init__()
        self._clock = clock
        self._limit = level_limit
        self._course = [(0, 0.0), (1, 0.0)]
        self._blip = -SECOND
        self._number = 0

    def on_task(self, task: Task) -> None:
        """Read it, then squeeze the brake."""
        super().on_task(task)
        self._number += 1
        start = self._clock() + round(READS * SECOND)
        self._course = [(start, 0.0), (start + round(SQUEEZES * SECOND), task.target)]

    def on_transition(self, transition: Transition) -> None:
        """Answer the cue; let go when the light is back."""
        super().on_transition(transition)
        now = self._clock()
        if transition.event is Event.CUE:
            self._blip = now + round(ANSWERS * SECOND)
        if transition.phase in (Phase.DONE, Phase.VOID):
            self._course = [(now, self._course[-1][1]), (now + round(LETS_GO * SECOND), 0.0)]

    def read(self) -> Reading:
        """The pedals now: every fifth blip dips by more than the level allows."""
        now = self._clock()
        times, levels = zip(*self._course, strict=True)
        brake = float(np.interp(now, times, levels))
        if brake > 0:
            brake += TREMOR * math.sin(math.tau * TREMBLES * now / SECOND)
        share = (now - self._blip) / (STAB * SECOND)
        pulse = np.sin(np.pi * share) if 0 <= share < 1 else 0.0
        dip = self._limit * (1.5 if self._number % 5 == 0 else 0.5)
        return Reading(now, (brake - dip * pulse) / 100, 0.7 * pulse)


def main() -> None:
    """Print the table."""
    spent: dict[str, list[float]] = defaultdict(list)
    levels = [one for one in load_levels([SHIPPED]) if one.kind.name == "blip"]
    for level in levels[: int(sys.argv[1]) if len(sys.argv) > 1 else None]:
        clock = ManualClock()
        person = Person(clock, level.limits["dip"])
        rig = Rig(clock, pedals=CalibratedPedals(person, UNIT))
        with tempfile.TemporaryDirectory() as folder, open_history(Path(folder), []) as history:
            setting = Setting(rig, a_stage(person), history, np.random.default_rng(1), lambda: DATE)
            for scene in run_set(level, setting, level.repetitions):
                began = clock()
                while scene.screen.outcome is None:
                    clock.advance(STEP)
                    scene.screen.on_sample(rig.sample(), clock())
                spent[scene.screen.name].append((clock() - began) / SECOND)
        records = [record for _, record in person.records]
        clean = sum(record.verdict.clean for record in records)
        print(f"{level.id:16s} {clean} of {len(records)} clean: set of {clock() / SECOND:5.1f} s")
        before: Transition | None = None
        for step in person.transitions:
            if before is not None and before.phase not in (Phase.DONE, Phase.VOID):
                spent[before.phase.value].append((step.time - before.time) / SECOND)
            before = step
    for name, seconds in spent.items():
        print(f"{name:12s} mean {np.mean(seconds):5.2f} s   largest {max(seconds):5.2f} s")


if __name__ == "__main__":
    main()
