"""Screens about a history that cannot be used or is damaged, as they come up in play."""

from pathlib import Path
from typing import Any

from engine.game.damage import NotRepaired, Repaired, Repairing
from engine.game.trouble import HistoryTrouble
from engine.kit.base import Screen
from engine.pedals.rig import Means
from engine.store import StoreError
from engine.store.trouble import Cause, Trouble

HISTORY = Path("/home/somebody/.local/share/stillfoot/players/Somebody Else/history.sqlite3")
ERROR = StoreError(f"{HISTORY}: expected a history that can be written, found a full disk")
TOLD = (
    "3 repetitions of 4 May cannot be read; 2 of them came from the copy of 3 May.",
    "1 curve cannot be read; the verdicts stay.",
    "2 settings cannot be read: sound and light, window.",
    f"The history is {HISTORY}.",
    f"The damaged file is now {HISTORY.with_name('history-damaged-2026-05-06.sqlite3')}.",
    "One repetition that waited is saved.",
)


def failed(cause: Cause, waiting: str = "one repetition") -> HistoryTrouble:
    """Screen about one failure to use the history."""
    screen = HistoryTrouble(Trouble(cause, ERROR, HISTORY, waiting))
    screen.on_means(Means(feet=True, buttons=True))
    return screen


def history_trouble_screens() -> dict[str, Screen[Any]]:
    """Screens about a history that cannot be used or is damaged, by a name."""
    return {
        **{f"trouble: {cause.value}": failed(cause) for cause in Cause},
        "trouble: nothing waits": failed(Cause.IN_USE, ""),
        "trouble: gone, nothing waits": failed(Cause.FILE_GONE, ""),
        "damaged: repairing": Repairing(list, ERROR, "one repetition"),
        "damaged: repaired": Repaired(TOLD),
        "damaged: not repaired": NotRepaired(ERROR, "one repetition"),
    }
