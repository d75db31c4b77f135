"""How far the ending of a trial can be trusted: false "steadier", power, intervals, fixed orders.

    python tests/bench/trial.py [TRIALS [REPETITIONS]]

Every cell is TRIALS trials (2000 unless told otherwise) of a simulated foot, which end as in the
game. REPETITIONS (100) of the game's own simulated foot are drawn from.

With 2000 trials: the interval of the sign-flip test covers in 96.9 % with 6 pairs and in 95 % with
16, where pairs differ evenly to both sides of the truth. It is the bootstrap that takes each pair
twice or not at all (Owen & Eckles 2012, double or nothing, from memory), with all resamples instead
of some drawn, so it needs no seed. The percentile bootstrap covers in 86 and 92 %, its expanded
form (Hesterberg 2015) in 93 and 94 %, and neither agrees with p. The table of detectable
differences is of lognormal dips; where each dip is like the one before it (autocorrelation 0.5)
they are 1.3 times as large. The spread of a simulated foot's dips on "Good company" is 7 points at
skill 0.25 and 3 at skill 0.5; a light blip of a beginner takes 7 points off, the others 30.

Equal arms that blip at 65 and 45 % are told apart in 3 to 4 % (1000 trials of 8 and 12 pairs), by
their dips alone in 78 and 96 %, and their blips are named in all; in 0.2 % where dips grow with the
square root of the blip. With equal blips the two tests together are false in 2 %, and what 8 of 10
trials find is 1.05 times as large as by the dips alone.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from itertools import islice
from operator import call
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from drills.kinds.asked_size import with_size  # noqa: E402
from engine.ladder.level_files import SHIPPED, load_levels  # noqa: E402
from engine.practice.blip_size import BLIP  # noqa: E402
from engine.trial.outcome import DETECTABLE, Finding, detectable_difference, outcome, spread_of  # noqa: E402
from engine.trial.sign_flip import LEVEL, SignFlip  # noqa: E402
from engine.trial.trial import Arm, Trial, TrialRepetition  # noqa: E402
from tests.bench.fixed_orders import fixed_jobs  # noqa: E402
from tests.bench.intervals import INTERVALS, Bounds, share  # noqa: E402
from tests.bench.simulated_trials import (  # noqa: E402
    DAY,
    FEET,
    Blips,
    Floats,
    Foot,
    differences,
    drawn,
    lots,
    trials,
)
from tests.bench.unequal_blips import blips_head, blips_jobs  # noqa: E402
from tests.simulated_repetitions import counted  # noqa: E402

TRIALS = 2000
PAIRS = (6, 8, 12, 16)
WORSE = (2.0, 3.0, 4.0, 6.0)  # points
SKILLS = (0.25, 0.5, 0.75)
PLAYED, MEASURES = "blip-3-good", ("dip", "rebound", "settle", "peak")
OWN = 100  # repetitions of a simulated foot, drawn from
SURE = 0.8  # of trials find the difference
SPREADING = {
    **{f"dips {spread}": Foot(spread=spread) for spread in (0.2, 0.35, 0.5)},
    "autocorr.": FEET["autocorrelation 0.5"],
    "all": FEET["all together"],
}
PLAYERS = (1.5, 3.0, 5.0, 7.0)  # points, spreads of dips

Job = Callable[[], str]
Own = Mapping[float, Sequence[TrialRepetition]]
"""Repetitions of simulated feet, by skill."""


def cell(text: str) -> str:
    """A column."""
    return f"{text:24}"


# False "steadier"


def false_line(name: str, made: Callable[[int], Sequence[Trial]]) -> str:
    """How often equal arms are told apart, and told alike, by number of pairs."""
    cells = []
    for pairs in (6, 12):
        outcomes = [outcome(one) for one in made(pairs)]
        told = [one.finding for one in outcomes]
        cells += [
            share([one is Finding.STEADIER for one in told]),
            share([one.dip.p is not None and one.dip.p <= LEVEL for one in outcomes]),
            f"{np.mean([one is Finding.NO_DIFFERENCE for one in told]):6.1%}",
        ]
    return f"{name:22}" + "".join(map(cell, cells))


def equal(foot: Foot, seed: int, times: int, pairs: int) -> list[Trial]:
    """Trials of equal arms."""
    rng = np.random.default_rng((seed, pairs))
    return trials(foot.dips(times, pairs, rng), 0.0, rng)


def equal_simulated(own: Sequence[TrialRepetition], times: int, pairs: int) -> list[Trial]:
    """Trials of equal arms, of repetitions of the simulated foot, failures among them."""
    return drawn({Arm.A: own, Arm.B: own}, pairs, times, np.random.default_rng(pairs))


def played(repetitions: int, skill: float) -> list[TrialRepetition]:
    """So many repetitions of the simulated foot that count."""
    level = with_size(next(one for one in load_levels([SHIPPED]) if one.id == PLAYED), BLIP)
    verdicts = [one.verdict for one in islice(counted(level, skill, seed=1), repetitions)]
    measured = [[one.measures.get(name) for name in MEASURES] for one in verdicts]
    return [
        TrialRepetition(0, 0, DAY, verdict.reason, dip, rebound, settle, 1, peak=peak)
        for verdict, (dip, rebound, settle, peak) in zip(verdicts, measured, strict=True)
    ]


def false_jobs(times: int, own: Own) -> Iterator[Job]:
    """Every foot, and the simulated ones."""
    for seed, (name, foot) in enumerate(FEET.items()):
        yield partial(false_line, name, partial(equal, foot, seed, times))
    for skill, some in own.items():
        yield partial(
            false_line, f"simulated, skill {skill}", partial(equal_simulated, some, times)
        )


# Power


def power_line(name: str, foot: Foot, pairs: int, times: int) -> str:
    """How often B is told steadier, and A (wrongly), by how much worse A is."""
    cells = []
    for worse in WORSE:
        rng = np.random.default_rng((pairs, int(worse)))
        made = trials(foot.dips(times, pairs, rng), worse, rng)
        told = [outcome(one).steadier for one in made]
        wrong = told.count(Arm.A)
        cells.append(share([one is Arm.B for one in told]) + (f" -{wrong}" if wrong else ""))
    return f"{name:15}{pairs:2} pairs  " + "".join(map(cell, cells))


def power_jobs(times: int) -> Iterator[Job]:
    """A plain foot and the least plain one."""
    for name in ("plain", "all together"):
        for pairs in PAIRS:
            yield partial(power_line, name, FEET[name], pairs, times)


# Coverage


def coverage_line(name: str, pairs: int, drawing: Callable[[int], tuple[Floats, float]]) -> str:
    """How often each interval covers, and how wide it is against that of the game."""
    found, true = drawing(pairs)
    told = [SignFlip.of(one) for one in found.tolist()]
    ends: dict[str, Bounds] = {
        "told": (np.array([one.low for one in told]), np.array([one.high for one in told])),
        **{kind: interval(found) for kind, interval in INTERVALS.items()},
    }
    wide = np.mean(ends["told"][1] - ends["told"][0])
    cells = [
        f"{share((low <= true) & (true <= high))} {np.mean(high - low) / wide:4.2f}"
        for low, high in ends.values()
    ]
    return f"{name:22}{pairs:2} pairs  " + "".join(f"{one:29}" for one in cells)


def shifted(foot: Foot, times: int, pairs: int) -> tuple[Floats, float]:
    """Differences of arms that are 4 points apart."""
    rng = np.random.default_rng(pairs)
    dips, arms = foot.dips(times, pairs, rng), lots(times, pairs, rng)
    return differences(dips + 4.0 * arms[:, :, None], arms), -4.0


def scaled(foot: Foot, by: float, times: int, pairs: int) -> tuple[Floats, float]:
    """Differences of arms of which B's dips are a share of A's."""
    rng = np.random.default_rng(pairs)
    dips, arms = foot.dips(times, pairs, rng), lots(times, pairs, rng)
    true = (by - 1) * float(np.median(foot.dips(20_000, 1, rng), axis=2).mean())
    return differences(np.where(arms[:, :, None], 1.0, by) * dips, arms), true


def simulated(
    a: Sequence[TrialRepetition], b: Sequence[TrialRepetition], times: int, pairs: int
) -> tuple[Floats, float]:
    """Differences of two simulated feet, of repetitions that have a dip."""
    rng = np.random.default_rng(pairs)
    own = [np.array(dips_of(some)) for some in (a, b)]
    of_both = [np.median(rng.choice(some, (times, pairs, 5)), axis=2) for some in own]
    true = [np.median(rng.choice(some, (100_000, 5)), axis=1).mean() for some in own]
    return of_both[1] - of_both[0], float(true[1] - true[0])


def dips_of(own: Sequence[TrialRepetition]) -> list[float]:
    """The dips there are."""
    return [one.dip for one in own if one.dip is not None]


def coverage_jobs(times: int, own: Own) -> Iterator[Job]:
    """Intervals of arms that differ."""
    drawings = {
        "plain": partial(shifted, FEET["plain"], times),
        "all together": partial(shifted, FEET["all together"], times),
        "spread 0.7, B 0.5 A": partial(scaled, Foot(spread=0.7), 0.5, times),
        "simulated, 0.25, 0.5": partial(simulated, own[0.25], own[0.5], times),
    }
    for name, drawing in drawings.items():
        for pairs in PAIRS:
            yield partial(coverage_line, name, pairs, drawing)


# What each number of pairs finds


def found_line(pairs: int, times: int) -> str:
    """The difference found in 8 of 10 trials, in spreads of a dip, beside what is promised."""
    cells = [f"{DETECTABLE[pairs]:6.2f}"]
    for seed, foot in enumerate(SPREADING.values()):
        rng = np.random.default_rng((pairs, seed))
        dips, arms = foot.dips(times, pairs, rng), lots(times, pairs, rng)
        deep = dips * Blips().peaks(dips.shape, rng) / BLIP
        # Another difference moves both intervals by as much, and it is found once 0 is outside.
        needed = [
            -min(SignFlip.of(one).low or 0, SignFlip.of(other).low or 0)
            for one, other in zip(
                differences(dips, arms).tolist(), differences(deep, arms).tolist(), strict=True
            )
        ]
        cells.append(f"{np.quantile(needed, SURE) / spread_of(deep.ravel().tolist()):6.2f}")
    cells += [f"{detectable_difference(pairs, spread):6.1f}" for spread in PLAYERS]
    return f"{pairs:2} pairs" + "".join(f"{one:>12}" for one in cells)


def spread_line(skill: float, own: Sequence[TrialRepetition]) -> str:
    """The spread of the dips of a simulated foot."""
    dips = dips_of(own)
    return f"simulated, skill {skill}: median {np.median(dips):4.1f}, spread {spread_of(dips):4.1f}"


def main() -> None:
    """Print every table, a line as it is ready."""
    times = int(sys.argv[1]) if len(sys.argv) > 1 else TRIALS
    repetitions = int(sys.argv[2]) if len(sys.argv) > 2 else OWN
    with ProcessPoolExecutor() as pool:
        own = dict(zip(SKILLS, pool.map(partial(played, repetitions), SKILLS), strict=True))
        lines = [(head, pool.map(call, list(jobs))) for head, jobs in tables(times, own)]
        for head, some in lines:
            print(head)
            for line in some:
                print(line, flush=True)
            print()


def tables(times: int, own: Own) -> Iterator[tuple[str, Iterator[Job]]]:
    """The head and the lines of each table."""
    told = [f"{n} pairs: {what}" for n in (6, 12) for what in ("told", "p <= 0.05", "told alike")]
    yield f"{'FALSE STEADIER':22}" + "".join(map(cell, told)), false_jobs(times, own)
    worse = "".join(cell(f"{one:g} points") for one in WORSE)
    yield f"{'B TOLD STEADIER':24}{worse}(-n: A told, n times)", power_jobs(times)
    yield blips_head(cell), blips_jobs(times)
    kinds = "".join(f"{one:29}" for one in ("told", *INTERVALS))
    yield f"{'COVERED, width':31}{kinds}", coverage_jobs(times, own)
    by_fours = ("4 pairs: fixed, MW", "lots, MW")
    by_eights = ("8 pairs: fixed, MW", "fixed, over pairs", "lots, MW", "lots, over pairs")
    yield f"{'FALSE, BY ORDER':22}" + "".join(map(cell, by_fours + by_eights)), fixed_jobs(times)
    columns = ("promised", *SPREADING, *(f"of {spread:g}" for spread in PLAYERS))
    found = (partial(found_line, pairs, times) for pairs in DETECTABLE)
    yield "FOUND   " + "".join(f"{one:>12}" for one in columns), found
    yield "SPREADS", (partial(spread_line, skill, some) for skill, some in own.items())


if __name__ == "__main__":
    main()
