"""Noise of the brake in a recording: how far it steps from report to report while it is held."""

from __future__ import annotations

import numpy as np

from drills.measures.blip import BRAKE_LEAST, OFF
from drills.trace import Trace

NOISE_WARNED = 0.5
"""Noise over which a recording is warned of, in points: it deepens every dip."""
FEWEST = 50
"""Fewest steps of the brake that its noise is told from, as a count."""
OF_A_STEP = (2 / 1.5) ** 0.5
"""Factor that makes a report's distance from the middle of its neighbours as large as the step
between two reports, for noise that is independent from report to report."""


def brake_noise(trace: Trace, floor: float) -> float | None:
    """Median step of the brake between reports while it is held, in points.

    A report is a sample whose brake differs from the one before. Three reports in a row are used
    where the brake is at 10 % or more and the throttle less than 5 points above its `floor` (%) at
    each. A step is the distance of the middle one from the mean of the other two, times
    sqrt(2 / 1.5): the brake's way over the three is left out, so that easing off is no noise. None
    with under 50 steps.
    """
    changed = np.concatenate(([True], np.diff(trace.brake) != 0))
    brake, throttle = trace.brake[changed], trace.throttle[changed]
    held = (brake >= BRAKE_LEAST) & (throttle < floor + OFF)
    used = held[:-2] & held[1:-1] & held[2:]
    steps = np.abs(brake[1:-1] - (brake[:-2] + brake[2:]) / 2)[used]
    return float(np.median(steps)) * OF_A_STEP if steps.size >= FEWEST else None


def noise_warning(noise: float | None) -> str | None:
    """Warning for a recording with so much noise of the brake (points); None for little."""
    if noise is None or noise <= NOISE_WARNED:
        return None
    return f"the brake of this recording is noisy, {noise:.1f} points: it makes dips deeper"
