"""How often a fault is told of the sense of pressure or the size of blips, rightly and wrongly.

    python tests/bench/sense.py [FEET [WATCHED]]

Made-up feet press gain * asked + offset, with a spread that is a share of the weight asked and a
share of its own for each day. The shares are those of the simulated foot from beginner to expert
(`miss` in `drills/habit.py`); a day's is 0, 0.3 or 0.5 of them. Weights of 35 to 75 are asked, four
a day. FEET feet (2000 by default) are looked at once, after 30 squeezes; WATCHED feet (400) after
every day for 45 days, and a quarter of them for a year: whether a fault was ever told. Further rows
are of feet that slip in one squeeze of twenty, of half the squeezes asked within 5 of 75, and of 60
asked alone. The last columns are how often the errors at three weights all lie in their intervals,
and how often a foot is told that it presses what it means.

Measured on 300 feet each: of a foot that misses by 6 % of the weight, half way from beginner to
expert, 6 + 0.85 x is told after 30 squeezes in nine of ten; of one that misses by 8 % in two of
three, by 16 % in one of six. A true foot is told a fault then in 2 to 4 % (in 6 % where it misses
by 8 % and days differ), and in about 5 % in 45 days of looks. `sense_at_best.py` beside this file
says what any rule could tell of the same feet.

A second table says the same of the size of blips: 60 asked, six a day, looked at after 40 and then
every day for 60 days. A mean size within 3 points of 60 is no fault.
"""

from __future__ import annotations

import sys
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import partial
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from drills.habit import Habit  # noqa: E402
from engine.practice.blip_size import BLIP  # noqa: E402
from engine.practice.sense import LEAST, NEWEST, Squeeze, sense_of  # noqa: E402
from engine.practice.size_made import NEWEST as BLIPS  # noqa: E402
from engine.practice.size_made import SizedBlip, SizeMade, size_made  # noqa: E402

FEET, WATCHED = 2000, 400
FIRST = date(2024, 1, 1)
SKILLS = (0.0, 0.25, 0.5, 0.75, 1.0)
A_DAY, DAYS, YEAR = 4, 45, 365
BLIPS_A_DAY, BLIP_DAYS = 6, 60
LEAST_ASKED, MOST_ASKED = 35, 75


@dataclass(frozen=True)
class Presser:
    """A foot that presses a line of what is asked."""

    miss: float
    """Standard deviation of a squeeze, as a share of the weight asked."""
    gain: float = 1.0
    """Points pressed for each point asked."""
    offset: float = 0.0
    """Points pressed beside that."""
    days: float = 0.0
    """Standard deviation between days, as a share of `miss`."""
    slips: float = 0.0
    """Share of squeezes that slip by a normal draw five times as wide."""
    near: float = 0.0
    """Share of squeezes that are asked within 5 of the heaviest."""
    sixty: bool = False
    """Whether 60 alone is asked."""

    def squeezes(self, count: int, rng: np.random.Generator) -> list[Squeeze]:
        """So many squeezes, four a day."""
        asked = rng.integers(LEAST_ASKED, MOST_ASKED, count, endpoint=True).astype(float)
        near = rng.integers(MOST_ASKED - 5, MOST_ASKED, count, endpoint=True)
        asked = np.where(rng.random(count) < self.near, near, asked)
        asked = np.full(count, 60.0) if self.sixty else asked
        day = np.arange(count) // A_DAY
        own = self.days * rng.normal(size=count)[day]
        slip = np.where(rng.random(count) < self.slips, 5.0, 1.0)
        missed = self.miss * (own + slip * rng.normal(size=count))
        pressed = self.offset + (self.gain + missed) * asked
        return [
            Squeeze(FIRST + timedelta(days=int(d)), float(x), float(y))
            for d, x, y in zip(day, asked, pressed, strict=True)
        ]

    def error(self, weight: float) -> float:
        """What it presses too much at a weight, in points."""
        return self.offset + (self.gain - 1) * weight


def looked_at(foot: Presser, seed: int) -> tuple[bool, bool, bool]:
    """After 30 squeezes: whether a fault is told, the intervals cover, and it is told as right."""
    sense = sense_of(foot.squeezes(LEAST, np.random.default_rng(seed)))
    assert sense is not None
    three = (sense.errors[0], sense.errors[len(sense.errors) // 2], sense.errors[-1])
    covers = all(one.error.low <= foot.error(one.weight) <= one.error.high for one in three)
    return sense.fault is not None, covers, sense.is_right


def ever(foot: Presser, days: int, seed: int) -> bool:
    """Whether a fault is told on any of so many days."""
    squeezes = foot.squeezes(days * A_DAY, np.random.default_rng(seed))
    ends = range(A_DAY, len(squeezes) + 1, A_DAY)
    looks = (sense_of(squeezes[max(end - NEWEST, 0) : end]) for end in ends)
    return any(one is not None and one.fault is not None for one in looks)


def line(feet: int, watched: int, name: str, foot: Presser) -> str:
    """A row of the first table."""
    once = 100 * np.mean([looked_at(foot, seed) for seed in range(feet)], axis=0)
    in_days = 100 * np.mean([ever(foot, DAYS, seed) for seed in range(watched)])
    in_year = 100 * np.mean([ever(foot, YEAR, seed) for seed in range(max(watched // 4, 1))])
    told, covers, right = once
    return f"{name:36}{told:9.1f}{in_days:9.1f}{in_year:9.1f}{covers:9.1f}{right:9.1f}"


def sized(
    mean: float, spread: float, days: float, count: int, rng: np.random.Generator
) -> list[SizedBlip]:
    """So many blips, six a day; days differ by a share of the spread."""
    day = np.arange(count) // BLIPS_A_DAY
    peaks = mean + spread * (rng.normal(size=count) + days * rng.normal(size=count)[day])
    return [
        SizedBlip(FIRST + timedelta(days=int(d)), min(max(float(peak), 15.0), 100.0))
        for d, peak in zip(day, peaks, strict=True)
    ]


def is_told(size: SizeMade | None) -> bool:
    """Whether a size is told as a fault."""
    return size is not None and (size.is_small or size.is_big)


def row_of_sizes(feet: int, watched: int, name: str, of: tuple[float, float, float]) -> str:
    """A row of the second table, for a mean size, its spread and that of days."""
    once = np.mean(
        [is_told(size_made(sized(*of, BLIPS, np.random.default_rng(k)), BLIP)) for k in range(feet)]
    )
    played = (
        sized(*of, BLIP_DAYS * BLIPS_A_DAY, np.random.default_rng(seed)) for seed in range(watched)
    )
    looks = [
        any(
            is_told(size_made(blips[max(end - BLIPS, 0) : end], BLIP))
            for end in range(BLIPS_A_DAY, len(blips) + 1, BLIPS_A_DAY)
        )
        for blips in played
    ]
    return f"{name:36}{100 * once:9.1f}{100 * np.mean(looks):9.1f}"


def rows() -> dict[str, Presser]:
    """Every kind of foot by a name."""
    shares = {skill: Habit.of(skill).miss for skill in SKILLS}
    middle = shares[0.5]
    contracted = Presser(middle, gain=0.85, offset=6.0, days=0.3)
    found: dict[str, Presser] = {}
    for miss in shares.values():
        for days in (0.0, 0.3, 0.5):
            words = f"misses by {100 * miss:.1f} %, days {days:g}"
            found[f"true, {words}"] = Presser(miss, days=days)
            found[f"6 + 0.85 x, {words}"] = replace(contracted, miss=miss, days=days)
    for name, foot in (
        ("true", Presser(middle, days=0.3)),
        ("6 + 0.85 x", contracted),
        ("5 too much", Presser(middle, offset=5.0, days=0.3)),
    ):
        found[f"{name}, slips"] = replace(foot, slips=0.05)
        found[f"{name}, half near 75"] = replace(foot, near=0.5)
        found[f"{name}, 60 alone"] = replace(foot, sixty=True)
    found["5 too much"] = Presser(middle, offset=5.0, days=0.3)
    return found


SIZES = {
    f"makes {mean:g} ± {spread:g}, days {days:g}": (mean, spread, days)
    for mean in (60.0, 57.0, 63.0, 54.0, 48.0)
    for spread, days in ((5.0, 0.0), (11.0, 0.3), (16.0, 0.3), (11.0, 0.5))
}


def main() -> None:
    """Print both tables."""
    feet, watched = [*map(int, sys.argv[1:]), *(FEET, WATCHED)[len(sys.argv) - 1 :]]
    with ProcessPoolExecutor() as pool:
        heads = ("30", f"{DAYS} days", "a year", "covered", "right")
        print(f"{'told a fault, %':36}" + "".join(f"{head:>9}" for head in heads))
        made = rows()
        for row in pool.map(partial(line, feet, watched), made, made.values()):
            print(row, flush=True)
        print(f"\n{'told a size, %':36}{BLIPS:9}{f'{BLIP_DAYS} days':>9}")
        for row in pool.map(partial(row_of_sizes, feet, watched), SIZES, SIZES.values()):
            print(row, flush=True)


if __name__ == "__main__":
    main()
