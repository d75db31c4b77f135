"""Days of practice by a foot that learns: what the game plans, says and keeps, a line a day.

    python tests/bench/week.py [DAYS [SKILL [SKILL AT THE END]]]

A warm-up and five minutes a day by the simulated foot, through the same flow as in the window,
each day with a foot of its own luck. The history is thrown away.
"""

from __future__ import annotations

import sys
import tempfile
from collections import Counter
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

import numpy as np  # noqa: E402

from drills.foot import SimulatedFoot  # noqa: E402
from drills.trace import SECOND  # noqa: E402
from engine.drill.attempt import Setting  # noqa: E402
from engine.five.flow import five_minutes, warm_up  # noqa: E402
from engine.five.forecast import forecast_words  # noqa: E402
from engine.five.player_history import steadiness_view  # noqa: E402
from engine.five.saved import sessions_on  # noqa: E402
from engine.kit.flow import watched  # noqa: E402
from engine.ladder.level_files import SHIPPED, load_band, load_levels  # noqa: E402
from engine.pedals.port import CalibratedPedals  # noqa: E402
from engine.pedals.rig import Rig  # noqa: E402
from engine.pedals.simulated import SIMULATED_TRAVEL  # noqa: E402
from engine.practice.results import SessionKind  # noqa: E402
from engine.stage.headless import ManualClock, run_headless  # noqa: E402
from engine.stage.scene import Flow, Scene, T  # noqa: E402
from engine.store import (  # noqa: E402
    History,
    ledger,
    open_history,
)
from tests.engine.five.learning_foot import Feet  # noqa: E402
from tests.fakes import a_stage  # noqa: E402

FIRST = datetime(2024, 5, 1, 20, tzinfo=UTC)
LEVELS, BAND = load_levels([SHIPPED]), load_band()
MINUTES = 5.0
SEED = 100  # of the foot of the first day


class Sat:
    """What was seen of a flow that was sat through."""

    def __init__(self) -> None:
        self.screens = Counter[str]()
        self.last: Mapping[str, object] = {}

    def opened(self, scene: Scene) -> None:
        """One more screen was shown."""
        self.screens[scene.screen.name] += 1
        self.last = scene.screen.details()

    def through(self, flow: Flow[T]) -> Flow[T]:
        """The same flow, watched."""
        return watched(flow, self.opened, lambda _: None)


def practise(history: History, number: int, skill: float) -> str:
    """A warm-up and five minutes of day `number` (from 0); what there is to say of them."""
    clock = ManualClock()
    foot = Feet(SimulatedFoot(skill, SEED + number), clock, "")
    rig = Rig(clock, pedals=CalibratedPedals(foot, SIMULATED_TRAVEL))
    day = FIRST + timedelta(days=number)

    def now() -> datetime:
        return day + timedelta(seconds=clock() / SECOND)

    rng = np.random.default_rng(number)
    setting = Setting(rig, a_stage(foot), history, rng, now, levels=LEVELS)
    warmed, sat = Sat(), Sat()
    run_headless(warmed.through(warm_up(setting, history, BAND)), clock)
    took = clock() / SECOND
    ahead = forecast_words(setting, history, BAND, MINUTES)
    run_headless(sat.through(five_minutes(setting, history, BAND, MINUTES)), clock)
    five = next(one for one in sessions_on(history, day.date()) if one.what is SessionKind.FIVE)
    band, today = steadiness_view(history, BAND, day.date()), sat.last
    said = [
        f"day {number + 1:2}  skill {skill:.2f}",
        f"warm-up {took:3.0f} s: {str(warmed.last['heading']).removeprefix('Warmed up: ')}",
        f"forecast: {ahead}",
        f"{five.spent:5.1f} s of {60 * MINUTES:.0f}",
        f"{today['clean']} of {today['counted']} clean",
        f"shown again {sat.screens['shown']}",
        f"kept {len(today['kept'])}" if isinstance(today["kept"], tuple) else "",
        f"passed {len(today['passed'])}" if isinstance(today["passed"], tuple) else "",
        "no band yet"
        if band is None
        else f"band {band.value:.1f} ({band.low:.1f}-{band.high:.1f})",
        f"{len(ledger.passed(history) - {BAND.id})} passed so far",
    ]
    return "; ".join(filter(None, said))


def main() -> None:
    """Print the days."""
    days = int(sys.argv[1]) if len(sys.argv) > 1 else 7
    first = float(sys.argv[2]) if len(sys.argv) > 2 else 0.5
    last = float(sys.argv[3]) if len(sys.argv) > 3 else first + 0.1
    with tempfile.TemporaryDirectory() as folder, open_history(Path(folder), []) as history:
        for number in range(days):
            skill = first + (last - first) * number / max(days - 1, 1)
            print(practise(history, number, skill), flush=True)
        streaks = ledger.streaks(history, (FIRST + timedelta(days=days - 1)).date())
        print(f"{streaks.days_streak} days in a row, {streaks.best_clean_streak} clean in a row")


if __name__ == "__main__":
    main()
