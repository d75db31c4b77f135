"""How far the ending of a trial by days can be trusted: false "steadier", power, unequal blips.

    python tests/bench/trial_days.py [TRIALS]

Every cell is TRIALS trials (2000 unless told otherwise) of eight pairs of days with six steadiness
blips, which end as in the game. The logarithms of a foot's deviations spread by 0.35 within a day;
days differ by 15 or 30 %, and some feet learn 1 % a day. The goal is 5 % of false "steadier".

With 2000 trials: two equal set-ups are told apart in 3 %, with learning as without; the scaled
test alone would in 4 to 5 %. Of days that differ by 15 %, a fifth less is found in 40 %, a third in
87 %, a half in all; of days that differ by 30 %, in 18, 50 and 92 %. The median of a day in place
of its mean finds 2 to 4 % fewer. Equal feet with blips of 65 and 45 % are told apart in at most
2 %, however a deviation grows with the blip (as its power of 1, 0.8 or 0.5), and the blips are
named in all of these trials.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from operator import call
from pathlib import Path

import numpy as np
import numpy.typing as npt

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from drills.score import Reason  # noqa: E402
from engine.practice.blip_size import BLIP  # noqa: E402
from engine.trial.by_days import DayBlip  # noqa: E402
from engine.trial.by_days_outcome import DaysOutcome, days_outcome  # noqa: E402
from engine.trial.by_days_power import FINDABLE  # noqa: E402
from engine.trial.outcome import Finding  # noqa: E402
from engine.trial.randomisation import order  # noqa: E402
from engine.trial.sign_flip import LEVEL, SignFlip  # noqa: E402
from engine.trial.trial import DAY_PAIRS, Arm  # noqa: E402
from tests.bench.intervals import share  # noqa: E402

Floats = npt.NDArray[np.float64]
TRIALS = 2000
BLIPS = 6  # a day
TYPICAL = 10.0  # points, deviation at a blip of 60 %
WITHIN = 0.35  # spread of the logarithms within a day
SCATTER = 6.0  # %, spread of the throttle peaks
COUNTS = (40.0, 80.0)  # %, throttle peaks that count
LESS = (0.2, 1 / 3, 0.5)  # of A's deviation that B has less
SIZES = {"65 and 45 %": (65.0, 45.0), "62 and 58 %": (62.0, 58.0)}
GROWTHS = (1.0, 0.8, 0.5)
SURE = 0.8  # of trials find the difference

Job = Callable[[], str]


@dataclass(frozen=True)
class Foot:
    """A foot whose deviations are lognormal, and what its days do to them."""

    days: float = 0.15
    """1, standard deviation of what a day does to the logarithm."""
    learning: float = 0.0
    """1, how much the logarithm falls a day."""
    growth: float = 0.8
    """1, power of the throttle peak that a deviation grows with."""
    sizes: tuple[float, float] = (BLIP, BLIP)
    """%, middle throttle peak of A and of B."""

    def trials(self, times: int, less: float, rng: np.random.Generator) -> Iterator[Trial]:
        """Many trials, in which B's deviations are less than A's by a share."""
        shape = (2 * DAY_PAIRS, BLIPS)
        for seed in rng.integers(2**62, size=times).tolist():
            of_b = np.array([arm is Arm.B for arm in order(seed, DAY_PAIRS)])[:, None]
            middle = np.where(of_b, self.sizes[1], self.sizes[0])
            peaks = np.clip(rng.normal(middle, SCATTER, shape), *COUNTS)
            logarithms = (
                np.log(TYPICAL)
                + np.where(of_b, np.log1p(-less), 0.0)
                + rng.normal(0, WITHIN, shape)
                + rng.normal(0, self.days, (shape[0], 1))
                - self.learning * np.arange(shape[0])[:, None]
                + self.growth * np.log(peaks / BLIP)
            )
            yield Trial(seed, logarithms, peaks)


@dataclass(frozen=True)
class Trial:
    """One simulated trial."""

    seed: int
    """Seed of its order."""
    logarithms: Floats
    """Logarithms of the deviations in points, shape (days, blips)."""
    peaks: Floats
    """Throttle peaks in %, shape (days, blips)."""

    @property
    def outcome(self) -> DaysOutcome:
        """Its outcome, as the game tells it."""
        blips = [
            DayBlip(day, Reason.CLEAN, deviation, peak)
            for day, rows in enumerate(zip(np.exp(self.logarithms), self.peaks, strict=True))
            for deviation, peak in zip(*(row.tolist() for row in rows), strict=True)
        ]
        return days_outcome(blips, self.seed, DAY_PAIRS)

    def differences(self, middle: Callable[..., Floats]) -> list[float]:
        """B less A of each pair, by a middle of the scaled logarithms of each day."""
        values = middle(self.logarithms - np.log(self.peaks / BLIP), axis=1)
        of_b = np.array([arm is Arm.B for arm in order(self.seed, DAY_PAIRS)])
        found: list[float] = (values[of_b] - values[~of_b]).tolist()
        return found


FEET = {
    "days 15 %": Foot(0.15),
    "days 30 %": Foot(0.3),
    "15 %, learning 1 %": Foot(0.15, 0.01),
    "30 %, learning 1 %": Foot(0.3, 0.01),
}


def cell(text: str) -> str:
    """A column."""
    return f"{text:>24}"


def false_line(name: str, foot: Foot, times: int) -> str:
    """How often equal set-ups are told apart, by the raw and the scaled test, and told alike."""
    found = [one.outcome for one in foot.trials(times, 0.0, np.random.default_rng(1))]
    tests: Sequence[Sequence[bool]] = (
        [one.finding is Finding.STEADIER for one in found],
        [one.raw.smaller is not None for one in found],
        [one.blips.scaled.smaller is not None for one in found],
        [one.finding is Finding.NO_DIFFERENCE for one in found],
        [one.blips.differ for one in found],
    )
    return f"{name:22}" + "".join(cell(share(np.array(test))) for test in tests)


def power_line(name: str, foot: Foot, times: int) -> str:
    """How often B is told steadier, and A (wrongly), by how much less B's deviations are."""
    cells = []
    for less in LESS:
        told = [one.outcome.steadier for one in foot.trials(times, less, np.random.default_rng(2))]
        wrong = told.count(Arm.A)
        cells.append(share([one is Arm.B for one in told]) + (f" -{wrong}" if wrong else ""))
    return f"{name:22}" + "".join(map(cell, cells))


def middles_line(name: str, foot: Foot, times: int) -> str:
    """How often the scaled test alone finds a third less, by the mean and the median of a day."""
    cells = []
    for less in (0.0, 1 / 3):
        made = list(foot.trials(times, less, np.random.default_rng(3)))
        for middle in (np.mean, np.median):
            found = [SignFlip.of(one.differences(middle)).p <= LEVEL for one in made]
            cells.append(share(np.array(found)))
    return f"{name:22}" + "".join(map(cell, cells))


def sizes_line(name: str, foot: Foot, times: int) -> str:
    """How often equal feet with unequal blips are told apart, and the blips named."""
    found = [one.outcome for one in foot.trials(times, 0.0, np.random.default_rng(4))]
    tests = (
        [one.finding is Finding.STEADIER for one in found],
        [one.hangs_on_size for one in found],
        [one.blips.differ for one in found],
        [one.raw.smaller is not None for one in found],
        [one.blips.scaled.smaller is not None for one in found],
    )
    return f"{name:22}" + "".join(cell(share(np.array(test))) for test in tests)


def findable_line(name: str, foot: Foot, times: int) -> str:
    """Difference that 8 of 10 trials find, as a multiple of the spread of neighbouring days."""
    made = list(foot.trials(times, 0.0, np.random.default_rng(5)))
    spreads, needed = [], []
    for one in made:
        scaled = one.logarithms - np.log(one.peaks / BLIP)
        spreads.append(np.mean(np.diff(scaled.mean(axis=1)) ** 2))
        # Another difference moves both intervals by as much, and is found once 0 is outside both.
        ends = []
        for rows in (scaled, one.logarithms):
            of_b = np.array([arm is Arm.B for arm in order(one.seed, DAY_PAIRS)])
            values = rows.mean(axis=1)
            ends.append(-(SignFlip.of((values[of_b] - values[~of_b]).tolist()).low or 0.0))
        needed.append(max(ends))
    measured = np.quantile(needed, SURE) / np.sqrt(np.mean(spreads))
    return f"{name:22}" + cell(f"{FINDABLE:.2f}") + cell(f"{measured:.2f}")


def tables(times: int) -> Iterator[tuple[str, list[Job]]]:
    """Heading and lines of each table."""
    told = ("told steadier", "raw p <= 0.05", "scaled p <= 0.05", "told alike", "blips named")
    yield (
        f"{'FALSE STEADIER':22}" + "".join(map(cell, told)),
        [partial(false_line, name, foot, times) for name, foot in FEET.items()],
    )
    yield (
        f"{'B TOLD STEADIER':22}" + "".join(cell(f"{less:.0%} less") for less in LESS),
        [partial(power_line, name, foot, times) for name, foot in FEET.items()],
    )
    middles = ("false, mean", "false, median", "33% less, mean", "33% less, median")
    yield (
        f"{'SCALED TEST ALONE':22}" + "".join(map(cell, middles)),
        [partial(middles_line, name, foot, times) for name, foot in FEET.items()],
    )
    unequal = ("told steadier", "told: blips differed", "blips named", "raw alone", "scaled alone")
    yield (
        f"{'EQUAL FEET, BLIPS':22}" + "".join(map(cell, unequal)),
        [
            partial(sizes_line, f"{name}, power {growth}", Foot(0.15, 0, growth, sizes), times)
            for name, sizes in SIZES.items()
            for growth in GROWTHS
        ],
    )
    yield (
        f"{'FINDABLE':22}" + cell("in the game") + cell("measured"),
        [partial(findable_line, name, foot, times) for name, foot in FEET.items()],
    )


def main() -> None:
    """Print every table, a line as it is ready."""
    times = int(sys.argv[1]) if len(sys.argv) > 1 else TRIALS
    with ProcessPoolExecutor() as pool:
        for heading, jobs in [(head, pool.map(call, jobs)) for head, jobs in tables(times)]:
            print(heading)
            for line in jobs:
                print(line, flush=True)
            print()


if __name__ == "__main__":
    main()
