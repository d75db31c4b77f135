"""A drive that was recorded: its blips, each held against its chord as a drill's easing off is."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True)
class RoadBlip:
    """One blip of a drive."""

    run: int
    """From 1, which run of the drive it is of."""
    place: int
    """From 1, which one of its run it is."""
    onset: float
    """s, when it began, on the time axis of the recording."""
    peak: float
    """%, most throttle."""
    dip: float | None = None
    """points, how far the brake fell under its chord; None where it is not scored."""
    surge: float | None = None
    """points, how far it rose over its chord; None where it is not scored."""
    carry: float | None = None
    """points, the change that the chord takes for intention; None where it is not scored."""
    reason: str = ""
    """Why it is not scored; empty where it is."""


@dataclass(frozen=True)
class Drive:
    """One recorded drive in a simulated car."""

    at: datetime
    """When it was kept, with the local offset from UTC."""
    name: str
    """Name of its file, without the folder."""
    digest: str
    """SHA-256 of the recording in hexadecimal digits: the same one is kept once."""
    seconds: float
    """s, how long it is."""
    blips: tuple[RoadBlip, ...] = ()
    """Every one, in order."""
