"""How often the interval of steadiness covers it, and how often a step is told, rightly or not.

    python tests/bench/band.py [FEET [BLIPS]]

Every kind of foot is followed FEET times (1000 by default); one that learns does so on every day of
the calendar. First its steadiness after 40 days is set against what three in four of its deviations
stay inside on that day: how often the interval covers that, in all and among the tenth of intervals
that are narrowest, how far the value lies from it on average, and the median reach of the interval
down, up and from end to end, in percent of the value. A second line says the same of the order
interval. Then FEET / 4 players look every day for 60 days: how often a step was told until then, by
the product's rule, and beside it by three others: the same rule with the intervals that are shown;
the first window against the second alone, or against the newest 36 each day. Coverages have 95 %
intervals by Clopper and Pearson. The simulated feet give deviations that are drawn from BLIPS of
their own (400).

Measured on 3000 feet each, and in brackets the order interval: it covers in 99.7 % (97) where days
are alike, in 98 % (94) where they differ by 15 % and in 93 % (87) at 30 %; among the narrowest
tenth in 100, 99 and 93 % (88, 76 and 70). Of a foot that learns 1, 2 and 3 % a day (days differing
by 15 %) it covers in 97, 95 and 93 % (93, 89 and 85), in the narrowest tenth in 96 % or more (77 to
68). One that plays two days a week is covered in 99 % if it stays the same, and in 98, 90 and 66 %
(83, 54 and 24) if it learns as fast in the days between, as its blips are weeks old. From end to
end it reaches over 56 to 62 % of the value (43 to 52), over 65 % with two days a week. Feet that
vary little from blip to blip have it about twice as long as the order interval, as six days cannot
tell that their days are alike; where their days do differ by 30 %, it covers in 91 % (76).

A step is told of a foot that stays the same in at most 5 of 100 histories of 60 days; a half is
found in seven of ten within 20 days where days differ by 30 %, in nine of ten within 40. By the
intervals that are shown it would be found in half of them, and in seven of ten. (An earlier
estimator, a t interval on groups of reversals, covered in 92 to 94 % of feet that stay the same,
but in 67 % of those times when it looked narrowest; of feet that learn 1 and 2 % a day, in 89 and
77 %.)
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from datetime import timedelta
from functools import partial
from itertools import islice
from pathlib import Path

import numpy as np
from scipy import stats

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.ladder.level_files import load_band  # noqa: E402
from engine.practice.blip_size import BLIP  # noqa: E402
from engine.practice.steadiness import (  # noqa: E402
    WINDOW,
    Steadiness,
    SteadinessBlip,
    steadiness,
    step_of,
)
from engine.practice.steadiness import counted as newest_of_days  # noqa: E402
from engine.practice.steadiness_interval import order_interval  # noqa: E402
from tests.simulated_repetitions import counted  # noqa: E402
from tests.steady_foot import DAY, SteadyFoot  # noqa: E402

FEET = 1000
OWN = 400  # deviations of a simulated foot
SKILLS = (0.0, 0.25, 0.5, 0.75, 1.0)
COVERED_AFTER, LOOKED_FOR = 40, 60  # days
HALVED = 20  # day on which a foot gets twice as steady
TWO_DAYS = (0, 3)  # days of a week that has two with practice
WEEK = tuple(range(7))


@dataclass(frozen=True)
class Player:
    """A foot, and when it plays."""

    foot: SteadyFoot
    """Its deviations."""
    a_day: int = 6
    """Blips of a day with practice."""
    week: tuple[int, ...] = WEEK
    """Days of the week with practice, from 0."""
    halved: bool = False
    """Whether deviations are half as large from day HALVED on."""

    def blips(self, days: int, seed: int) -> list[SteadinessBlip]:
        """What it plays in so many days, ending on the newest day with practice."""
        deviations = self.foot.deviations(days, self.a_day, np.random.default_rng(seed))
        return [
            SteadinessBlip(
                DAY + timedelta(days=day),
                self.foot.median,
                deviation / 2 if self.halved and day >= HALVED else deviation,
                BLIP,
            )
            for day, of_day in enumerate(deviations)
            if (days - 1 - day) % 7 in self.week
            for deviation in of_day
        ]


def learning(share: float, days: float = 0.15) -> SteadyFoot:
    """A foot that gets better by a share each day."""
    return SteadyFoot(16, 0.4, days, share)


COVERED = {
    **{f"days differ by {one:.0%}": Player(SteadyFoot(day_spread=one)) for one in (0, 0.15, 0.3)},
    **{f"spread {one}": Player(SteadyFoot(spread=one)) for one in (0.2, 0.8)},
    **{f"spread {one}, days 30%": Player(SteadyFoot(8, one, 0.3)) for one in (0.2, 0.8)},
    **{f"learns {one:.0%} a day": Player(learning(one)) for one in (0, 0.01, 0.02, 0.03)},
    **{
        f"two days a week, learns {one:.0%}": Player(learning(one), week=TWO_DAYS)
        for one in (0, 0.01, 0.02, 0.03)
    },
    "two days a week, differ by 30%": Player(SteadyFoot(day_spread=0.3), week=TWO_DAYS),
    **{f"{one} blips a day": Player(SteadyFoot(day_spread=0.15), one) for one in (3, 9, 12)},
}
STEPS = {
    **{
        f"same, spread {spread}, days {days:.0%}": Player(SteadyFoot(8, spread, days))
        for spread in (0.35, 0.4, 0.5)
        for days in (0.0, 0.15, 0.3)
    },
    "same, days 30%, two days a week": Player(SteadyFoot(day_spread=0.3), week=TWO_DAYS),
    **{
        f"half from day {HALVED}, days {days:.0%}": Player(SteadyFoot(day_spread=days), halved=True)
        for days in (0.0, 0.15, 0.3)
    },
    f"half from day {HALVED}, two days a week": Player(
        SteadyFoot(day_spread=0.15), week=TWO_DAYS, halved=True
    ),
    **{f"learns {one:.0%} a day": Player(learning(one)) for one in (0.01, 0.02, 0.03)},
}


def simulated(blips: int, skill: float) -> tuple[float, ...]:
    """Deviations of the simulated foot in so many blips of the drill, in points."""
    measures = (record.verdict.measures for record in counted(load_band(), skill, seed=1))
    measured = (
        max(dip, surge)
        for one in measures
        if (dip := one.get("dip")) is not None and (surge := one.get("surge")) is not None
    )
    return tuple(islice(measured, blips))


def by_order(blips: Sequence[SteadinessBlip]) -> Steadiness | None:
    """Steadiness with its order interval instead of the one that is shown."""
    found = steadiness(blips)
    if found is None:
        return None
    low, high = order_interval([blip.scaled for blip in newest_of_days(blips)[-WINDOW:]])
    return replace(found, low=low, high=high)


def coverage_lines(feet: int, name: str, player: Player) -> str:
    """Two lines of the first table: the interval that is shown, and the order interval."""
    played = [player.blips(COVERED_AFTER, seed) for seed in range(feet)]
    true = player.foot.band(COVERED_AFTER)
    return "\n".join(
        coverage_line(row, [one for one in map(rule, played) if one is not None], true)
        for row, rule in ((name, steadiness), ("  by order statistics", by_order))
    )


def coverage_line(name: str, known: list[Steadiness], true: float) -> str:
    """A line of the first table, for what is known of some feet."""
    if not known:
        return f"{name:32}none in {COVERED_AFTER} days"
    known.sort(key=lambda one: one.high / one.low)
    values, lows, highs = (
        np.array([getattr(one, field) for one in known]) for field in ("value", "low", "high")
    )
    bias = 100 * (np.exp(np.mean(np.log(values / true))) - 1)
    down, up, reach = 100 * np.median(
        [lows / values - 1, highs / values - 1, (highs - lows) / values], axis=1
    )
    narrow = known[: max(len(known) // 10, 1)]
    return (
        f"{name:32}{share(known, true)} {share(narrow, true)}"
        f" {bias:+7.1f} {down:+6.1f} {up:+6.1f} {reach:6.1f}"
    )


def share(known: Sequence[Steadiness], true: float) -> str:
    """How many intervals cover the true value, with an interval."""
    covered = sum(one.low <= true <= one.high for one in known)
    low, high = stats.binomtest(covered, len(known)).proportion_ci()
    return f"{covered / len(known):6.3f} ({low:.3f} to {high:.3f})"


def apart(one: Steadiness | None, other: Steadiness | None) -> bool:
    """Whether two intervals do not touch."""
    return bool(one and other and (one.high < other.low or other.high < one.low))


def apart_as_shown(blips: Sequence[SteadinessBlip]) -> bool:
    """Whether a step would be told if it went by the intervals that are shown."""
    of_days = newest_of_days(blips)
    ends = range(WINDOW, len(of_days) + 1, WINDOW)
    if len(ends) < 3:
        return False
    first, *later = (
        steadiness(of_days[end - WINDOW : end]) for end in (ends[0], *ends[-2:], len(of_days))
    )
    sides = {bool(first and one and one.high < first.low) for one in later}
    return len(sides) == 1 and all(apart(first, one) for one in later)


def told(player: Player, seed: int) -> tuple[bool, ...]:
    """Whether a step was told by day 40, by day 60, and so by each of the three other rules.

    The others are: the product's rule with the intervals that are shown, by both days; and by day
    60 the second window alone, and the newest 36 alone.
    """
    blips = player.blips(LOOKED_FOR, seed)
    first, second = (by_order(blips[end - WINDOW : end]) for end in (WINDOW, 2 * WINDOW))
    days = sorted({blip.day for blip in blips})
    looks, shown, newest = [], [], []
    for day in days:
        until = [blip for blip in blips if blip.day <= day]
        looks.append(step_of(until) is not None)
        shown.append(apart_as_shown(until))
        newest.append(len(until) >= 2 * WINDOW and apart(first, by_order(until)))
    early = sum(day < DAY + timedelta(days=COVERED_AFTER) for day in days)
    return (
        any(looks[:early]),
        any(looks),
        any(shown[:early]),
        any(shown),
        apart(first, second),
        any(newest),
    )


def step_line(feet: int, name: str, player: Player) -> str:
    """A line of the second table."""
    shares = np.mean([told(player, seed) for seed in range(feet)], axis=0)
    return f"{name:32}" + "".join(f"{100 * one:13.1f}" for one in shares)


def main() -> None:
    """Print both tables."""
    feet = int(sys.argv[1]) if len(sys.argv) > 1 else FEET
    own = int(sys.argv[2]) if len(sys.argv) > 2 else OWN
    with ProcessPoolExecutor() as pool:
        drawn_from = pool.map(partial(simulated, own), SKILLS)
        rows = COVERED | {
            f"simulated, skill {skill}": Player(SteadyFoot(drawn=drawn))
            for skill, drawn in zip(SKILLS, drawn_from, strict=True)
        }
        heads = f"{'narrowest tenth':>23} {'bias':>7} {'down':>6} {'up':>6} {'reach':>6}"
        print(f"{'day 40':32}{'covered':>23} {heads}")
        for row in pool.map(partial(coverage_lines, feet), rows, rows.values()):
            print(row, flush=True)
        rules = ("by day 40", "by day 60", "shown, 40", "shown, 60", "second alone", "newest alone")
        print(f"\n{'a step told, %':32}" + "".join(f"{rule:>13}" for rule in rules))
        for row in pool.map(partial(step_line, max(feet // 4, 1)), STEPS, STEPS.values()):
            print(row, flush=True)


if __name__ == "__main__":
    main()
