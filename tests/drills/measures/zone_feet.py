"""Braking zones as feet of every sort might drive them, drawn by seed: good, bad and absurd."""

import random

from drills.braking_zone import BrakingZone, Line
from tests.drills.measures import plain_zone
from tests.drills.measures.signals import Rate, Samples, cosine, half_sine, make, pulses, trapezoid

KNOCK, POINT = 1.2, 3.0  # s, first knock and braking point


def line_of(rng: random.Random) -> Line:
    """Line of some corner, with downforce or without."""
    while True:
        zone = BrakingZone(
            fast=rng.uniform(35, 70),
            slow=rng.uniform(15, 30),
            grip=rng.uniform(8, 14),
            downforce=rng.choice([0.0, rng.uniform(0.0005, 0.003)]),
            ease=rng.uniform(0.4, 1.5),
        )
        if zone.is_possible and 2 <= zone.seconds <= 5:
            return zone.line(rng.uniform(30, 90))


def drive(seed: int) -> tuple[Samples, Line]:
    """Trace of a zone, and the line that was asked in it."""
    rng = random.Random(seed)
    line = line_of(rng)
    seconds, peak = line[-1][0], line[0][1]
    tall, apart = rng.choice([50.0, 75.0, 100.0]), rng.choice([0.18, 0.3, 0.36, 0.45, 0.7])
    first = POINT + rng.choice([0.1, 0.5, 0.9, seconds / 2, -0.8])
    throttle = pulses(
        *(
            (
                first + apart * number + rng.uniform(-0.03, 0.03),
                rng.uniform(0.08, 0.25),
                tall,
                rng.choice([half_sine, cosine, trapezoid]),
            )
            for number in range(rng.randint(0, 4))
        )
    )
    late, rise = rng.choice([0.0, 0.15, -0.4, 0.6]), rng.choice([0.05, 0.2, 0.7])
    strength, drags = rng.choice([1.0, 0.85, 1.1, 0.4]), rng.choice([0.0, 0.2, 1.5, 9.0])
    sway, pace, gain = (
        rng.choice([0, 3, 6]),
        rng.uniform(3, 9),
        rng.choice([-0.02, -0.2, -0.9, 0.15]),
    )
    gone = POINT + rng.uniform(0.3, seconds) if rng.random() < 0.25 else 99.0
    touch = rng.random() < 0.2

    def brake(t: float) -> float:
        since = t - POINT - late
        if touch and KNOCK + 0.2 < t < KNOCK + 0.6:
            return 25.0
        if since < 0 or gone < t < gone + 0.3:
            return 0.0
        down = plain_zone.asked(line, since / (1 + drags / seconds) if drags else since)
        foot = strength * min(1.0, since / rise) * down + gain * throttle(t - 0.03)
        wobble = sway * (since / 2) * half_sine(since * pace % 2) if down > 8 else 0.0
        return foot + (wobble if peak > 40 else 0.0)

    length = POINT + seconds + rng.choice([0.6, 1.5, -0.3])
    rates: list[Rate] = [1000.0, 125.0, 60.0, (0.001, 0.012)]
    noise = rng.choice([0.0, 0.0, 0.6])
    return make(seed, length, rng.choice(rates), brake, throttle, noise=noise), line
