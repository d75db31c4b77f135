"""Screens for marking a change of foot or rig, and for taking the newest mark back."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum

from drills.capitals import capitalised
from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.practice.changes import EXCUSED, Change, Changed
from engine.progress.changes_words import change_name
from engine.progress.learning_curve_words import lasting

LINES = 3
"""Most lines on earlier changes on a screen, as a count."""


class ChangeTurn(Enum):
    """Choice of the player about changes other than what was changed."""

    MARK = "mark"
    NOTE = "note"
    """The line of text for a note on the change."""
    TAKE_BACK = "take back"
    """The question whether the newest mark is taken back."""
    BACK = "back"


class WhatChanged(Menu[Changed | ChangeTurn]):
    """Screen that asks what the player changed; its outcome is that, or what else to do."""

    name = "what changed"

    def __init__(self, lines: Sequence[str] = (), newest: str = "") -> None:
        """`lines` say what earlier changes brought; `newest` is the day of the mark that
        can be taken back, in words; empty for none."""
        self._lines = tuple(lines[:LINES])
        self.list_top = None if self._lines else theme.LIST
        choices: list[Choice[Changed | ChangeTurn]] = [
            Choice("Foot position", Changed.POSITION, "ball or toes, heel planted or floating"),
            Choice("Pedals", Changed.PEDALS, "others, or moved"),
            Choice("Shoes", Changed.SHOES),
            Choice("Something else", Changed.OTHER, "a note can say what"),
        ]
        if newest:
            that = f"that of {newest}"
            choices.append(Choice("Take back the newest", ChangeTurn.TAKE_BACK, that))
        choices.append(Choice("Back", ChangeTurn.BACK))
        super().__init__(choices, back=ChangeTurn.BACK)

    def details(self) -> Mapping[str, object]:
        """Labels of the choices, and the lines on earlier changes, for the events file."""
        return {**super().details(), "says": list(self._lines)}

    def picture(self, canvas: Canvas) -> None:
        """Draw the question, what marking a change does, and what earlier changes brought."""
        y = title(canvas, "What did you change?")
        width = theme.WIDTH - 2 * theme.MARGIN
        text = "Your charts will show it, and learning curves begin there."
        y = canvas.text(text, (theme.MARGIN, y), width=width) + 20
        for line in self._lines:
            y = canvas.text(line, (theme.MARGIN, y), theme.SMALL, theme.QUIET, width=width) + 6


class MarkChange(Menu[ChangeTurn]):
    """Screen that asks to confirm a change; its outcome is to mark it, to write a note, or back."""

    name = "mark change"
    in_a_bar = True

    def __init__(self, what: Changed, note: str = "") -> None:
        """`what` is what the player changed, `note` a few words on it; may be empty."""
        self._what, self._note = what, note
        choices = [
            Choice("Mark it", ChangeTurn.MARK),
            Choice("Change the note" if note else "Write a note", ChangeTurn.NOTE),
            Choice("Back", ChangeTurn.BACK),
        ]
        super().__init__(choices, back=ChangeTurn.BACK)

    def details(self) -> Mapping[str, object]:
        """Labels of the choices and the note, for the events file."""
        return {**super().details(), "note": self._note}

    def picture(self, canvas: Canvas) -> None:
        """Draw the change to be marked, its note, and what to expect after it."""
        y = title(canvas, f"A change of {self._what.value}")
        width = theme.WIDTH - 2 * theme.MARGIN
        text = f"A new curve begins. Being worse is excused for {lasting(EXCUSED.days)}."
        y = canvas.text(text, (theme.MARGIN, y), width=width) + 20
        if not self._note:
            text = "A note is written on the keyboard."
            canvas.text(text, (theme.MARGIN, y), theme.BODY, theme.QUIET, width=width)
        if self._note:
            canvas.text(f"Note: {self._note}", (theme.MARGIN, y), width=width)


class TakeBack(Menu[bool]):
    """Screen that asks whether to take back a change; its outcome is whether to."""

    name = "take back"
    in_a_bar = True

    def __init__(self, change: Change, day: str) -> None:
        """`change` is the mark to take back, `day` its day in words."""
        self._change = change
        self._day = day
        choices = [Choice("Keep it", False), Choice("Take it back", True)]
        super().__init__(choices, back=False)

    def picture(self, canvas: Canvas) -> None:
        """Draw the question, the change, and what taking it back does."""
        y = title(canvas, f"Take back the change of {self._day}?")
        width = theme.WIDTH - 2 * theme.MARGIN
        name = change_name(self._change)
        y = canvas.text(f"{capitalised(name)}.", (theme.MARGIN, y), width=width) + 20
        text = "The mark goes, and curves run on through that day."
        canvas.text(text, (theme.MARGIN, y), width=width)
