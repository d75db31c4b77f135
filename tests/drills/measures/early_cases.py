"""Traces of feet that leave the brake before the throttle, to compare the measures on."""

import random
from collections.abc import Iterator

from tests.drills.measures.signals import (
    RATES,
    Samples,
    Signal,
    cosine,
    coupled,
    half_sine,
    make,
    pulses,
    trapezoid,
)


def rolling(onsets: list[float], lead: float, depth: float, slope: float) -> Signal:
    """A brake that leaves so many s before each onset, and comes back after it."""

    def brake(t: float) -> float:
        return 65.0 + slope * t - sum(depth * trapezoid((t - at + lead) / 0.6) for at in onsets)

    return brake


def early_cases() -> Iterator[tuple[str, Samples]]:
    """Name and samples of every case, the same ones each time."""
    one = pulses((1.5, 0.25, 80.3, half_sine))
    for slope in (0.0, -9.0, 6.0):
        yield (
            f"early by 0.25 s at {slope} points/s",
            make(81, 4, 500, rolling([1.5], 0.25, 17, slope), one),
        )
    yield (
        "early, noisy, 10 bit",
        make(82, 4, 250, rolling([1.5], 0.2, 14, -4), one, noise=0.6, bits=10),
    )
    yield (
        "early, with 0.7 s before it",
        make(83, 3.2, 1000, rolling([1.5], 0.2, 14, -4), one, cut=0.8),
    )
    yield (
        "early, with 0.5 s before it",
        make(84, 3.0, 1000, rolling([1.5], 0.2, 14, -4), one, cut=1.0),
    )
    rng = random.Random(85)
    for number in range(8):
        onsets, at = [], 1.2
        for _ in range(rng.randint(1, 3)):
            onsets.append(at)
            at += rng.uniform(0.3, 1.6)
        parts = [(at, rng.uniform(0.12, 0.25), rng.uniform(40, 95), cosine) for at in onsets]
        foot = rolling(onsets, rng.uniform(0.1, 0.35), rng.uniform(5, 14), rng.uniform(-8, 4))
        yield (
            f"early, random {number}",
            make(
                850 + number,
                at + 1,
                rng.choice(RATES),
                foot,
                pulses(*parts),
                noise=rng.uniform(0, 0.6),
            ),
        )
    quick = pulses(
        (1.5, 0.25, 80.3, half_sine), (2.5, 0.02, 60.0, half_sine), (2.8, 0.04, 60.0, half_sine)
    )
    yield "a kerb's spikes of 13 and 27 ms", make(86, 4, 1000, coupled(one), quick)
    edge = pulses(
        (1.5, 0.029, 80.3, lambda u: 1.0 if 0 <= u < 1 else 0.0),
        (2.5, 0.03, 80.3, lambda u: 1.0 if 0 <= u < 1 else 0.0),
    )
    yield "pulses of 29 and of 30 ms", make(87, 4, 1000, coupled(one), edge)
