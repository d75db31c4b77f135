"""Access of the commands to the history in the data folder, and to the levels it needs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TypeVar

from drills.level import Level
from drills.number_words import counted
from engine.console import warn
from engine.ladder.level_files import OWN, SHIPPED, load_levels
from engine.salvage.repair import repair
from engine.salvage.salvage import salvage
from engine.salvage.words import words_of
from engine.store import DamagedError, History, StoreError, open_history
from engine.store.copies import newest_copies
from engine.store.history import FILE
from engine.store.opening import is_new
from engine.store.reading import open_for_reading
from engine.store.temporary import temporary_folder

T = TypeVar("T")
REST = "what can be read of it is used: run stillfoot to repair it"
"""Ending of the line on a damaged history that a command only reads."""
NOTHING = "nothing of it can be read: run stillfoot to begin a new one"
"""Ending of that line where neither the file nor a copy has anything."""


def all_levels(folder: Path) -> list[Level]:
    """Levels that ship with the game, and the player's own. Raises LevelError."""
    return load_levels([SHIPPED, folder / OWN])


def refuse_new(folder: Path) -> None:
    """Raise StoreError for a data folder without a history."""
    if is_new(folder):
        raise StoreError(f"{folder / FILE}: expected a history, found none")


def change_data(folder: Path, use: Callable[[History], T]) -> T:
    """What `use` returns of the history in a data folder, which it may change.

    The history is created if there is none. A damaged one is repaired, as in `with_repair`. Raises
    StoreError, LevelError.
    """
    levels = all_levels(folder)

    def work() -> T:
        with open_history(folder, levels) as history:
            return use(history)

    return with_repair(folder, levels, work)


def with_repair(folder: Path, levels: Sequence[Level], work: Callable[[], T]) -> T:
    """What `work` returns, which opens and closes the history in a data folder itself.

    If it finds that damaged, the history is repaired, which is told on standard error, and `work`
    called once more. `levels` are all levels. Raises StoreError.
    """
    try:
        return work()
    except DamagedError as error:
        told = words_of(repair(folder, levels))
        for line in [str(error), *told] if told else []:
            warn(line)
    return work()


def read_data(folder: Path, levels: Sequence[Level], use: Callable[[History], T]) -> T:
    """What `use` returns of the history in a data folder, which is not changed.

    Of a damaged history it is given what can be read, which is told on standard error; it may be
    called twice. `levels` are all levels. Raises StoreError, also where there is no history or
    nothing of it can be read.
    """
    refuse_new(folder)
    try:
        with open_for_reading(folder, levels) as history:
            return use(history)
    except DamagedError as error:
        found = _read_rest(folder, levels, use, error)
        warn(f"{error}; {REST}")
        return found


def _read_rest(
    folder: Path, levels: Sequence[Level], use: Callable[[History], T], damage: DamagedError
) -> T:
    """What `use` returns of what can be read of a damaged history.

    Raises StoreError, also if that is nothing.
    """
    with temporary_folder() as rest:
        loss = salvage(folder / FILE, rest / FILE, levels, newest_copies(folder))
        if loss.is_all and not loss.filled:
            raise StoreError(f"{damage}; {NOTHING}") from damage
        with open_for_reading(rest, levels) as history:
            return use(history)


def repetitions(count: int) -> str:
    """A number of repetitions in words, such as "1 repetition"."""
    return counted(count, "repetition")
