"""What the game does when its history cannot be read or written: it asks, try again or leave."""

from __future__ import annotations

import threading
from collections.abc import Callable

from drills.capitals import capitalised
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Canvas
from engine.kit.statement import statement
from engine.store.trouble import Cause, Trouble

_WORDS = {
    Cause.IN_USE: (
        "The history is in use",
        "Another program uses it, such as a backup or a second stillfoot.",
        "Close that program or wait for it, then try again.",
    ),
    Cause.FULL: (
        "The disk is full",
        "There is no room left to write to the history.",
        "Free some room on the disk, then try again.",
    ),
    Cause.FOLDER_GONE: (
        "The folder of the history is gone",
        "It was moved or deleted, or its disk was taken out.",
        "Bring it back and try again. Without it, all is written there again.",
    ),
    Cause.FILE_GONE: (
        "The file of the history is gone",
        "It was moved or deleted.",
        "Bring it back and try again. Without it, all is written there again.",
    ),
    Cause.REPLACED: (
        "The file of the history was replaced",
        "Another program put another file in its place.",
        "Try again to go on with that file. A copy of yours is saved beside it.",
    ),
    Cause.DENIED: (
        "The history may not be written",
        "You are not allowed to write in its folder now.",
        "Allow it in the settings of its folder, then try again.",
    ),
}
"""For each known cause the heading, what is wrong and what helps."""
_OTHER = (
    "The history cannot be used",
    "Try again. If that does not help, leave and start stillfoot again.",
)
"""Heading and what helps where the cause is not known."""
_GONE = (Cause.FOLDER_GONE, Cause.FILE_GONE)
"""Causes with which all of the history may be lost, where the game alone still has it open."""


class HistoryTrouble(Menu[bool]):
    """Screen that says why the history cannot be used; its outcome is whether to try again."""

    name = "trouble"

    def __init__(self, trouble: Trouble) -> None:
        """`trouble` is what failed, and what waits to be written."""
        lost = loss_words(trouble)
        super().__init__([Choice("Try again", True), Choice("Leave", False, lost)])
        self._trouble = trouble

    def details(self) -> dict[str, object]:
        """Fields for the events file: the choices, the cause and the error."""
        fields = {"cause": self._trouble.cause.value, "error": str(self._trouble.error)}
        return {**super().details(), **fields}

    def picture(self, canvas: Canvas) -> None:
        """Draw what is wrong, what helps, what waits to be saved, and where the history is."""
        trouble = self._trouble
        known = _WORDS.get(trouble.cause)
        heading, *told = known or _OTHER
        if trouble.waiting or trouble.cause not in _GONE:
            told.append(waiting_words(trouble.waiting))
        note = f"The history: {trouble.path}" if known else f"{trouble.error}."
        statement(canvas, heading, *told, note=note, bottom=self.choices_top)


def loss_words(trouble: Trouble) -> str:
    """What leaving loses, in a few words beside that choice; empty for nothing."""
    if trouble.cause in _GONE:
        return "loses all of it, unless you bring it back"
    return f"loses {trouble.waiting}" if trouble.waiting else ""


def waiting_words(waiting: str) -> str:
    """Sentence that says what waits to be written, such as "one repetition"."""
    if not waiting:
        return "All that you did is in the history."
    return f"{capitalised(waiting)} waits to be saved."


class Asking:
    """Asks the player, in the window, what to do about trouble with the history."""

    def __init__(self) -> None:
        self._show: Callable[[Menu[bool]], object | None] | None = None
        self._thread = 0
        self._window_closed = False
        self.gave_up = False
        """Whether the player chose to leave, or closed the window and the last try failed too."""

    def show_by(self, show: Callable[[Menu[bool]], object | None]) -> None:
        """Set how a screen is shown: the function returns its outcome, None for a closed window."""
        self._show = show
        self._thread = threading.get_ident()

    def __call__(self, trouble: Trouble) -> bool:
        """Whether to try again. A window that is closed here gets one last try.

        Only the thread of the window asks: work in another one gives up at once.
        """
        if self._show is None or self.gave_up or threading.get_ident() != self._thread:
            return False
        again = None if self._window_closed else self._show(HistoryTrouble(trouble))
        if again is None and not self._window_closed:
            self._window_closed = True
            return True
        self.gave_up = not again
        return not self.gave_up

    def stop(self) -> None:
        """Ask no more, as the window is gone."""
        self._show = None
