"""Screens about a damaged history: that it is, while it is repaired, and what came of that."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from engine.game.remeasuring import DRAWN
from engine.game.trouble import waiting_words
from engine.kit import theme
from engine.kit.base import Choice, Menu, Screen
from engine.kit.canvas import Canvas
from engine.kit.statement import statement
from engine.store import StoreError


class Repairing(Screen[Sequence[str] | StoreError]):
    """Screen shown while a damaged history is repaired.

    Its outcome is what was lost, in sentences, or the error if it could not be repaired.
    """

    name = "damaged"

    def __init__(
        self, repair: Callable[[], Sequence[str]], error: StoreError, waiting: str
    ) -> None:
        """`repair` repairs the history and may raise StoreError; `error` tells the damage.

        `waiting` is what waits to be written; empty for nothing.
        """
        super().__init__()
        self._repair = repair
        self._error = error
        self._waiting = waiting
        self._looks = 0

    def details(self) -> dict[str, object]:
        """Field for the events file: the damage."""
        return {"error": str(self._error)}

    def on_sample(self, sample: object, now: int) -> None:
        """Repair the history, once this screen was drawn."""
        self._looks += 1
        if self._looks >= DRAWN:
            self.work()

    def work(self) -> None:
        """Repair the history at once, and end with what came of it."""
        try:
            self.outcome = self._repair()
        except StoreError as error:
            self.outcome = error

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw what is done now."""
        told = [
            "Reading what can be read. A long history takes some minutes.",
            "It goes into a new file. The damaged one is set aside, unchanged.",
        ]
        told += [waiting_words(self._waiting)] if self._waiting else []
        statement(canvas, "The history is damaged", *told, bottom=theme.HEIGHT)


class Repaired(Menu[bool]):
    """Screen that says what was lost of a damaged history, and where its files are."""

    name = "repaired"
    in_a_bar = True

    def __init__(self, told: Sequence[str]) -> None:
        """`told` are the sentences to show."""
        super().__init__([Choice("Go on", True)])
        self._told = told

    def details(self) -> dict[str, object]:
        """Fields for the events file: the choice and the sentences."""
        return {**super().details(), "told": list(self._told)}

    def picture(self, canvas: Canvas) -> None:
        """Draw what was lost."""
        statement(canvas, "The history was damaged", *self._told)


class NotRepaired(Menu[bool]):
    """Screen that says why a damaged history was not repaired; outcome: whether to try again."""

    name = "not repaired"

    def __init__(self, error: StoreError, waiting: str) -> None:
        """`error` says why, `waiting` is what waits to be written; empty for nothing."""
        lost = f"loses {waiting}" if waiting else ""
        super().__init__([Choice("Try again", True), Choice("Leave", False, lost)])
        self._error = error
        self._waiting = waiting

    def details(self) -> dict[str, object]:
        """Fields for the events file: the choices, and why it was not repaired."""
        return {**super().details(), "error": str(self._error)}

    def picture(self, canvas: Canvas) -> None:
        """Draw why it was not repaired, and what helps."""
        told = ["Fix what is named below, then try again.", "The damaged file stays as it is."]
        told += [waiting_words(self._waiting)] if self._waiting else []
        heading, why = "The history is not repaired", f"{self._error}."
        statement(canvas, heading, *told, note=why, bottom=self.choices_top)
