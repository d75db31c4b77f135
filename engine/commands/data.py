"""The history in the data folder, as commands open it."""

from __future__ import annotations

from pathlib import Path

from drills.level import Level
from engine.ladder.level_files import OWN, SHIPPED, load_levels
from engine.store import History, StoreError, open_history
from engine.store.history import FILE
from engine.store.opening import is_new


def all_levels(folder: Path) -> list[Level]:
    """The levels that ship with the game, and the player's own. Raises LevelError."""
    return load_levels([SHIPPED, folder / OWN])


def open_data(folder: Path) -> History:
    """The history in a data folder, new where there is none. Raises StoreError, LevelError."""
    return open_history(folder, all_levels(folder))


def open_existing(folder: Path) -> History:
    """The history in a data folder. Raises StoreError where there is none, LevelError."""
    if is_new(folder):
        raise StoreError(f"{folder / FILE}: expected a history, found none")
    return open_data(folder)


def repetitions(count: int) -> str:
    """How many repetitions, for a person."""
    return "1 repetition" if count == 1 else f"{count:,} repetitions"
