"""Traces with names and seeds that the measures are compared on: every shape, rate and trouble."""

import math
import random
from collections.abc import Iterator

from tests.drills.measures.signals import (
    RATES,
    Samples,
    clamp,
    cosine,
    coupled,
    half_sine,
    make,
    pulses,
    square,
    steady,
    trapezoid,
    triangle,
    twin,
)


def cases() -> Iterator[tuple[str, Samples]]:
    """Name and samples of every case, the same ones each time."""
    one = pulses((1.5, 0.25, 80.3, half_sine))
    three = pulses(
        (1.5, 0.2, 71.7, half_sine), (2.6, 0.22, 83.1, cosine), (3.9, 0.25, 64.9, half_sine)
    )
    br = coupled(one)
    yield "one smooth 1 kHz", make(1, 4, 1000, br, one)
    yield "one smooth 500 Hz", make(2, 4, 500, br, one)
    yield "one smooth 125 Hz", make(3, 4, 125, br, one)
    yield "one smooth 60 Hz", make(4, 4, 60, br, one)
    yield "one irregular 1-12 ms", make(5, 4, (0.001, 0.012), br, one)
    yield "one irregular sub-ms", make(6, 4, (0.0002, 0.003), br, one)
    yield "one irregular with 80 ms gaps", make(7, 4, (0.002, 0.08), br, one, noise=0.3)
    yield "one noisy 1 kHz", make(8, 4, 1000, br, one, noise=0.6, tnoise=0.4)
    yield "one noisy 10 bit 250 Hz", make(9, 4, 250, br, one, noise=0.5, tnoise=0.3, bits=10)
    yield "one very noisy brake", make(10, 4, 333, br, one, noise=3.5, tnoise=0.8)
    yield "one 8 bit 100 Hz", make(11, 4, 100, br, one, noise=0.2, bits=8)
    yield (
        "one raised cosine",
        make(
            12,
            4,
            1000,
            coupled(pulses((1.5, 0.3, 55.5, cosine)), gain=-0.3),
            pulses((1.5, 0.3, 55.5, cosine)),
        ),
    )
    yield (
        "one triangle",
        make(
            13,
            4,
            1000,
            coupled(pulses((1.5, 0.31, 47.3, triangle)), gain=0.2),
            pulses((1.5, 0.31, 47.3, triangle)),
        ),
    )
    yield (
        "one trapezoid saturated at 100",
        make(14, 4, 1000, br, pulses((1.5, 0.4, 140.0, trapezoid))),
    )
    yield (
        "saturated plateaus with gaps between maxima",
        make(
            15,
            4,
            500,
            br,
            lambda t: (
                clamp(pulses((1.5, 0.5, 130.0, trapezoid))(t)) - (9.0 if 1.68 < t < 1.74 else 0.0)
            ),
        ),
    )
    yield (
        "saturated noisy plateau, repeated maxima",
        make(16, 4, 1000, br, pulses((1.5, 0.4, 104.0, trapezoid)), noise=0.4, tnoise=3.0),
    )
    yield "three in a run", make(17, 7, 1000, coupled(three), three, noise=0.3)
    yield "three in a run 60 Hz", make(18, 7, 60, coupled(three, slope=-1.5), three, noise=0.3)
    yield (
        "three in a run irregular",
        make(
            19,
            7,
            (0.001, 0.02),
            coupled(three, slope=1.0, gain=-0.25),
            three,
            noise=0.8,
            tnoise=0.5,
        ),
    )
    far = pulses(
        (1.5, 0.2, 70.1, half_sine), (4.6, 0.22, 80.2, cosine), (5.5, 0.25, 60.3, half_sine)
    )
    yield "two runs", make(20, 8, 1000, coupled(far), far, noise=0.4)
    edge = pulses((1.0, 0.2, 70.1, square), (3.0, 0.2, 80.2, square), (5.001, 0.2, 60.3, square))
    yield "starts exactly 2.000 and 2.001 s apart", make(21, 7, 1000, coupled(edge), edge)
    long_next = pulses(
        (1.5, 0.93, 70.1, trapezoid), (3.45, 0.2, 80.2, half_sine), (5.6, 0.2, 33.3, half_sine)
    )
    yield (
        "long blips, next ones near the window end",
        make(22, 8, 1000, coupled(long_next), long_next, noise=0.2),
    )
    far2 = pulses((1.5, 0.97, 70.1, square), (3.52, 0.2, 80.2, half_sine))
    yield "next run inside the window", make(23, 6, 1000, coupled(far2), far2, noise=0.2)
    close = pulses(
        (1.5, 0.15, 70.1, half_sine), (1.72, 0.15, 80.7, half_sine), (1.93, 0.15, 75.3, half_sine)
    )
    yield "close blips, gaps under 0.1 s", make(24, 5, 1000, coupled(close), close, noise=0.2)
    yield (
        "close blips 125 Hz, quiet brake",
        make(25, 5, 125, coupled(close, gain=-0.01, back=0.0), close, noise=0.2),
    )
    tw = pulses((1.5, 0.5, 78.9, twin))
    yield (
        "two peaks in one blip, saddle over the level",
        make(26, 4, 1000, coupled(tw), tw, noise=0.2),
    )
    saddle = pulses((1.5, 0.2, 81.3, half_sine), (1.75, 0.2, 92.6, half_sine))
    yield (
        "two peaks in one candidate, saddle at 7 % under the level",
        make(
            27,
            4,
            1000,
            coupled(saddle),
            lambda t: max(saddle(t), 7.0 if 1.5 < t < 1.95 else 0.0),
            noise=0.2,
        ),
    )
    yield (
        "released 0.4 s after",
        make(
            28,
            4,
            1000,
            lambda t: br(t) if t < 2.15 else max(0.0, br(t) - (t - 2.15) * 500),
            one,
            noise=0.2,
        ),
    )
    yield (
        "released during the blip",
        make(29, 4, 500, lambda t: br(t) if t < 1.6 else max(0.0, br(t) - (t - 1.6) * 1500), one),
    )
    yield (
        "dips to zero inside the blip and comes back",
        make(30, 4, 1000, lambda t: br(t) - 75 * half_sine((t - 1.52) / 0.15), one),
    )
    yield (
        "dips to zero across the end and comes back",
        make(31, 4, 1000, lambda t: br(t) - 80 * half_sine((t - 1.6) / 0.4), one),
    )
    yield (
        "dips to zero after the end and comes back",
        make(32, 4, 250, lambda t: br(t) - 80 * half_sine((t - 1.9) / 0.3), one, noise=0.2),
    )
    rest6 = pulses((1.5, 0.25, 70.2, half_sine), rest=6.0)
    yield "throttle resting at 6 %", make(33, 4, 1000, coupled(rest6), rest6, tnoise=0.1)
    yield (
        "throttle resting at 6 %, then let go",
        make(34, 4, 1000, coupled(rest6), lambda t: rest6(t) if t < 1.9 else 0.0),
    )
    rest4 = pulses((1.5, 0.25, 70.2, half_sine), (2.4, 0.2, 55.1, cosine), rest=3.9)
    yield (
        "throttle resting at 3.9 %",
        make(35, 5, 1000, coupled(rest4), rest4, noise=0.2, tnoise=0.2),
    )
    linger = pulses((1.5, 0.2, 22.4, half_sine))
    yield (
        "weak blip lingering at 3 %",
        make(
            36,
            4,
            1000,
            coupled(linger, gain=-0.6),
            lambda t: max(linger(t), 3.0 if 1.5 < t < 1.95 else 0.0),
            noise=0.2,
        ),
    )
    for i, cut in enumerate((1.45, 1.35, 1.28, 1.1)):
        yield (
            f"trace begins {1.5 - cut:.2f} s before the blip",
            make(37 + i, 4 - cut, 1000, br, one, noise=0.3, cut=cut),
        )
    yield "open at the end", make(41, 1.62, 1000, br, one)
    yield "second blip open at the end", make(42, 2.7, 1000, coupled(three), three, noise=0.2)
    yield "trace ends 0.15 s after the blip", make(43, 1.9, 500, br, one, noise=0.2)
    yield "flat brake", make(44, 4, 1000, steady(60.0), one)
    yield "flat brake, two blips 60 Hz", make(45, 5, 60, steady(50.0), three)
    longp = pulses((1.5, 1.3, 70.2, trapezoid), (3.6, 0.2, 61.2, half_sine))
    yield "pulse over 1 s, then a blip", make(46, 6, 1000, coupled(longp), longp, noise=0.2)
    exact = pulses((1.5, 1.0, 70.2, square))
    yield "pulse of exactly 1.000 s", make(47, 5, 1000, coupled(exact), exact, noise=0.2)
    yield (
        "brake under 10 %",
        make(48, 4, 1000, lambda t: 8.0 + 0.3 * math.sin(9 * t), one, noise=0.2),
    )
    yield (
        "brake near 10 %, weak",
        make(49, 4, 250, lambda t: 11.5 - 4 * half_sine((t - 1.52) / 0.3), one, noise=0.2),
    )
    small = pulses((1.5, 0.2, 14.6, half_sine), (2.3, 0.2, 15.7, half_sine))
    yield "peaks about 15 %", make(50, 4, 1000, coupled(small, gain=-0.8), small)
    yield (
        "brake rises with the blip",
        make(51, 4, 1000, coupled(one, gain=0.15, back=-0.05), one, noise=0.3),
    )
    yield (
        "brake moves before the throttle",
        make(52, 4, 1000, coupled(one, delay=-0.06), one, noise=0.3),
    )
    yield (
        "brake never settles",
        make(
            53,
            4,
            1000,
            lambda t: br(t) + (9 * math.sin(11 * t) if t > 1.5 else 0.0),
            one,
            noise=0.3,
        ),
    )
    yield (
        "brake stays off its base",
        make(54, 4, 200, lambda t: br(t) - (12 if t > 1.7 else 0.0), one, noise=0.3),
    )
    yield "no throttle", make(55, 2, 125, steady(60.0), steady(0.0), noise=0.3)
    rng = random.Random(56)
    for i in range(6):
        ps, t = [], 1.0
        for _ in range(rng.randint(2, 5)):
            ps.append(
                (
                    t,
                    rng.uniform(0.12, 0.5),
                    rng.uniform(14, 110),
                    rng.choice([half_sine, cosine, triangle, trapezoid, twin]),
                )
            )
            t += rng.uniform(0.45, 2.6)
        f = pulses(*ps, rest=rng.uniform(0, 3))
        b = coupled(
            f,
            level=rng.uniform(20, 90),
            gain=rng.uniform(-0.4, 0.2),
            delay=rng.uniform(-0.05, 0.15),
            back=rng.uniform(-0.1, 0.15),
            slope=rng.uniform(-2, 2),
        )
        yield (
            f"random {i}",
            make(
                560 + i,
                t + rng.uniform(0, 1),
                rng.choice(RATES),
                b,
                f,
                noise=rng.uniform(0, 1),
                tnoise=rng.uniform(0, 0.6),
                bits=rng.choice([None, 10, 12]),
            ),
        )
    shared = pulses((1.5, 0.2, 22.4, half_sine), (1.9, 0.2, 24.6, half_sine))
    yield (
        "two weak blips share one stretch",
        make(
            70,
            4,
            1000,
            coupled(shared),
            lambda t: max(shared(t), 3.0 if 1.5 < t < 2.1 else 0.0),
            noise=0.2,
        ),
    )
    high = pulses((1.0, 1.4, 90.3, square), (2.55, 0.2, 24.6, half_sine))
    yield (
        "peak under rest (long press just before)",
        make(71, 5, 1000, coupled(high, gain=-0.05), high, noise=0.2),
    )
