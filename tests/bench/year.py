"""A year of five minutes a day by a simulated foot: what the planner asks of it, a line a week.

    python tests/bench/year.py [--foot learner|expert] [--weeks N] [--days-a-week N] [--rest WEEK]
        [--traces] [--samples N]

The real planner plans each repetition, a simulated foot plays it, the real judge judges it and a
real history keeps it; no screens. A learner's skill grows with practice from 0.15 to 0.95, nearly
two thirds of it in two months; an expert's is 0.95. Three weeks' rest begin with week `--rest`.
Each level is played `--samples` times at each of 21 skills; after that a verdict is drawn from
those. The steadiness blips are always judged by the tolerance asked. The history is thrown away.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from statistics import median

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

import numpy as np  # noqa: E402

from drills.foot import SimulatedFoot  # noqa: E402
from engine.drill.attempt import Setting  # noqa: E402
from engine.drill.demonstration import Demonstration  # noqa: E402
from engine.five.planner import works_on  # noqa: E402
from engine.game import home_words  # noqa: E402
from engine.game.facts import facts_of  # noqa: E402
from engine.game.offer import Offer  # noqa: E402
from engine.pedals.port import CalibratedPedals  # noqa: E402
from engine.pedals.rig import Rig  # noqa: E402
from engine.pedals.simulated import SIMULATED_TRAVEL  # noqa: E402
from engine.practice.focus import Focus  # noqa: E402
from engine.practice.results import Result  # noqa: E402
from engine.stage.headless import ManualClock  # noqa: E402
from engine.store import open_history  # noqa: E402
from tests.bench.judged_feet import Feet, JudgedFeet  # noqa: E402
from tests.bench.practising import BAND, EXPERT, LEARNER, LEVELS, Player  # noqa: E402
from tests.fakes import a_stage  # noqa: E402

BEGIN = datetime(2024, 1, 1, 18, tzinfo=UTC)
MONTH = 30
"""Days over which the share of the commonest level is taken."""
REST_WEEKS = 3
LATE = timedelta(days=7)
"""How long a check-up may wait before it counts as late."""
OFFER = Offer(LEVELS, BAND, Demonstration(LEVELS[0], 1, 3, 1.0))
PRACTISED = {7: range(7), 6: range(6), 3: (0, 2, 4), 2: (0, 3)}
"""Days of the week with practice, from 0, by how many there are."""


@dataclass
class Year:
    """What is known of a year so far beside its history."""

    results: list[Result] = field(default_factory=list)
    """Every repetition so far, oldest first."""
    spent: float = 0.0
    """Seconds practised so far."""
    worst_share: float = 0.0
    """Largest share of one level in any month so far, from 0 to 1."""
    most_late: int = 0
    """Most levels whose check-up waited over a week on one day, as a count."""

    def commonest(self, today: date) -> tuple[str, float]:
        """Level played most often in the month that ends today, and its share from 0 to 1."""
        begins = today - timedelta(days=MONTH)
        found = Counter(one.level for one in self.results if one.day > begins and one.counts)
        if not found:
            return "", 0.0
        [(level, times)] = found.most_common(1)
        return level, times / found.total()


def late(player: Player, day: date) -> int:
    """Levels whose check-up has waited for over a week on a day."""
    kept = player.state(day).retention.values()
    return sum(one.due is not None and day - one.due > LATE for one in kept)


def week_line(player: Player, year: Year, week: int, day: int) -> str:
    """How the player stands at the end of a week, and what home says on the next morning."""
    today = player.moment(day).date()
    state = player.state(today)
    tomorrow = player.moment(day + 1)
    clock = ManualClock()
    feet = Feet(SimulatedFoot(0.5, 1), clock, "")
    rig = Rig(clock, pedals=CalibratedPedals(feet, SIMULATED_TRAVEL))
    stage, rng = a_stage(feet), np.random.default_rng(1)
    setting = Setting(rig, stage, player.history, rng, lambda: tomorrow, levels=LEVELS)
    facts = facts_of(setting, player.history, OFFER)
    kept = state.retention.values()
    level, share = year.commonest(today)
    factors = [one.factor for one in state.personal.values() if one.factor is not None]
    steady = facts.steadiness
    first = home_words.first_line(facts.streaks, facts.focus, placing=False)
    cells = [
        f"{week:3}",
        f"{works_on(state).id:18}",
        f"{len(state.done):2} passed",
        f"{sum(one.is_retained for one in kept):2} retained",
        f"{len(state.due):2} due ({late(player, today)} late)",
        f"{share:4.0%} {level:18}",
        "steadiness    -" if steady is None else f"steadiness {steady.value:4.1f}",
        f"limit {median(factors):4.2f} of {len(factors):2}" if factors else "limit    -      ",
        focus_cell(state.focus),
        f"{year.spent / 60:5.0f} min",
        f"home: {next(first)} | {next(home_words.plan_line(facts.five))}",
    ]
    return "; ".join(cells)


def focus_cell(focus: Focus | None) -> str:
    """The fault worked on, in how many of the newest blips it was and is; a dash for none."""
    if focus is None:
        return "-"
    return f"{focus.fault.value} {focus.now.times} of {focus.now.of}, was {focus.was.times}"


def play_year(
    player: Player, weeks: int, days: Sequence[int], rest: int | None, year: Year
) -> None:
    """Practise week by week, and print each; `rest` is the first week of three without practice."""
    for week in range(1, weeks + 1):
        first = 7 * (week - 1)
        if rest is not None and 0 <= week - rest < REST_WEEKS:
            print(f"{week:3}; rest", flush=True)
            continue
        for day in (first + one for one in days):
            session = player.practise(day)
            year.results += session.results
            year.spent += session.spent
            today = player.moment(day).date()
            if day >= MONTH:
                year.worst_share = max(year.worst_share, year.commonest(today)[1])
            year.most_late = max(year.most_late, late(player, today))
        print(week_line(player, year, week, first + 6), flush=True)


def main() -> None:
    """Print the year."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--foot", choices=("learner", "expert"), default="learner")
    parser.add_argument("--weeks", type=int, default=52, help="in the year (%(default)s)")
    parser.add_argument("--days-a-week", type=int, choices=sorted(PRACTISED), default=6)
    parser.add_argument("--rest", type=int, metavar="WEEK", help="first of three weeks' rest")
    parser.add_argument("--traces", action="store_true", help="keep what the pedals read")
    parser.add_argument("--samples", type=int, default=30, help="verdicts of each (%(default)s)")
    options = parser.parse_args()
    curve = LEARNER if options.foot == "learner" else EXPERT
    again = frozenset({BAND.id})
    feet = JudgedFeet(SimulatedFoot, options.samples, again, traces=options.traces)
    year, began = Year(), time.perf_counter()
    with tempfile.TemporaryDirectory() as folder, open_history(Path(folder), []) as history:
        player = Player(history, feet, curve, BEGIN)
        days = PRACTISED[options.days_a_week]
        play_year(player, options.weeks, days, options.rest, year)
    took = time.perf_counter() - began
    print(
        f"{options.foot}, {options.days_a_week} days a week: commonest level of any month"
        f" {year.worst_share:.0%} of it; most check-ups late {year.most_late};"
        f" {len(year.results)} repetitions in {took:.0f} s, {len(year.results) / took:.0f} a"
        f" second, {feet.played} of them stepped"
    )


if __name__ == "__main__":
    main()
