"""Words of the page on learning: what is known of each kind of drill."""

from __future__ import annotations

from drills.capitals import uncapitalised
from drills.measures.catalogue import Measure
from engine.progress.ahead import Interval
from engine.progress.changes_words import changes_explained, newest_change
from engine.progress.page_words import PageWords
from engine.progress.progress import KindProgress, Progress

AT_TODAYS_LEVEL = "Each day is shown as it would be at today's level."
"""Sentence that explains the values of the learning curves."""


def learning_words(progress: Progress) -> PageWords:
    """Trend of the chosen kind of drill, its present value, and what a change brought."""
    if not progress.kinds:
        return PageWords()
    kind = progress.kinds[progress.chosen]
    line = " ".join(filter(None, (value_words(kind), kind.words.beside)))
    figures = (*kind.words.more, *_at_todays_level(kind), *newest_change(progress))
    return PageWords(trend_words(kind), line, figures)


def kinds_words(progress: Progress) -> list[str]:
    """Sentences about every kind of drill, and about every change of foot or rig."""
    return [
        *(kind_words(kind) for kind in progress.kinds),
        *([AT_TODAYS_LEVEL] if any(kind.bins for kind in progress.kinds) else []),
        *changes_explained(progress),
    ]


def trend_words(kind: KindProgress) -> str:
    """Sentence with the name of a kind of drill and how it goes."""
    trend = kind.words.trend
    return f"{kind.name}: {uncapitalised(trend)}"


def value_words(kind: KindProgress) -> str:
    """Sentence with the present value of a kind of drill; empty if it is not known yet."""
    measure, now = kind.measure, kind.learning.now
    if now is None:
        return ""
    low, value, high = _written(now, measure)
    return f"{measure.label} {measure.with_unit(value)} {kind.when}, likely {low} to {high}."


def kind_words(kind: KindProgress) -> str:
    """All sentences about a kind of drill in one paragraph."""
    parts = (trend_words(kind), value_words(kind), kind.words.beside, *kind.words.more)
    return " ".join(filter(None, parts))


def _at_todays_level(kind: KindProgress) -> list[str]:
    return [AT_TODAYS_LEVEL] if kind.bins else []


def _written(interval: Interval, measure: Measure) -> list[str]:
    """Low end, value and high end as text, with one more decimal if the ends would look alike."""
    form = measure.form
    if f"{interval[0]:{form}}" == f"{interval[2]:{form}}":
        form = f".{int(form[-2]) + 1}f"
    return [f"{value:{form}}" for value in interval]
