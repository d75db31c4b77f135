"""Who gets further in five minutes a day: whom the planner leads, or whom a simple rule does.

    python tests/bench/learners.py [LEARNERS] [DAYS] [FIRST SEED]
    python tests/bench/learners.py --year [LEARNERS] [DAYS A WEEK] [FEET ...]

Simulated learners (learner.py) practise five minutes on each of 60 days, then rest for 14: by the
planner; by every level in order until it is passed; by a random open level each time. All the
same learners, at the same pace, without a placing set, with and without a benefit of mixing in
the model. Passing and keeping go by the program's own rules. Intervals are of 95 in 100, by
bootstrap over learners; differences are of the same learner.

The model is no person. With other weights of its parts, and with learning that does not care how
hard a level is (FEW = 1), the planner still leaves most levels in hand; but to go through them in
order then reaches the last stage as soon, or sooner. It takes about 6 minutes on 2 cores.

`--year` is a year by the planner alone, with 21 days of rest in its middle, on 6 and on 2 days a
week, of each sort of feet in learner_year.py: how often the commonest level comes in any 30 days
(goal: under a third), how many levels wait for a check for over a week (goal: none on 6 days a
week, outside the rest and the three weeks after it), and how far personal limits fall. With 5 of
each it takes about 20 minutes on a core.
"""

from __future__ import annotations

import sys
import time
from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, fields, replace
from datetime import UTC, datetime, timedelta
from functools import partial
from itertools import product
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

import numpy as np  # noqa: E402

from drills.level import Level  # noqa: E402
from engine.five.pace import pace_of  # noqa: E402
from engine.five.planner import Planned, following  # noqa: E402
from engine.five.player_state import PlayerState  # noqa: E402
from engine.practice.passes import is_open  # noqa: E402
from engine.practice.results import Purpose, Session, SessionKind  # noqa: E402
from tests.bench.learner import Learner  # noqa: E402
from tests.bench.learner_day import BAND, LEVELS, Planner, play  # noqa: E402
from tests.bench.learner_year import FEET, WEEKS, Year, year_of  # noqa: E402
from tests.bench.retention import kept  # noqa: E402

LEARNERS, DAYS, REST, MINUTES = 200, 60, 14, 5.0
YEARS = 5
"""count, learners of the year, of each sort of feet."""
FIRST_SEED = 9_000_000
"""The seeds that the planner was tuned on begin at 1: these are others."""
MIXING = 0.3
"""1, benefit of mixing in the model where it is on."""
REMEMBERED = 300
"""count, newest repetitions that the planner is told of."""
BEGIN = datetime(2024, 5, 1, 18, tzinfo=UTC)
LAST_STAGE = "everything"


@dataclass(frozen=True)
class Outcome:
    """What came of one learner's practice."""

    days: float
    """days, to the last stage; one more than there were where it was never reached"""
    passed: float
    """levels passed, of 44"""
    clean: float
    """points, cold on the day after, of the levels passed"""
    kept: float
    """points, chance to be kept on the day after, of the levels passed"""
    in_hand: float
    """levels, expected to be kept on the day after, of 44"""
    rested: float
    """points, cold after the rest, of the levels passed"""
    rested_in_hand: float
    """levels, expected to be kept after the rest, of 44"""
    shown: float
    """levels that the game calls kept"""
    due: float
    """points of the time, that the planner spent on what is due"""
    learning: float
    """points of the time, on the level that is being learned"""
    minutes: float
    """min, spent in all"""
    worst_end: float
    """s, furthest that a day ended from its five minutes"""


def in_order(player: PlayerState, session: Session) -> Planned | None:
    """Every level until it is passed, then whichever."""
    opened = [one for one in LEVELS if is_open(one, player.done)]
    left = [one for one in opened if one.id not in player.done]
    return _while_time(player, session, left[0] if left else _one_of(opened, session))


def at_random(player: PlayerState, session: Session) -> Planned | None:
    """Any open level each time."""
    opened = [one for one in LEVELS if is_open(one, player.done)]
    return _while_time(player, session, _one_of(opened, session))


PLANNERS: Mapping[str, Planner] = {
    "planner": following,
    "(a) in order": in_order,
    "(b) at random": at_random,
}


def outcome(planner: Planner, mixing: float, days: int, seed: int) -> Outcome:
    """One learner, led by one planner."""
    learner = Learner.drawn(seed, mixing)
    rng = np.random.default_rng((seed, 1))
    forms = rng.normal(size=days)
    player = PlayerState(BEGIN.date(), LEVELS, band=BAND)
    reached, spent, ends = days + 1, 0.0, list[float]()
    by_why = defaultdict[Purpose, float](float)
    for day in range(days):
        learner.wakes(day, forms[day])
        began = BEGIN + timedelta(days=day)
        recent = player.recent[-REMEMBERED:]
        player = replace(player, day=began.date(), recent=recent, pace=pace_of(recent))
        session = Session(day, SessionKind.FIVE, began, MINUTES, seed + day)
        player, session = play(learner, planner, player, session, rng)
        spent += MINUTES - session.left / 60
        for one in session.results:
            by_why[one.why] += one.took or 0.0
        ends.append(abs(session.left))
        if reached > days and any(
            is_open(one, player.done) for one in LEVELS if one.stage == LAST_STAGE
        ):
            reached = day + 1
    cold = after(learner, days, player.done)
    rested = after(learner, days + REST, player.done)
    return Outcome(
        days=reached,
        passed=len(player.done),
        clean=100 * float(np.mean(cold)) if cold else 0.0,
        kept=100 * float(np.mean([kept(one) for one in cold])) if cold else 0.0,
        in_hand=sum(map(kept, cold)),
        rested=100 * float(np.mean(rested)) if rested else 0.0,
        rested_in_hand=sum(map(kept, rested)),
        shown=sum(one.is_retained for one in player.retention.values()),
        due=100 * by_why[Purpose.DUE] / 60 / spent,
        learning=100 * by_why[Purpose.LEARN] / 60 / spent,
        minutes=spent,
        worst_end=max(ends),
    )


def _while_time(player: PlayerState, session: Session, level: Level) -> Planned | None:
    return Planned(level, Purpose.LEARN) if session.left > player.pace.of(level) / 2 else None


def _one_of(opened: Sequence[Level], session: Session) -> Level:
    rng = np.random.default_rng((session.seed, len(session.results)))
    return opened[int(rng.integers(len(opened)))]


def after(learner: Learner, day: int, done: frozenset[str]) -> list[float]:
    """1, of being clean cold on a day, for each level passed."""
    learner.wakes(day, 0.0)
    return [learner.cold(one) for one in LEVELS if one.id in done]


def table(learners: int, days: int, first: int, planners: Sequence[str]) -> dict[str, np.ndarray]:
    """A row a learner and a column a figure, by planner and whether mixing helps."""
    found = {}
    with ProcessPoolExecutor() as pool:
        for mixing, name in product((MIXING, 0.0), planners):
            one = partial(outcome, PLANNERS[name], mixing, days)
            rows = pool.map(one, range(first, first + learners), chunksize=4)
            key = f"{name}{'' if mixing else ', mixing is no help'}"
            found[key] = np.array([[getattr(row, f.name) for f in fields(row)] for row in rows])
    return found


def interval(values: np.ndarray, of: Callable[..., np.ndarray]) -> str:
    """A middle of values over learners, with its bootstrap interval."""
    rng = np.random.default_rng(5)
    drawn = values[rng.integers(len(values), size=(1000, len(values)))]
    low, high = np.quantile(of(drawn, axis=1), (0.025, 0.975))
    return f"{of(values, axis=0):8.1f} [{low:6.1f}, {high:6.1f}]"


def years(learners: int, weeks: Sequence[int], feet: Sequence[str]) -> None:
    """Print the table of a year: the mean over learners, its interval, the least and the most."""
    began = time.perf_counter()
    print(f"{learners} learners from seed {FIRST_SEED}, a year of {MINUTES:g} min")
    seeds = range(FIRST_SEED, FIRST_SEED + learners)
    for days, name in product(weeks, feet):
        with ProcessPoolExecutor() as pool:
            found = list(pool.map(partial(year_of, following, days, FEET[name]), seeds))
        print(f"\n{name}, {days} days a week")
        print(f"{'':16}{'mean':>26}{'least':>8}{'most':>8}")
        for one in fields(Year):
            values = np.array([getattr(year, one.name) for year in found], dtype=float)
            ends = f"{values.min():8.1f}{values.max():8.1f}"
            print(f"{one.name:16}{interval(values, np.mean):>26}{ends}", flush=True)
    print(f"\n{time.perf_counter() - began:.0f} s")


def main() -> None:
    """Print the table of 60 days, or that of a year."""
    if "--year" in sys.argv[1:]:
        words = [word for word in sys.argv[1:] if word != "--year"]
        count, *weeks = [int(word) for word in words if word.isdigit()] or [YEARS]
        years(count, weeks or list(WEEKS), [word for word in words if word in FEET] or list(FEET))
        return
    learners = int(sys.argv[1]) if len(sys.argv) > 1 else LEARNERS
    days = int(sys.argv[2]) if len(sys.argv) > 2 else DAYS
    first = int(sys.argv[3]) if len(sys.argv) > 3 else FIRST_SEED
    began = time.perf_counter()
    found = table(learners, days, first, list(PLANNERS))
    names = [one.name for one in fields(Outcome)]
    print(f"{learners} learners from seed {first}, {days} days of {MINUTES:g} min, {REST} of rest")
    for end in ("", ", mixing is no help"):
        print(f"\n{'with a benefit of mixing' if not end else end[2:]}")
        heads = [*PLANNERS, "planner less (a)", "planner less (b)"]
        print(f"{'':16}" + "".join(f"{head:>26}" for head in heads))
        rows = [found[name + end] for name in PLANNERS]
        for place, name in enumerate(names):
            of = np.median if name == "days" else np.max if name == "worst_end" else np.mean
            cells = [interval(one[:, place], of) for one in rows]
            cells += [interval(rows[0][:, place] - one[:, place], np.mean) for one in rows[1:]]
            print(f"{name:16}" + "".join(f"{cell:>26}" for cell in cells), flush=True)
        never = [f"{np.mean(one[:, 0] > days):.0%}" for one in rows]
        print(f"{'never there':16}" + "".join(f"{one:>26}" for one in never))
    print(f"\n{time.perf_counter() - began:.0f} s")


if __name__ == "__main__":
    main()
