"""The coupling of the brake to a throttle that rests wherever its pedal does."""

import numpy as np
import pytest

from drills.measures.coupling import couple

BRAKE, THROTTLE = -50.0, 60.0
LATE = 50
"""Grid points from the throttle to the brake."""
PULSE = slice(1000, 1150)
WINDOW = slice(900, 1160)
"""Window that ends right after the throttle pulse, as where the brake is let go with the blip."""


@pytest.mark.parametrize("rest", [0.0, 0.1, 1.7, 2.3, 3.6, 4.1])
def test_rounding_of_the_throttles_rest_is_no_throttle(rest: float) -> None:
    throttle, change = np.full(2000, rest), np.zeros(2000)
    throttle[PULSE] += THROTTLE
    change[PULSE.start + LATE :] = BRAKE
    before = float(throttle[500:900].mean())

    gain, lag = couple(change[WINDOW], throttle, before, WINDOW.start)

    assert gain == pytest.approx(BRAKE / THROTTLE)
    assert lag == LATE / 1000
