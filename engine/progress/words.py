"""Words of the pages on blips: how they look, how deep they dip, what they cost in metres.

Every sentence is made from the values that its chart is drawn from, so that none contradicts it.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from drills.measures.catalogue import CATALOGUE, Measure
from drills.measures.distance import Stop
from drills.number_words import counted
from engine.date_words import dated_words, range_words
from engine.kit.charts_blips import beyond_words, blips_reach
from engine.practice.course import LEFT_OUT
from engine.progress.bins import BinLength, CalendarBin
from engine.progress.page_words import PageWords
from engine.progress.progress import BinnedMeasure, Progress
from engine.progress.scale_words import scale_words
from engine.progress.typical_blip import median_in, scaled_words, size_words
from engine.progress.weeks import MOST_DRAWN, Week

DIP, DISTANCE = CATALOGUE["dip"], CATALOGUE["extra_distance"]
STOP = Stop()
"""Stop (speeds and deceleration) for which the extra stopping distance is estimated."""
KMH = 3.6
"""Factor from metres per second to kilometres per hour."""
NO_TREND = "All levels together: no trend."
"""Sentence that warns of taking the medians of all levels together for progress."""


def weeks_words(progress: Progress) -> PageWords:
    """Typical dip of the first and the newest week of blips, and which blips are drawn."""
    weeks = progress.weeks
    if not weeks:
        return PageWords()
    first, newest = weeks[0], weeks[-1]
    blips = [blip for week in weeks for blip in week.blips]
    beyond = beyond_words(blips, blips_reach(blips))
    scale = scale_words(progress)
    sizes = [week.peak for week in weeks]
    figures = [
        *scale,
        size_words(sizes),
        *scaled_words(sizes, [week.scaled_dip for week in weeks]),
        *(_drawn(week, progress.today) for week in weeks),
        f"At most {MOST_DRAWN} blips a week are drawn.",
        "The first blips of a day are among them.",
        "Blips that ended within 1 s are not drawn.",
        *([beyond] if beyond else []),
    ]
    if len(weeks) == 1:
        lead = f"Typical dip of your first week: {_typical(first.dip, DIP)}."
        return PageWords(lead, "The newest week will stand beside the first.", tuple(figures))
    name = "this week" if newest.last == progress.today else _week_of(newest, progress.today)
    lead = f"Typical dip: {first.dip:.1f} points in the first week, {newest.dip:.1f} {name}."
    return PageWords(lead, NO_TREND, tuple(figures))


def _week_of(week: Week, today: date) -> str:
    return f"in the week to {dated_words(week.last, today)}"


def _drawn(week: Week, today: date) -> str:
    """How many blips of a week there are, and how many of them are drawn."""
    of = counted(week.traced, "blip")
    dates = range_words(week.first, week.last, today)
    if len(week.blips) == week.traced:
        return f"{of}: {dates}."
    return f"{of}, {len(week.blips)} drawn: {dates}."


def dip_words(progress: Progress) -> PageWords:
    """Typical dip of the newest and of the first days of blips, and what else there is to know."""
    dips = progress.dips
    if not dips.bins:
        return PageWords()
    newest = _ends(dips)[0]
    lead = (
        f"Typical dip: {_typical(newest.middle, DIP)} {_when(newest, dips.length, progress.today)}."
    )
    return PageWords(lead, _first_words(progress, dips, "points"), _figures(progress, dips))


def distance_words(progress: Progress) -> PageWords:
    """Typical cost of a blip in metres, newest and first, and what the estimate assumes."""
    distances = progress.distances
    estimate = (
        f"An estimate from {STOP.v0 * KMH:.0f} to {STOP.v1 * KMH:.0f} km/h"
        f" at {STOP.deceleration:.1f} m/s².",
        f"That is {STOP.v0:.0f} to {STOP.v1:.0f} m/s, flat road, no lock-up.",
    )
    if not distances.bins:
        return PageWords(figures=estimate)
    newest = _ends(distances)[0]
    cost = _typical(newest.middle, DISTANCE)
    lead = f"{cost} more braking {_when(newest, distances.length, progress.today)}."
    line = f"An estimate. {_first_words(progress, distances, 'm')}".strip()
    return PageWords(lead, line, (*estimate, *_figures(progress, distances)))


def _first_words(progress: Progress, binned: BinnedMeasure, unit: str) -> str:
    """Sentence on the first days, if there are others than the newest, with its caveat."""
    said = [
        f"{one.middle:.1f} {unit} {_when(one, binned.length, progress.today)}."
        for one in _ends(binned)[1:]
    ]
    return " ".join([*said, *([NO_TREND] if len(binned.bins) > 1 else [])])


def _figures(progress: Progress, binned: BinnedMeasure) -> tuple[str, ...]:
    """Sentences on how many blips there were, how large, and which are left out."""
    ends = _ends(binned)
    peaks = [median_in(progress.peaks.bins, one) for one in ends]
    scaled = [median_in(progress.scaled_dips.bins, one) for one in ends]
    sizes = _known(peaks)
    is_dip = binned is progress.dips and len(sizes) == len(ends)
    return (
        *(scale_words(progress) if binned.begins else []),
        *(
            f"{counted(one.count, 'blip')} {_when(one, binned.length, progress.today)}."
            for one in ends
        ),
        *([size_words(sizes[::-1])] if len(sizes) == len(ends) else []),
        *(scaled_words(sizes[::-1], _known(scaled)[::-1]) if is_dip else []),
        left_out_words(binned),
    )


def left_out_words(measure: BinnedMeasure) -> str:
    """Sentence that says how many blips are left out as the warm-up of their day."""
    left_out = counted(measure.left_out, "blip")
    return f"Left out as a day's warm-up: the first {LEFT_OUT} repetitions, {left_out}."


def _typical(value: float, measure: Measure) -> str:
    """A median of many repetitions, with one decimal: it is surer than a single one."""
    return measure.with_unit(f"{value:.1f}")


def _ends(binned: BinnedMeasure) -> list[CalendarBin]:
    """The newest bin, and the first one that is on the same scale, if that is another."""
    first, newest = binned.comparable[0], binned.comparable[-1]
    return [newest] if first is newest else [newest, first]


def _known(values: Sequence[float | None]) -> list[float]:
    return [value for value in values if value is not None]


def _when(bin_: CalendarBin, length: BinLength, today: date) -> str:
    if length is BinLength.MONTH:
        year = "" if bin_.first.year == today.year else f" {bin_.first.year}"
        return f"in {bin_.first:%B}{year}"
    day = dated_words(bin_.first, today)
    return f"on {day}" if length is BinLength.DAY else f"in the week of {day}"
