"""The history screen: the pictures of progress one after another, and marking a change."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum

from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.kit.charts import Area
from engine.practice.changes import Changed
from engine.progress.history_pages import pages
from engine.progress.progress import Progress

HEAD = 40
"""units from the top, where the heading of a page is."""
HEADING = 72
"""units, size of it."""
FREE = 22
"""units, from the words to the picture, and from it to the choices."""


class PageTurn(Enum):
    """Where to go from a page."""

    NEXT = "next"
    PREVIOUS = "previous"
    KIND = "kind"
    """The learning curve of another kind."""
    CHANGE = "change"
    """Mark a change."""
    BACK = "back"


class HistoryPage(Menu[PageTurn]):
    """One picture of progress with its words; ends with where to go."""

    name = "history"
    beside = 3

    def __init__(self, progress: Progress, number: int, chosen: int = 0) -> None:
        """The page of a number from 0; `chosen` is the kind of the learning curve, from 0."""
        walked = pages(progress, chosen)
        self.count = len(walked)
        """count of pages."""
        self._page = walked[number]
        self._says = self._page.brief or self._page.says
        self._place = f"{number + 1} of {self.count}"
        following, before = walked[(number + 1) % self.count], walked[number - 1]
        choices = [Choice(f"Next: {following.name}", PageTurn.NEXT)]
        if self._page.kinds > 1:
            after = progress.learned[(chosen + 1) % self._page.kinds]
            choices.append(Choice(f"Curve of: {after.name}", PageTurn.KIND))
        choices += [
            Choice("Previous", PageTurn.PREVIOUS, before.name),
            Choice("Mark a change", PageTurn.CHANGE),
            Choice("Back", PageTurn.BACK),
        ]
        super().__init__(choices, back=PageTurn.BACK)

    def details(self) -> Mapping[str, object]:
        """The labels of the choices, and what the page shows."""
        return {**super().details(), "page": self._page.name, "says": list(self._says)}

    def picture(self, canvas: Canvas) -> None:
        """The heading and which page it is, the words, and the picture."""
        right = theme.WIDTH - theme.MARGIN
        canvas.text(self._page.title, (theme.MARGIN, HEAD), HEADING)
        canvas.text(self._place, (right, HEAD + 14), theme.SMALL, theme.QUIET, "right")
        width = right - theme.MARGIN
        y = float(HEAD + HEADING)
        for sentence in self._says:
            y = canvas.text(sentence, (theme.MARGIN, y), theme.SMALL, theme.TEXT, width=width)
        top = y + FREE
        self._page.paint(canvas, Area(theme.MARGIN, top, width, self.choices_top - FREE - top))


class WhatChanged(Menu[Changed | PageTurn]):
    """Asks what was changed; Turn.BACK for going back."""

    name = "what changed"

    def __init__(self) -> None:
        choices: list[Choice[Changed | PageTurn]] = [
            Choice("Foot position", Changed.POSITION, "ball or toes, heel planted or floating"),
            Choice("Pedals", Changed.PEDALS, "others, or moved"),
            Choice("Shoes", Changed.SHOES),
            Choice("Back", PageTurn.BACK),
        ]
        super().__init__(choices, back=PageTurn.BACK)

    def picture(self, canvas: Canvas) -> None:
        """What marking does."""
        y = title(canvas, "What did you change?")
        said = (
            "From the next repetition on the foot learns anew. The pictures of your progress show"
            " where, and the learning curves begin there."
        )
        canvas.text(said, (theme.MARGIN, y), width=theme.WIDTH - 2 * theme.MARGIN)


class MarkChange(Menu[bool]):
    """Asks whether to mark a change; ends with whether it is marked."""

    name = "mark change"

    def __init__(self, what: Changed) -> None:
        """`what` was changed."""
        self._what = what
        choices = [Choice("Mark it", True), Choice("Back", False, "nothing is marked")]
        super().__init__(choices, back=False)

    def picture(self, canvas: Canvas) -> None:
        """What to expect."""
        y = title(canvas, f"A change of {self._what.value}")
        said = "A new curve begins. Worse at first is expected: the foot learns anew."
        canvas.text(said, (theme.MARGIN, y), width=theme.WIDTH - 2 * theme.MARGIN)
