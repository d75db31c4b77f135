"""Sentences on the pages of the history, the same in the window, in print and in a terminal.

Every sentence is made from the values that its chart is drawn from, so that none contradicts it.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from drills.measures.catalogue import CATALOGUE, Measure
from drills.measures.distance import Stop
from engine.kit.charts_blips import beyond_words, blips_reach
from engine.kit.charts_dates import full_words, range_words
from engine.practice.course import LEFT_OUT
from engine.progress.ahead import Interval
from engine.progress.bins import BinLength, CalendarBin
from engine.progress.charts_levels import retention_words
from engine.progress.learning_curve import Trend
from engine.progress.progress import BinnedMeasure, KindProgress, Progress
from engine.progress.scale_words import scale_words
from engine.progress.typical_blip import at_blips, median_in, scaled_words
from engine.progress.weeks import MOST_DRAWN, Week

DIP, DISTANCE = CATALOGUE["dip"], CATALOGUE["extra_distance"]
STOP = Stop()
"""Stop (speeds and deceleration) for which the extra stopping distance is estimated."""
KMH = 3.6
"""Factor from metres per second to kilometres per hour."""
YEAR = timedelta(days=365)
"""Length of the year back from today that sentences call "the last year"."""
TREND_WORDS = {
    Trend.TOO_EARLY: "too early for a trend",
    Trend.LEARNING: "getting better",
    Trend.NONE: "no trend",
    Trend.FLAT: "no change",
    Trend.WORSE: "worse of late",
}
"""Words for the trend of a kind of drill, by trend."""
WORSE_EXCUSED = "worse, excused for now"
"""Words for a trend to worse that a change excuses."""
UNLIKE = "Levels differ by day: the learning curve compares like with like."
"""Sentence that says why the medians of all levels together show no progress."""
AT_TODAYS_LEVEL = "Each day is shown as it would be at today's level."
"""Sentence that explains the values of the learning curves."""
LEVELS_KEPT = (
    "Kept: shown again, cold, on a later day. Kept well: still there after a week and more."
)
"""Sentences that explain the words for retained and well retained levels."""


def weeks_words(progress: Progress) -> list[str]:
    """Sentences: median dip of the first and the current week, and how many blips are drawn."""
    if not progress.weeks:
        return []
    first, *later = progress.weeks
    dips = f"Median dip of the blips drawn: {_week_dip(first)}, in the first week"
    for week in later:
        dips += f"; {_week_dip(week)}, in {_week_name(week, progress.today)}"
    weeks = progress.weeks
    scaled = scaled_words([week.peak for week in weeks], [week.scaled_dip for week in weeks])
    drawn = " and ".join(f"{len(week.blips)} of {week.traced}" for week in progress.weeks)
    chosen = f"at most {MOST_DRAWN} a week, the first of each day too, none that ended within 1 s"
    blips = [blip for week in progress.weeks for blip in week.blips]
    beyond = beyond_words(blips, blips_reach(blips))
    return [
        " ".join([f"{dips}.", *scaled]),
        *scale_words(progress),
        *([UNLIKE] if later else []),
        f"Drawn are {drawn} blips: {chosen}.",
        *([beyond] if beyond else []),
    ]


def _week_dip(week: Week) -> str:
    return f"{_typical(week.dip, DIP)}{at_blips(week.peak)}"


def _week_name(week: Week, today: date) -> str:
    return "this one" if week.last == today else f"the newest, {range_words(week.first, week.last)}"


def dip_words(progress: Progress) -> list[str]:
    """Sentences: newest and first median dip and blip, and how many are left out as warm-up."""
    dips = progress.dips
    if not dips.bins:
        return []
    ends = _ends(dips)
    peaks = [median_in(progress.peaks.bins, one) for one in ends]
    scaled = [median_in(progress.scaled_dips.bins, one) for one in ends]
    known = scaled_words(_known(peaks), _known(scaled)) if None not in peaks else []
    said = f"Median dip of a single blip: {_newest_and_first(progress, dips, DIP)}."
    since = scale_words(progress) if dips.begins else []
    return [" ".join([said, *known]), *since, *_unlike(dips), left_out_words(dips)]


def distance_words(progress: Progress) -> list[str]:
    """Sentences: what the stopping distance assumes, its newest and its first median."""
    v0, v1 = STOP.v0, STOP.v1
    estimate = (
        f"An estimate: from {v0 * KMH:.0f} to {v1 * KMH:.0f} km/h ({v0:.0f} to {v1:.0f} m/s)"
        f" at {STOP.deceleration:.1f} m/s², flat road, no lock-up."
    )
    distances = progress.distances
    if not distances.bins:
        return [estimate]
    cost = f"What a single blip costs: {_newest_and_first(progress, distances, DISTANCE)}."
    since = scale_words(progress) if distances.begins else []
    return [estimate, cost, *since, *_unlike(distances), left_out_words(distances)]


def left_out_words(measure: BinnedMeasure) -> str:
    """Sentence that says how many blips are left out as the warm-up of their day."""
    return (
        f"The first {LEFT_OUT} repetitions of a day are left out as its warm-up"
        f" ({_counted(measure.left_out, 'blip')})."
    )


def _newest_and_first(progress: Progress, binned: BinnedMeasure, measure: Measure) -> str:
    """Median of the newest and of the first bin of one scale, each beside its typical blip."""
    return "; ".join(
        f"{_typical(one.middle, measure)}{at_blips(median_in(progress.peaks.bins, one))},"
        f" {_when(one, binned.length)}"
        for one in _ends(binned)
    )


def _typical(value: float, measure: Measure) -> str:
    """A median of many repetitions, with one decimal: it is surer than a single one."""
    return measure.with_unit(f"{value:.1f}")


def _ends(binned: BinnedMeasure) -> list[CalendarBin]:
    """The newest bin, and the first one that is on the same scale, if that is another."""
    first, newest = binned.comparable[0], binned.comparable[-1]
    return [newest] if first is newest else [newest, first]


def _unlike(binned: BinnedMeasure) -> list[str]:
    """Sentence that warns of taking the course of all levels together for progress."""
    return [UNLIKE] if len(binned.bins) > 1 else []


def _known(values: Sequence[float | None]) -> list[float]:
    return [value for value in values if value is not None]


def _when(bin_: CalendarBin, length: BinLength) -> str:
    if length is BinLength.DAY:
        return f"on {full_words(bin_.first)}"
    if length is BinLength.WEEK:
        return f"in the week of {full_words(bin_.first)}"
    return f"in {bin_.first:%B %Y}"


def kinds_words(progress: Progress) -> list[str]:
    """Sentences about every kind of drill: present value, and how it is learned."""
    return [*(kind_words(kind) for kind in progress.kinds), *_at_todays_level(progress)]


def kinds_briefly(progress: Progress) -> list[str]:
    """Sentences about the chosen kind of drill, and one with a few words about each other."""
    others = [kind for number, kind in enumerate(progress.kinds) if number != progress.chosen]
    chosen = [kind_words(kind) for kind in progress.kinds if kind not in others]
    return [*chosen, *([f"{'; '.join(map(kind_briefly, others))}."] if others else [])]


def _at_todays_level(progress: Progress) -> list[str]:
    return [AT_TODAYS_LEVEL] if any(kind.learning.now for kind in progress.kinds) else []


def kind_words(kind: KindProgress) -> str:
    """Sentences about a kind of drill: present value with interval, and how it is learned."""
    value = _present_value(kind)
    return f"{kind.name}: {value}. {kind.words}" if value else f"{kind.name}: {kind.words}"


def kind_briefly(kind: KindProgress) -> str:
    """Few words about a kind of drill: present value with its interval, and its trend."""
    trend = TREND_WORDS[kind.learning.trend]
    if kind.is_excused and kind.learning.trend is Trend.WORSE:
        trend = WORSE_EXCUSED
    parts = filter(None, (_present_value(kind), trend))
    return f"{kind.name}: {', '.join(parts)}"


def _present_value(kind: KindProgress) -> str:
    """Present value of a kind of drill with its interval, in words; empty if unknown yet."""
    measure, now = kind.measure, kind.learning.now
    if now is None:
        return ""
    low, value, high = _written(now, measure)
    return f"{measure.label.lower()} {measure.with_unit(value)} {kind.when} ({low} to {high})"


def _written(interval: Interval, measure: Measure) -> list[str]:
    """Low end, value and high end as text, with one more decimal if the ends would look alike."""
    form = measure.form
    if f"{interval[0]:{form}}" == f"{interval[2]:{form}}":
        form = f".{int(form[-2]) + 1}f"
    return [f"{value:{form}}" for value in interval]


def levels_words(progress: Progress) -> list[str]:
    """Sentences: how many levels are passed and retained, and what retained means."""
    return [f"{retention_words(progress.stages)}.", LEVELS_KEPT]


def days_words(progress: Progress) -> list[str]:
    """Sentence with the number of days practised, in all and in the last year."""
    days = progress.days
    if not days:
        return []
    total = sum(count for _, count in days)
    last_year = sum(1 for day, _ in days if day > progress.today - YEAR)
    words = f"{_counted(len(days), 'day')} practised since {full_words(days[0][0])}"
    words += f", {_counted(total, 'repetition')}"
    if last_year < len(days):
        words += f"; {_counted(last_year, 'day')} in the last year"
    return [f"{words}."]


def _counted(count: int, name: str) -> str:
    return f"{count} {name}{'' if count == 1 else 's'}"
