"""Trials of two arms whose blips are of unequal sizes: what is told, and what dips alone say."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

import numpy as np

from engine.trial.outcome import Finding, outcome
from engine.trial.trial import Arm
from tests.bench.intervals import share
from tests.bench.simulated_trials import FEET, Blips, trials

SIZES = ((60.0, 60.0), (65.0, 55.0), (65.0, 45.0), (75.0, 45.0))
"""%, typical blips with A and with B."""
GROWS = (1.0, 0.5)
"""1, how dips grow with blips: in proportion, or with their square root."""
PAIRS = (8, 12)
BETTER = 4.0
"""points, by which B is better where it is."""
HEADS = (
    "told",
    "by dips alone",
    "by scaled dips",
    "blips named",
    f"B {BETTER:g} better: B",
    "A",
)


def blips_head(cell: Callable[[str], str]) -> str:
    """Head of the table."""
    return f"{'EQUAL ARMS, BLIPS':40}" + "".join(map(cell, HEADS))


def blips_line(name: str, sizes: tuple[float, float], grows: float, pairs: int, times: int) -> str:
    """How often equal arms are told apart and their blips named, and a better B is told."""
    rng = np.random.default_rng((pairs, round(sizes[1])))
    blips = [Blips(size, grows=grows) for size in sizes]
    foot = FEET[name]
    equal = [outcome(one) for one in trials(foot.dips(times, pairs, rng), 0.0, rng, blips)]
    other = [outcome(one) for one in trials(foot.dips(times, pairs, rng), BETTER, rng, blips)]
    told = [one.steadier for one in other]
    cells = (
        share([one.finding is Finding.STEADIER for one in equal]),
        share([one.dip.smaller is not None for one in equal]),
        share([one.blips.scaled.smaller is not None for one in equal]),
        share([one.blips.differ for one in equal]),
        share([one is Arm.B for one in told]),
        share([one is Arm.A for one in told]),
    )
    a, b = sizes
    head = f"{name:13}{a:g} and {b:g} %, ^{grows:g}"
    return f"{head:31}{pairs:2} pairs " + "".join(f"{one:24}" for one in cells)


def blips_jobs(times: int) -> Iterator[Callable[[], str]]:
    """Two feet, blips that are alike and not, and dips that grow with them in two ways."""
    for name in ("plain", "all together"):
        for grows in GROWS:
            for sizes in SIZES:
                for pairs in PAIRS:
                    yield partial(blips_line, name, sizes, grows, pairs, times)
