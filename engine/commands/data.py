"""Access of the commands to the history in the data folder, and to the levels it needs."""

from __future__ import annotations

from pathlib import Path

from drills.level import Level
from engine.ladder.level_files import OWN, SHIPPED, load_levels
from engine.store import History, StoreError, open_history
from engine.store.history import FILE
from engine.store.opening import is_new


def all_levels(folder: Path) -> list[Level]:
    """Levels that ship with the game, and the player's own. Raises LevelError."""
    return load_levels([SHIPPED, folder / OWN])


def open_data(folder: Path) -> History:
    """Open the history in a data folder, or create it there. Raises StoreError, LevelError."""
    return open_history(folder, all_levels(folder))


def open_existing(folder: Path) -> History:
    """Open the history in a data folder. Raises StoreError where there is none, LevelError."""
    if is_new(folder):
        raise StoreError(f"{folder / FILE}: expected a history, found none")
    return open_data(folder)


def repetitions(count: int) -> str:
    """A number of repetitions in words, such as "1 repetition"."""
    return "1 repetition" if count == 1 else f"{count:,} repetitions"
