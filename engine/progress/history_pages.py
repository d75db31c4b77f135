"""Pages of the history, by name, each with its question, words and chart: for window and report."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from engine.drill.cost_words import QUESTION as BY_ITSELF
from engine.five.coach_words import COMES, QUESTION
from engine.kit.area import Area
from engine.kit.charts import Paper, nothing_yet
from engine.kit.hill import hill, hill_height
from engine.practice.course import LEFT_OUT
from engine.progress.charts_curve import learning_chart
from engine.progress.charts_days import dip_chart, distance_chart, steadiness_over_days
from engine.progress.charts_levels import levels_chart, levels_height, levels_words
from engine.progress.charts_two_weeks import two_weeks_chart
from engine.progress.coach_page import coach_chart, coach_words
from engine.progress.counting_page import COMES as COST_COMES
from engine.progress.counting_page import counting_chart, counting_words, has_cost
from engine.progress.days_words import days_words
from engine.progress.kind_words import kinds_words, learning_words
from engine.progress.page_words import PageWords
from engine.progress.progress import Progress
from engine.progress.road_page import has_drives, road_chart, road_words
from engine.progress.sense_page import sense_chart, sense_words
from engine.progress.steadiness_words import steadiness_words
from engine.progress.words import dip_words, distance_words, weeks_words

AFTER_WARM_UP = f"after the first {LEFT_OUT} repetitions of a day"
"""Words for when a day's first repetition used for trends comes."""
USUAL_HEIGHT = 600
"""Height of the chart of a page in a report, in canvas units, if the page sets no other."""


@dataclass(frozen=True)
class Page:
    """One page of the history: a question, its answer and a chart, made from the same progress."""

    name: str
    """Name of the page in the events file."""
    question: str
    """Question that the page answers: its heading on the screen and in the report."""
    words: Callable[[Progress], PageWords]
    """Function that makes the page's sentences."""
    chart: Callable[[Paper, Area, Progress], None]
    """Function that draws the page's chart into an area, if there is something to draw."""
    has_chart: Callable[[Progress], bool] = lambda _: True
    """Function that tells whether the page's chart has something to draw yet."""
    comes: str = ""
    """When the page's chart will come, in words such as "comes with the first blip"."""
    height: Callable[[Progress], float] = lambda _: USUAL_HEIGHT
    """Function that gives the height of the page's chart in a report, in canvas units."""
    is_per_kind: bool = False
    """Whether the page's chart shows one kind of drill, the chosen one."""
    of_all_kinds: Callable[[Progress], Sequence[str]] = lambda _: ()
    """Function that makes the sentences of a report, which shows all kinds; none: the usual."""

    def missing(self, progress: Progress) -> str:
        """When the page's chart will come, in words; empty if it can be drawn already."""
        if self.has_chart(progress):
            return ""
        if progress.remeasuring is not None:
            return progress.remeasuring.comes
        return self.comes

    def printed(self, progress: Progress) -> Sequence[str]:
        """All sentences of the page in a report, the most telling first."""
        return self.of_all_kinds(progress) or self.words(progress).sentences

    def paint(self, paper: Paper, area: Area, progress: Progress) -> None:
        """Draw the page's chart into an area, or else the words for when it will come."""
        missing = self.missing(progress)
        if missing and self.is_per_kind and progress.kinds:
            heading = f"{progress.kinds[progress.chosen].name}: nothing yet"
            nothing_yet(paper, area, missing, heading)
        elif missing:
            nothing_yet(paper, area, missing)
        else:
            self.chart(paper, area, progress)


def _has_curve(progress: Progress) -> bool:
    return bool(progress.kinds) and bool(progress.kinds[progress.chosen].bins)


PAGES: Mapping[str, Page] = {
    page.name: page
    for page in (
        Page(
            name="steadiness",
            question="Am I getting better?",
            words=steadiness_words,
            chart=steadiness_over_days,
            has_chart=lambda progress: progress.remeasuring is None,
        ),
        Page(
            name="coach",
            question=QUESTION,
            words=coach_words,
            chart=coach_chart,
            has_chart=lambda progress: progress.coach is not None,
            comes=COMES,
        ),
        Page(
            name="blips",
            question="How do my blips look?",
            words=weeks_words,
            chart=two_weeks_chart,
            has_chart=lambda progress: bool(progress.weeks),
            comes="comes with the first single blips",
        ),
        Page(
            name="dip",
            question="How deep is the dip?",
            words=dip_words,
            chart=dip_chart,
            has_chart=lambda progress: bool(progress.dips.bins),
            comes=f"comes with a single blip {AFTER_WARM_UP}",
        ),
        Page(
            name="sense",
            question="Do I press what I mean?",
            words=sense_words,
            chart=sense_chart,
            has_chart=lambda progress: bool(progress.squeezes),
            comes="comes with the first squeeze",
        ),
        Page(
            name="learning",
            question="What is left to learn?",
            words=learning_words,
            chart=learning_chart,
            has_chart=_has_curve,
            comes="comes when a level was played on five days",
            is_per_kind=True,
            of_all_kinds=kinds_words,
        ),
        Page(
            name="levels",
            question="Which levels are retained?",
            words=levels_words,
            chart=levels_chart,
            height=levels_height,
        ),
        Page(
            name="days practised",
            question="When did I practise?",
            words=days_words,
            chart=hill,
            has_chart=lambda progress: bool(progress.days),
            comes="comes with the first day of practice",
            height=hill_height,
        ),
        Page(
            name="stopping distance",
            question="What does a blip cost?",
            words=distance_words,
            chart=distance_chart,
            has_chart=lambda progress: bool(progress.distances.bins),
            comes=f"comes with a single blip {AFTER_WARM_UP}",
        ),
        Page(
            name="counting",
            question=BY_ITSELF,
            words=counting_words,
            chart=counting_chart,
            has_chart=has_cost,
            comes=COST_COMES,
        ),
        Page(
            name="drill and road",
            question="Does it transfer to driving?",
            words=road_words,
            chart=road_chart,
            has_chart=has_drives,
            comes="comes with the first recorded drive that has blips",
        ),
    )
}
"""Every page of the history by its name, in the order of the window and of the report."""
