"""Screen of the history: its pages one after another."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from enum import Enum

from engine.kit import theme
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Canvas
from engine.kit.charts import Area
from engine.progress.history_pages import PAGES
from engine.progress.progress import Progress

HEADING_TOP = 40
"""Top of the heading of a history page, in canvas units."""
HEADING_SIZE = 72
"""Size of the letters in the heading of a history page, in canvas units."""
GAP = 22
"""Space above and below the chart of a history page, in canvas units."""


class PageTurn(Enum):
    """Choice of the player on a page of the history: what to show after it."""

    NEXT = "next"
    PREVIOUS = "previous"
    KIND = "kind"
    """The same page for the next kind of drill."""
    CHANGE = "change"
    """The screens on which the player marks a change of foot or rig."""
    BACK = "back"


class HistoryPage(Menu[PageTurn]):
    """Screen with one page of the history; its outcome is what to show next."""

    name = "history"
    beside = 3

    def __init__(self, progress: Progress, page: str) -> None:
        """`page` is the name of the page of the history to show."""
        self._page = PAGES[page]
        self._progress = progress
        self._words = self._page.brief_words(progress) or self._page.words(progress)
        names = list(PAGES)
        place = names.index(page)
        self._place = f"{place + 1} of {len(names)}"
        self.next_page = names[(place + 1) % len(names)]
        """Name of the page after this one; the first page comes after the last."""
        self.previous_page = names[place - 1]
        """Name of the page before this one; the last page comes before the first."""
        choices = [Choice(f"Next: {self.next_page}", PageTurn.NEXT)]
        if self._page.is_per_kind and len(progress.kinds) > 1:
            kind = next_kind(progress)
            choices.append(Choice(f"Curve of: {kind.kinds[kind.chosen].name}", PageTurn.KIND))
        choices += [
            Choice("Previous", PageTurn.PREVIOUS, self.previous_page),
            Choice("Mark a change", PageTurn.CHANGE),
            Choice("Back", PageTurn.BACK),
        ]
        super().__init__(choices, back=PageTurn.BACK)

    def details(self) -> Mapping[str, object]:
        """Labels of the choices, name of the page and its sentences, for the events file."""
        return {**super().details(), "page": self._page.name, "says": list(self._words)}

    def picture(self, canvas: Canvas) -> None:
        """Draw the heading with the page's number, the sentences, and the chart."""
        right = theme.WIDTH - theme.MARGIN
        canvas.text(self._page.title, (theme.MARGIN, HEADING_TOP), HEADING_SIZE)
        canvas.text(self._place, (right, HEADING_TOP + 14), theme.SMALL, theme.QUIET, "right")
        width = right - theme.MARGIN
        y = float(HEADING_TOP + HEADING_SIZE)
        for sentence in self._words:
            y = canvas.text(sentence, (theme.MARGIN, y), theme.SMALL, theme.TEXT, width=width)
        top = y + GAP
        area = Area(theme.MARGIN, top, width, self.choices_top - GAP - top)
        self._page.paint(canvas, area, self._progress)


def next_kind(progress: Progress) -> Progress:
    """The same progress with the next kind of drill chosen; after the last comes the first."""
    return replace(progress, chosen=(progress.chosen + 1) % len(progress.kinds))
