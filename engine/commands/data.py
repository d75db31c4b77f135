"""Access of the commands to the history in the data folder, and to the levels it needs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TypeVar

from drills.level import Level
from engine.ladder.level_files import OWN, SHIPPED, load_levels
from engine.store import History, StoreError, open_history
from engine.store.history import FILE
from engine.store.opening import is_new
from engine.store.reading import open_for_reading

T = TypeVar("T")


def all_levels(folder: Path) -> list[Level]:
    """Levels that ship with the game, and the player's own. Raises LevelError."""
    return load_levels([SHIPPED, folder / OWN])


def refuse_new(folder: Path) -> None:
    """Raise StoreError for a data folder without a history."""
    if is_new(folder):
        raise StoreError(f"{folder / FILE}: expected a history, found none")


def change_data(folder: Path, use: Callable[[History], T]) -> T:
    """What `use` returns of the history in a data folder, which it may change.

    The history is created if there is none. Raises StoreError, LevelError.
    """
    with open_history(folder, all_levels(folder)) as history:
        return use(history)


def read_data(folder: Path, levels: Sequence[Level], use: Callable[[History], T]) -> T:
    """What `use` returns of the history in a data folder, which is not changed.

    `levels` are all levels. Raises StoreError, also where there is no history.
    """
    refuse_new(folder)
    with open_for_reading(folder, levels) as history:
        return use(history)


def repetitions(count: int) -> str:
    """A number of repetitions in words, such as "1 repetition"."""
    return "1 repetition" if count == 1 else f"{count:,} repetitions"
