"""One size of blip that a level may ask for: the blips inside it, and the void verdict on others.

A dip grows with the blip that makes it, so levels whose dips are compared over days ask for blips
of one size. A blip of another size is no failure of the foot: its repetition is void, and repeated.
"""

from __future__ import annotations

from dataclasses import replace

from drills.level import Key, Level
from drills.measures.blip import PEAK_LEAST

AROUND = 20.0
"""Distance from the size asked at which the peak of a blip still counts, in points, each way."""
UNBOUNDED = 100.0
"""Greatest throttle peak asked that sets no bound, in %: a throttle at its stop may read a little
over it."""
SIZE = "blip.size"
"""Path of the level key that asks for one size of blip."""
BLIP_KEYS = (
    Key(
        *("least", 15, 100, 30),
        table="blip",
        most="most",
        instead="size",
        about="%, least throttle peak asked",
    ),
    Key(
        *("most", 15, 100, 100),
        table="blip",
        instead="size",
        about="%, greatest throttle peak asked; 100 sets no bound",
    ),
    Key("longest", 0.05, 1, 0.6, table="blip", about="s, greatest width of a blip asked"),
    Key(
        *("size", 20, 95, 0),
        table="blip",
        off=0,
        about=f"%, throttle peak asked: a blip over {AROUND:g} points from it is repeated",
    ),
)
"""Keys of a level that say what blip it asks for: its throttle peak and its width."""


def with_size(level: Level, size: float) -> Level:
    """The level asking for blips of one size, in % at the peak; with 0 it asks for no size.

    Its limits, targets and tolerance stay. A level of a kind without blips is returned as it is.
    """
    if SIZE not in level.own:
        return level
    return replace(level, own={**level.own, SIZE: size})


def peaks_asked(level: Level) -> tuple[float, float]:
    """Least and greatest throttle peak that a level asks for, in %; its size sets them, if any."""
    size = level.own[SIZE]
    if not size:
        return level.own["blip.least"], level.own["blip.most"]
    return max(size - AROUND, PEAK_LEAST), min(size + AROUND, UNBOUNDED)
