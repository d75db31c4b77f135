"""Signals of pedals by time, and traces sampled from them at any rate, noise and resolution."""

import math
import random
from collections.abc import Callable, Iterator, Sequence

Signal = Callable[[float], float]
Samples = list[tuple[int, float, float]]
Rate = float | tuple[float, float]

ORIGIN = 7_123_456_789  # ns, so that no time axis begins at 0


def clamp(value: float) -> float:
    """A value within the range of a pedal."""
    return min(100.0, max(0.0, value))


def half_sine(u: float) -> float:
    """Half a sine over 0 to 1."""
    return math.sin(math.pi * u) if 0 <= u < 1 else 0.0


def cosine(u: float) -> float:
    """A raised cosine over 0 to 1."""
    return 0.5 - 0.5 * math.cos(math.tau * u) if 0 <= u < 1 else 0.0


def triangle(u: float) -> float:
    """A triangle over 0 to 1."""
    return 1 - abs(2 * u - 1) if 0 <= u < 1 else 0.0


def trapezoid(u: float) -> float:
    """A trapezoid over 0 to 1 that falls more slowly than it rises."""
    return min(1.0, u / 0.2, (1 - u) / 0.3) if 0 <= u < 1 else 0.0


def square(u: float) -> float:
    """1 over 0 to 1."""
    return 1.0 if 0 <= u < 1 else 0.0


def twin(u: float) -> float:
    """Two humps with a saddle at 0.4 between them."""
    saddle = 0.4 if 0.3 < u < 0.7 else 0.0
    return max(half_sine(u / 0.6), half_sine((u - 0.4) / 0.6) * 0.95, saddle)


def steady(value: float) -> Signal:
    """A pedal that does not move."""
    return lambda _: value


def pulses(*parts: tuple[float, float, float, Signal], rest: float = 0.0) -> Signal:
    """A throttle of pulses above a rest, each: at s, length s, height %, shape."""
    return lambda t: rest + sum(tall * shape((t - at) / n) for at, n, tall, shape in parts)


def times(rng: random.Random, length: float, rate: Rate) -> Iterator[int]:
    """Times in ns at a rate in Hz, or with gaps between a least and a most in s."""
    count, now = 0, 0
    while now <= length * 1e9:
        yield now
        count += 1
        if isinstance(rate, tuple):
            now += int(rng.uniform(*rate) * 1e9)
        else:
            now = round(count * 1e9 / rate)


RATES: Sequence[Rate] = (60, 125, 250, 1000, (0.001, 0.015))
"""Rates of reading that cases are drawn from."""


def make(
    seed: int,
    length: float,
    rate: Rate,
    brake: Signal,
    throttle: Signal,
    noise: float = 0.0,
    tnoise: float = 0.0,
    bits: int | None = None,
    cut: float = 0.0,
) -> Samples:
    """A sampled trace, with noise in %, in steps of so many bits, without its first `cut` s."""
    rng = random.Random(seed)
    samples = []
    steps = 2**bits - 1 if bits else 0
    for time in times(rng, length, rate):
        pair = [
            clamp(signal(time / 1e9 + cut) + (rng.gauss(0, spread) if spread else 0.0))
            for signal, spread in ((brake, noise), (throttle, tnoise))
        ]
        if bits:
            pair = [round(value / 100 * steps) / steps * 100 for value in pair]
        samples.append((ORIGIN + time, pair[0], pair[1]))
    return samples


def coupled(
    throttle: Signal,
    level: float = 62.0,
    gain: float = -0.12,
    delay: float = 0.03,
    back: float = 0.04,
    slope: float = 0.0,
) -> Signal:
    """A brake whose foot comes off with the throttle, then presses a little too hard."""
    rest = throttle(-99)

    def brake(t: float) -> float:
        off, on = throttle(t - delay) - rest, throttle(t - delay - 0.25) - rest
        return level + slope * t + gain * off + back * on

    return brake
