"""Page of the history on what counting costs: whether a blip goes by itself."""

from __future__ import annotations

from engine.drill import cost_chart
from engine.drill.cost_words import beside_words, figures_words, lead_words
from engine.kit.area import Area
from engine.kit.charts import Paper
from engine.practice.counting_cost import LEAST
from engine.progress.page_words import PageWords
from engine.progress.progress import Progress
from engine.progress.scale_words import scale_words

COMES = f"comes with {LEAST} pairs of blips, with and without counting"
"""When the chart of the page comes."""


def counting_words(progress: Progress) -> PageWords:
    """What counting costs now, beside it what it cost before, and how well was counted."""
    cost, today = progress.counting, progress.today
    lead = lead_words(cost)
    if not lead:
        return PageWords()
    figures = (*scale_words(progress), *figures_words(cost, today))
    return PageWords(lead, beside_words(cost, today), figures)


def counting_chart(paper: Paper, area: Area, progress: Progress) -> None:
    """Draw the cost of counting by months; there is a present one."""
    cost_chart.cost_chart(paper, area, progress.counting, progress.today)


def has_cost(progress: Progress) -> bool:
    """Whether there are enough pairs to tell what counting costs."""
    return progress.counting.now is not None
