"""Brake targets: taken in turn, or drawn between two."""

from collections import Counter

import numpy as np
from scipy.stats import chisquare

from drills.targets import Targets

SEED = 20


def test_targets_come_in_turn_and_then_from_the_first_again() -> None:
    targets, rng = Targets((60.0, 45.0, 70.0)), np.random.default_rng(SEED)

    assert [targets.at(number, rng) for number in (1, 2, 3, 4)] == [60.0, 45.0, 70.0, 60.0]


def test_drawn_targets_are_whole_and_every_one_is_as_likely() -> None:
    targets, rng = Targets((30.0, 39.0), drawn=True), np.random.default_rng(SEED)

    seen = Counter(targets.at(1, rng) for _ in range(2000))

    assert sorted(seen) == [float(target) for target in range(30, 40)]
    assert chisquare(list(seen.values())).pvalue > 0.001, f"seed {SEED}"
    assert (targets.least, targets.greatest) == (30.0, 39.0)


def test_the_same_seed_draws_the_same_targets() -> None:
    targets = Targets((20.0, 90.0), drawn=True)

    one, other = (
        [targets.at(n, rng) for n in range(20)]
        for rng in (np.random.default_rng(SEED), np.random.default_rng(SEED))
    )

    assert one == other
