"""Player who helps when the history file cannot be used, and what is in a folder then."""

from collections.abc import Callable
from pathlib import Path

from engine.store import History
from engine.store.trouble import Cause, Trouble
from tests.stored import all_results


class Player:
    """Player who does one thing after another about trouble, and gives up when none is left."""

    def __init__(self, *helps: Callable[[], object]) -> None:
        self.helps = list(helps)
        self.asked: list[Trouble] = []

    def __call__(self, trouble: Trouble) -> bool:
        self.asked.append(trouble)
        if not self.helps:
            return False
        self.helps.pop(0)()
        return True

    @property
    def causes(self) -> list[Cause]:
        """Causes of the trouble, one for each time this player was asked."""
        return [trouble.cause for trouble in self.asked]


def nothing() -> None:
    """Help by doing nothing but trying again."""


def count(history: History) -> int:
    """Number of repetitions in a history."""
    return len(all_results(history))


def files(folder: Path) -> list[str]:
    """Names of the files in a data folder, in order."""
    return sorted(path.name for path in folder.iterdir())
