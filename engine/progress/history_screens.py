"""Screen of the history: its pages one after another."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import replace
from enum import Enum

from engine.kit import theme
from engine.kit.area import Area
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Canvas
from engine.kit.statement import fitting_size
from engine.kit.typeface import Weight
from engine.progress.history_pages import PAGES
from engine.progress.page_words import PageWords
from engine.progress.progress import Progress

QUESTION = 64.0
"""Height of the question of a page, in canvas units."""
QUESTION_TOP, LEAD_TOP, LINE_TOP = 64.0, 136.0, 236.0
"""Tops of the question, its answer and the quiet line below, in canvas units."""
GAP = 30
"""Space above and below the chart of a history page, in canvas units."""
APART = 14
"""Space between two of the figures of a history page, in canvas units."""


class PageTurn(Enum):
    """Choice of the player on a page of the history: what to show after it."""

    NEXT = "next"
    PREVIOUS = "previous"
    CHANGE = "change"
    """The screens on which the player marks a change of foot or rig."""
    FIGURES = "figures"
    """The same page with all figures in place of the picture, or with the picture again."""
    KIND = "kind"
    """The same page for the next kind of drill."""
    BACK = "back"


class HistoryPage(Menu[PageTurn]):
    """Screen with one page of the history; its outcome is what to show next."""

    name = "history"
    in_a_bar = True

    def __init__(self, progress: Progress, page: str) -> None:
        """`page` is the name of the page of the history to show."""
        self._page = PAGES[page]
        self._progress = progress
        words = self._page.words(progress)
        # The words in place of a picture that is missing say already why there is no answer.
        missing = self._page.missing(progress)
        self._words = replace(words, lead="", line="") if missing else words
        self._in_figures = False
        names = list(PAGES)
        place = names.index(page)
        self.next_page = names[(place + 1) % len(names)]
        """Name of the page after this one; the first page comes after the last."""
        self.previous_page = names[place - 1]
        """Name of the page before this one; the last page comes before the first."""
        choices = [
            Choice("Next", PageTurn.NEXT, f"{place + 1} of {len(names)}"),
            Choice("Previous", PageTurn.PREVIOUS),
            Choice("Mark a change", PageTurn.CHANGE),
            Choice("Figures", PageTurn.FIGURES),
        ]
        if self._page.is_per_kind and len(progress.kinds) > 1:
            choices.append(Choice("Drills", PageTurn.KIND))
        super().__init__([*choices, Choice("Back", PageTurn.BACK)], back=PageTurn.BACK)

    def details(self) -> Mapping[str, object]:
        """Labels of the choices, name of the page and its sentences, for the events file."""
        return {
            **super().details(),
            "page": self._page.name,
            "says": self._words.sentences,
            "figures": self._in_figures,
        }

    def appearance(self) -> Hashable:
        """State that the drawn page depends on: the menu's, and whether figures are shown."""
        return super().appearance(), self._in_figures

    def choose(self, choice: Choice[PageTurn]) -> None:
        """End the page with the choice made, or swap the picture and all figures."""
        if choice.outcome is not PageTurn.FIGURES:
            self.outcome = choice.outcome
            return
        self._in_figures = not self._in_figures
        label = "Picture" if self._in_figures else "Figures"
        self._choices = [
            replace(one, label=label) if one.outcome is PageTurn.FIGURES else one
            for one in self._choices
        ]

    def picture(self, canvas: Canvas) -> None:
        """Draw the question, its answer, and below it the chart or all figures."""
        top = draw_answer(canvas, self._page.question, self._words) + GAP
        width = float(theme.WIDTH - 2 * theme.MARGIN)
        if not self._in_figures:
            area = Area(theme.MARGIN, top, width, self.choices_top - GAP - top)
            self._page.paint(canvas, area, self._progress)
            return
        figures = self._words.figures or ("Nothing more yet.",)
        fits = len(figures) * (theme.BODY + APART) <= self.choices_top - GAP - top
        size = theme.BODY if fits else theme.SMALL
        for sentence in figures:
            top = canvas.text(sentence, (theme.MARGIN, top), size, width=width) + APART


def draw_answer(canvas: Canvas, question: str, words: PageWords) -> float:
    """Write a question, its answer in bold and a quiet line; returns the top of what is below."""
    left, width = float(theme.MARGIN), float(theme.WIDTH - 2 * theme.MARGIN)
    canvas.text(question, (left, QUESTION_TOP), QUESTION, theme.QUIET)
    bottom = LEAD_TOP
    if words.lead:
        size = fitting_size(canvas, words.lead, theme.LARGE, wide=width)
        below = canvas.text(words.lead, (left, LEAD_TOP), size, width=width, weight=Weight.BOLD)
        bottom = max(below + 8, LINE_TOP)
    if words.line:
        size = fitting_size(canvas, words.line, theme.BODY, Weight.REGULAR, width)
        bottom = canvas.text(words.line, (left, bottom), size, theme.QUIET, width=width)
    return bottom


def next_kind(progress: Progress) -> Progress:
    """The same progress with the next kind of drill chosen; after the last comes the first."""
    return replace(progress, chosen=(progress.chosen + 1) % len(progress.kinds))
