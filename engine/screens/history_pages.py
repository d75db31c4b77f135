"""The pictures of progress in their order, each with its words: what the history screen walks
through, and what a report prints."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from engine.practice.spans import LEFT_OUT
from engine.screens import history_words as words
from engine.screens.charts import Area, Paper, nothing_yet
from engine.screens.charts_calendar import calendar
from engine.screens.charts_curve import learning
from engine.screens.charts_days import bands, spread
from engine.screens.charts_kept import kept
from engine.screens.charts_quiet import quiet
from engine.screens.history_shown import Progress, Spread

SOME = 54
"""count of steadiness blips after which the band is there for most feet."""


@dataclass(frozen=True)
class Page:
    """One picture with its words."""

    name: str
    """A word or two, for the choice that leads to it."""
    title: str
    """Its heading."""
    says: tuple[str, ...]
    """Its sentences, the most telling first."""
    paint: Callable[[Paper, Area], None]
    """Draws it into an area."""
    kinds: int = 0
    """count of kinds that it could be of; 0 where it is of none."""


def pages(progress: Progress, chosen: int = 0) -> tuple[Page, ...]:
    """All of them; of the learning curves the chosen one, counted from 0."""
    return (
        _quiet(progress),
        _steadiness(progress),
        _dips(progress),
        _learning(progress, chosen),
        _levels(progress),
        _days(progress),
        _distance(progress),
    )


def _quiet(progress: Progress) -> Page:
    def paint(paper: Paper, area: Area) -> None:
        if progress.weeks:
            quiet(paper, area, progress.weeks, progress.today)
        else:
            nothing_yet(paper, area, "comes with the first single blips")

    says = tuple(words.weeks_words(progress))
    return Page("the foot getting quiet", "The foot getting quiet", says, paint)


def _steadiness(progress: Progress) -> Page:
    band = progress.band

    def paint(paper: Paper, area: Area) -> None:
        if band is None or not progress.bands:
            nothing_yet(paper, area, f"comes after some {SOME} steadiness blips of five minutes")
        else:
            bands(paper, area, progress.bands, band, progress.changes, progress.today)

    says = tuple(words.band_words(progress))
    return Page("steadiness", "Steadiness over the days", says, paint)


def _dips(progress: Progress) -> Page:
    says = tuple(words.dip_words(progress))
    paint = _spread(progress, progress.dips, "points")
    return Page("dip", "How far the brake falls", says, paint)


def _distance(progress: Progress) -> Page:
    says = tuple(words.distance_words(progress))
    paint = _spread(progress, progress.distances, "m")
    return Page("stopping distance", "Extra stopping distance", says, paint)


def _spread(progress: Progress, shown: Spread, unit: str) -> Callable[[Paper, Area], None]:
    def paint(paper: Paper, area: Area) -> None:
        if shown.bins:
            spread(paper, area, shown, unit, progress.changes, progress.today)
        else:
            after = f"comes with a single blip after the first {LEFT_OUT} repetitions of a day"
            nothing_yet(paper, area, after)

    return paint


def _learning(progress: Progress, chosen: int) -> Page:
    def paint(paper: Paper, area: Area) -> None:
        if progress.learned and progress.learned[chosen].steps:
            learning(paper, area, progress.learned[chosen])
        else:
            nothing_yet(paper, area, f"comes after the first {LEFT_OUT} repetitions of a day")

    says = (*map(words.learned_words, progress.learned), *words.changes_words(progress))
    return Page("learning", "Learning curves", says, paint, len(progress.learned))


def _levels(progress: Progress) -> Page:
    def paint(paper: Paper, area: Area) -> None:
        kept(paper, area, progress.flights)

    return Page("levels", "Levels kept", tuple(words.levels_words(progress)), paint)


def _days(progress: Progress) -> Page:
    def paint(paper: Paper, area: Area) -> None:
        if progress.days:
            calendar(paper, area, progress.days, progress.today)
        else:
            nothing_yet(paper, area, "comes with the first day of practice")

    return Page("days practised", "Days practised", tuple(words.days_words(progress)), paint)
