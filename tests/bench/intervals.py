"""Intervals: those for a mean of differences that the game might have told, and of a share."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import numpy as np
from scipy import stats

from tests.bench.simulated_trials import Floats

Bounds = tuple[Floats, Floats]
RESAMPLES = 999
ENDS = (0.025, 0.975)


def weights(pairs: int) -> Floats:
    """How often each resample takes each pair, as shares."""
    rng = np.random.default_rng(pairs)
    return rng.multinomial(pairs, [1 / pairs] * pairs, RESAMPLES) / pairs


def percentile(found: Floats) -> Bounds:
    """The plain percentile bootstrap."""
    means = found @ weights(found.shape[1]).T
    low, high = np.quantile(means, ENDS, axis=1)
    return low, high


def expanded(found: Floats) -> Bounds:
    """The expanded percentile (Hesterberg 2015, from memory): ends further out, as t asks."""
    pairs = found.shape[1]
    out = stats.norm.cdf(np.sqrt(pairs / (pairs - 1)) * stats.t.ppf(ENDS, pairs - 1))
    low, high = np.quantile(found @ weights(pairs).T, out, axis=1)
    return low, high


def studentised(found: Floats) -> Bounds:
    """The bootstrap t (Efron & Tibshirani 1993, from memory)."""
    taken = weights(found.shape[1]).T
    means = found @ taken
    spreads = np.sqrt(np.maximum(found**2 @ taken - means**2, 1e-12))
    middle, spread = found.mean(axis=1), found.std(axis=1)
    steps = (means - middle[:, None]) / spreads
    high, low = np.quantile(steps, ENDS, axis=1)
    return middle - low * spread, middle - high * spread


INTERVALS: Mapping[str, Callable[[Floats], Bounds]] = {
    "percentile": percentile,
    "expanded percentile": expanded,
    "bootstrap t": studentised,
}


def share(hits: Sequence[bool] | np.ndarray) -> str:
    """Share of hits with its interval of 95 %, by Wilson, as text."""
    count, times = int(np.sum(hits)), len(hits)
    found = stats.binomtest(count, times).proportion_ci(0.95, method="wilson")
    return f"{count / times:6.1%} ({found.low:.1%} to {found.high:.1%})"
