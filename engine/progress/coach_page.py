"""Page of the history on the fault that stands out: the coach's page."""

from __future__ import annotations

from engine.five.coach_picture import draw_coach
from engine.five.coach_words import levels_words
from engine.kit.area import Area
from engine.kit.charts import Paper
from engine.progress.page_words import PageWords
from engine.progress.progress import Progress


def coach_words(progress: Progress) -> PageWords:
    """What stands out among the newest blips, the cue, and the levels that answer it."""
    view = progress.coach
    if view is None:
        return PageWords()
    levels = next(levels_words(view.titles), "")
    return PageWords(view.lead, view.line, (*view.more, *([levels] if levels else [])))


def coach_chart(paper: Paper, area: Area, progress: Progress) -> None:
    """Draw the typical blip with the fault, what is wrong with it marked."""
    if progress.coach is not None:
        draw_coach(paper, area, progress.coach)
