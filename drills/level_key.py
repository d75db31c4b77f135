"""`Key`: a number that the level files of one kind of drill have, beside those of every level."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Key:
    """A number that the level files of one kind have, beside the keys of every level."""

    name: str
    """Name of the key in level files."""
    low: float
    """Smallest value that the key may have."""
    high: float
    """Largest value that the key may have."""
    default: float | None = None
    """Value where a level leaves the key out; None: every level must have the key."""
    whole: bool = False
    """Whether the value of the key must be a whole number."""
    table: str = ""
    """Name of the table that holds the key in the level file; empty for the top."""
    most: str = ""
    """Name of a key in the same table whose value this one may not exceed; empty for none."""
    instead: str = ""
    """Name of a key in the same table beside which this one may not stand; empty for none."""
    off: float | None = None
    """Value outside the range that asks for nothing, as if the key were left out; None for none."""
    many: int = 0
    """Most numbers that the key may list, each from `low` to `high` and every one under the one
    before; it is empty where a level leaves it out. 0: the key is one number."""
    about: str = ""
    """What the key means, with its unit, for whoever writes a level."""

    @property
    def path(self) -> str:
        """Name of the key with that of its table, such as `blip.least`."""
        return f"{self.table}.{self.name}" if self.table else self.name
