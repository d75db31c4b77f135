"""Early roll: how far the brake had left before a blip of a recording moved the throttle.

A foot that unloads before its throttle moves is hidden from the chord, which begins 0.1 s before
the blip. It shows against where the brake was heading earlier.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from drills.trace import Values

At = TypeVar("At", float, Values)

EARLY_LEAST = 5.0
"""Early roll over which a blip is flagged and its dip told against the wide chord, in points."""
LINE_FROM, LINE_TO = 600, 300
"""Window of the brake that the straight line of a blip's approach is fitted to, in grid points
before its onset."""
WIDE_FROM, WIDE_TO = 400, 300
"""Window of the brake that begins the wide chord of a blip, in grid points before its onset."""
WIDE_AT = 350
"""Beginning of the wide chord of a blip, in grid points before its onset."""
PREDICTED_AT = 100
"""Point at which a blip's brake is predicted, in grid points before its onset."""
SEEN_FROM, SEEN_TO = 120, 80
"""Window of the brake that is compared with the prediction, in grid points before a blip's
onset."""


@dataclass(frozen=True)
class EarlyRoll:
    """What the brake did before a blip's throttle, and where its wide chord begins."""

    early: float
    """Brake that was gone before the throttle moved, in points; negative where it rose."""
    ahead: float
    """Mean brake from 0.4 to 0.3 s before the blip's onset, where its wide chord begins, in %."""


def early_roll(
    brake: Values, onset: int, last: float, after: float, since: int
) -> EarlyRoll | None:
    """Early roll of the blip with its onset at grid index `onset` of `brake` (%, shape (n,)).

    Its chord ends at grid index `last` with `after` %. `since` is the first grid index that no
    earlier blip's window covers; None where that, or the trace, leaves too little before the blip.
    """
    if onset - LINE_FROM < since:
        return None
    ahead = float(brake[onset - WIDE_FROM : onset - WIDE_TO].mean())
    wide = straight(onset - PREDICTED_AT, (onset - WIDE_AT, ahead), (last, after))
    seen = float(brake[onset - SEEN_FROM : onset - SEEN_TO].mean())
    return EarlyRoll(min(_fitted(brake, onset), wide) - seen, ahead)


def straight(at: At, first: tuple[float, float], last: tuple[float, float]) -> At:
    """Values at `at` of the straight line through two points, each a place and a value there."""
    (begins, low), (ends, high) = first, last
    return low + (high - low) * (at - begins) / (ends - begins)


def _fitted(brake: Values, onset: int) -> float:
    """Brake in % predicted by the least-squares line through the approach of a blip."""
    approach = brake[onset - LINE_FROM : onset - LINE_TO]
    places = np.arange(-LINE_FROM, -LINE_TO, dtype=np.float64)
    middle, level = float(places.mean()), float(approach.mean())
    centred = places - middle
    slope = float(centred @ (approach - level)) / float(centred @ centred)
    return level + slope * (-PREDICTED_AT - middle)
