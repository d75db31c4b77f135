"""Made-up squeezes of a foot that presses a line of what is asked."""

from datetime import date, timedelta

import numpy as np

from engine.practice.sense import Squeeze

DAY = date(2024, 5, 1)


def squeezes(
    count: int,
    gain: float = 1.0,
    offset: float = 0.0,
    miss: float = 0.05,
    weights: tuple[int, int] = (35, 75),
    seed: int = 1,
) -> list[Squeeze]:
    """So many squeezes, four a day; `miss` is their spread as a share of the weight asked."""
    rng = np.random.default_rng(seed)
    asked = rng.integers(*weights, count, endpoint=True).astype(float)
    pressed = offset + (gain + miss * rng.normal(size=count)) * asked
    return [
        Squeeze(DAY + timedelta(days=number // 4), float(x), float(y))
        for number, (x, y) in enumerate(zip(asked, pressed, strict=True))
    ]
