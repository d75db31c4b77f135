"""Steadiness on screens: its value over the last 30 days, and its number with an interval."""

from __future__ import annotations

from dataclasses import dataclass

DAYS = 30
"""Number of days that are told of steadiness, up to and including today."""


@dataclass(frozen=True)
class SteadinessView:
    """Steadiness of a player as screens draw it: number, interval and earlier days."""

    value: float
    """Steadiness: the deviation that three blips in four stay within, up and down, in points."""
    low: float
    """Lower end of the interval of the steadiness, in points."""
    high: float
    """Upper end of the interval of the steadiness, in points."""
    span: int
    """Days on which the blips of the steadiness were played, as a count."""
    days: tuple[tuple[int, float], ...] = ()
    """Steadiness in points on earlier days, as pairs with the number of days ago (29 to 0); oldest
    first."""
