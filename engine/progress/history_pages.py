"""The pictures of progress in their order, each with its words: what the history screen walks
through, and what a report prints."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from engine.kit.charts import Area, Paper, nothing_yet
from engine.kit.steadiness_chart import FIRST_AFTER
from engine.practice.course import LEFT_OUT
from engine.progress import words as words
from engine.progress.charts_calendar import YEAR_ALONE, calendar, has_years
from engine.progress.charts_curve import learning
from engine.progress.charts_days import bands, spread
from engine.progress.charts_levels import kept_height, levels_chart
from engine.progress.charts_quiet import quiet
from engine.progress.progress import BinnedMeasure, Progress

WARM = f"after the first {LEFT_OUT} repetitions of a day"
"""When a trend begins."""


USUAL_HEIGHT = 600
"""units, what a chart wants where it may be as high as it likes."""


@dataclass(frozen=True)
class HistoryContent:
    """One picture with its words."""

    name: str
    """A word or two, for the choice that leads to it."""
    title: str
    """Its heading."""
    says: tuple[str, ...]
    """Its sentences, the most telling first."""
    later: str
    """What its picture comes with, where there is nothing to draw yet; else empty."""
    draws: Callable[[Paper, Area], None]
    """Draws it into an area, where there is something."""
    height: float = USUAL_HEIGHT
    """units, what it wants where it may be as high as it likes."""
    kinds: int = 0
    """count of kinds that it could be of; 0 where it is of none."""
    brief: tuple[str, ...] = ()
    """Its sentences where there is little room for them; none where they are the same."""

    def paint(self, paper: Paper, area: Area) -> None:
        """Draw it into an area, or what it comes with."""
        if self.later:
            nothing_yet(paper, area, self.later)
        else:
            self.draws(paper, area)


def pages(progress: Progress, chosen: int = 0) -> tuple[HistoryContent, ...]:
    """All of them; of the learning curves the chosen one, counted from 0."""
    return (
        _quiet(progress),
        _steadiness(progress),
        _dips(progress),
        learning_page(progress, chosen),
        _levels(progress),
        _days(progress),
        _distance(progress),
    )


def learning_page(progress: Progress, chosen: int) -> HistoryContent:
    """The learning curve of one kind, counted from 0, over the words of all."""
    learned = progress.learned
    has_any = bool(learned) and bool(learned[chosen].handfuls)

    def draw(paper: Paper, area: Area) -> None:
        learning(paper, area, learned[chosen])

    return HistoryContent(
        "learning",
        "Learning curves",
        tuple(map(words.learned_words, learned)),
        "" if has_any else f"comes {WARM}",
        draw,
        kinds=len(learned),
        brief=tuple(
            words.learned_words(one) if number == chosen else words.learned_briefly(one)
            for number, one in enumerate(learned)
        ),
    )


def _quiet(progress: Progress) -> HistoryContent:
    def draw(paper: Paper, area: Area) -> None:
        quiet(paper, area, progress.weeks, progress.today)

    says = tuple(words.weeks_words(progress))
    later = "" if progress.weeks else "comes with the first single blips"
    return HistoryContent("the foot getting quiet", "The foot getting quiet", says, later, draw)


def _steadiness(progress: Progress) -> HistoryContent:
    band = progress.band

    def draw(paper: Paper, area: Area) -> None:
        if band is not None:
            bands(paper, area, progress.bands, band, progress.changes, progress.today)

    says = tuple(words.band_words(progress))
    later = (
        ""
        if band
        else f"comes after some {FIRST_AFTER} steadiness blips, six or so in five minutes"
    )
    return HistoryContent("steadiness", "Steadiness over the days", says, later, draw)


def _dips(progress: Progress) -> HistoryContent:
    says = tuple(words.dip_words(progress))
    return _over_days(progress, progress.dips, "points", "dip", "How far the brake falls", says)


def _distance(progress: Progress) -> HistoryContent:
    says = tuple(words.distance_words(progress))
    title = "Extra stopping distance"
    return _over_days(progress, progress.distances, "m", "stopping distance", title, says)


def _over_days(
    progress: Progress,
    shown: BinnedMeasure,
    unit: str,
    name: str,
    title: str,
    says: tuple[str, ...],
) -> HistoryContent:
    def draw(paper: Paper, area: Area) -> None:
        spread(paper, area, shown, unit, progress.changes, progress.today)

    later = "" if shown.bins else f"comes with a single blip {WARM}"
    return HistoryContent(name, title, says, later, draw)


def _levels(progress: Progress) -> HistoryContent:
    def draw(paper: Paper, area: Area) -> None:
        levels_chart(paper, area, progress.stages)

    says = tuple(words.levels_words(progress))
    height = kept_height(progress.stages)
    return HistoryContent("levels", "Levels kept", says, "", draw, height)


def _days(progress: Progress) -> HistoryContent:
    def draw(paper: Paper, area: Area) -> None:
        calendar(paper, area, progress.days, progress.today)

    says = tuple(words.days_words(progress))
    later = "" if progress.days else "comes with the first day of practice"
    height = USUAL_HEIGHT if has_years(progress.days, progress.today) else YEAR_ALONE
    return HistoryContent("days practised", "Days practised", says, later, draw, height)
