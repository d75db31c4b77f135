"""Which half of a pair the next repetition is: with a second task, or without it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from drills.level import Level

PAIRS = 5
"""Number of the random stream that decides which half of each pair comes first."""


def half_of_pair(level: Level, counted: int, seed: int) -> Level:
    """The level as the next repetition asks it, with or without its second task.

    `counted` is how many repetitions of the level counted so far in the set or session, `seed` that
    of its random numbers. Chance says which half of a pair comes first, and the other one follows;
    as a void repetition does not count, it is repeated as the same half. A level whose kind has no
    pairs is returned as it is.
    """
    if not level.kind.in_pairs:
        return level
    pair, half = divmod(counted, 2)
    is_first_with = bool(np.random.default_rng((seed, PAIRS, pair)).random() < 0.5)
    return replace(level, second_task=is_first_with == (half == 0))
