"""One size of blip, to which deviations are scaled before they are compared over days.

A dip grows with the blip that makes it, so deviations are only comparable at blips of one size.
"""

from __future__ import annotations

BLIP = 60.0
"""Throttle at the peak of the blip that deviations are scaled to, in %: the size that levels which
are compared over days ask for."""


def scaled(deviation: float, peak: float) -> float:
    """A deviation as it would be at a blip of the one size, in points; `peak` is above 0, in %.

    The deviation is taken as proportional to the blip.
    """
    return deviation * BLIP / peak
