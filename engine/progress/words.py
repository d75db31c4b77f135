"""What each picture of progress says in words: the same in the window, in print and in a terminal.

Every sentence is of the values that its picture is drawn from, so that none contradicts it.
"""

from __future__ import annotations

from datetime import date, timedelta

from drills.measures.catalogue import CATALOGUE, Measure
from drills.measures.distance import Stop
from engine.kit.charts_blips import beyond_words, blips_reach
from engine.kit.charts_dates import full_words, range_words
from engine.practice.course import LEFT_OUT
from engine.progress.bins import CalendarBin, Unit
from engine.progress.charts_levels import kept_words
from engine.progress.learning_curve import Trend
from engine.progress.progress import BinnedMeasure, KindProgress, Progress, Week

DIP, DISTANCE = CATALOGUE["dip"], CATALOGUE["extra_distance"]
STOP = Stop()
"""The braking that the extra distance is reckoned for."""
KMH = 3.6
"""km/h in a m/s."""
DRAWN = 120
"""count of blips of a week that are drawn at most, evenly chosen: more make one grey."""
YEAR = timedelta(days=365)
"""What is called a year back from today."""
GOING = {
    Trend.TOO_EARLY: "cannot be told yet",
    Trend.LEARNING: "getting better",
    Trend.FLAT: "no change",
    Trend.WORSE: "worse of late",
}
"""How a kind goes on, in a few words."""
LEVELS_KEPT = (
    "Kept: shown again, cold, on a later day. Kept well: still there after a week and more."
)
"""What the words on the marks of the levels mean."""


def weeks_words(progress: Progress) -> list[str]:
    """How far the brake fell in the first week, and in this one."""
    if not progress.weeks:
        return []
    first, *later = progress.weeks
    said = f"Median dip of the blips drawn: {DIP.written(first.dip)} in the first week"
    said += "".join(f", {DIP.written(one.dip)} in {_called(one, progress.today)}" for one in later)
    drawn = " and ".join(f"{len(one.blips)} of {one.of}" for one in progress.weeks)
    chosen = f"at most {DRAWN} a week, the first of each day too, none that ended within 1 s"
    blips = [one for week in progress.weeks for one in week.blips]
    beyond = beyond_words(blips, blips_reach(blips))
    return [f"{said}.", f"Drawn are {drawn} blips: {chosen}.", *([beyond] if beyond else [])]


def _called(week: Week, today: date) -> str:
    return "this one" if week.last == today else f"the newest, {range_words(week.first, week.last)}"


def band_words(progress: Progress) -> list[str]:
    """The one number to watch, and what it means."""
    band = progress.band
    if band is None:
        return []
    return [
        f"±{band.value:.1f} points now, likely between {band.low:.1f} and {band.high:.1f}:"
        " three blips in four stay inside."
    ]


def dip_words(progress: Progress) -> list[str]:
    """The first and the newest median dip, and what is left out."""
    shown = progress.dips
    if not shown.bins:
        return []
    return [f"Median dip of a single blip: {_then_and_now(shown, DIP)}.", left_out_words(shown)]


def distance_words(progress: Progress) -> list[str]:
    """What a blip costs, and of what that is an estimate."""
    v0, v1 = STOP.v0, STOP.v1
    estimate = (
        f"An estimate: from {v0 * KMH:.0f} to {v1 * KMH:.0f} km/h ({v0:.0f} to {v1:.0f} m/s)"
        f" at {STOP.deceleration:.1f} m/s², flat road, no lock-up."
    )
    shown = progress.distances
    if not shown.bins:
        return [estimate]
    cost = f"What a single blip costs: {_then_and_now(shown, DISTANCE)}."
    return [estimate, cost, left_out_words(shown)]


def left_out_words(shown: BinnedMeasure) -> str:
    """What enters no trend."""
    return (
        f"The first {LEFT_OUT} repetitions of a day are left out, as the foot is not warm yet"
        f" ({_counted(shown.left_out, 'blip')})."
    )


def _then_and_now(shown: BinnedMeasure, measure: Measure) -> str:
    first, last = shown.bins[0], shown.bins[-1]
    now = f"{measure.written(last.middle)} {_when(last, shown.unit)}"
    if first is last:
        return now
    return f"{measure.written(first.middle)} {_when(first, shown.unit)}, {now}"


def _when(one: CalendarBin, unit: Unit) -> str:
    if unit is Unit.DAY:
        return f"on {full_words(one.first)}"
    if unit is Unit.WEEK:
        return f"in the week of {full_words(one.first)}"
    return f"in {one.first:%B %Y}"


def learned_words(learned: KindProgress) -> str:
    """What one kind is at now with its interval, and all that can be said of how it goes on."""
    at = _now(learned)
    return f"{learned.name}: {at}. {learned.words}" if at else f"{learned.name}: {learned.words}"


def learned_briefly(learned: KindProgress) -> str:
    """The same in a few words."""
    parts = filter(None, (_now(learned), GOING[learned.growth.going]))
    return f"{learned.name}: {', '.join(parts)}"


def _now(learned: KindProgress) -> str:
    """What a kind is at now, with its interval; empty where it is too early."""
    measure, now = learned.measure, learned.growth.now
    if now is None:
        return ""
    low, value, high = _written(now, measure)
    return f"{measure.label.lower()} {measure.with_unit(value)} ({low} to {high})"


def _written(values: tuple[float, float, float], measure: Measure) -> list[str]:
    """The ends of an interval and the value in it, finer where the ends would read alike."""
    form = measure.form
    if f"{values[0]:{form}}" == f"{values[2]:{form}}":
        form = f".{int(form[-2]) + 1}f"
    return [f"{value:{form}}" for value in values]


def levels_words(progress: Progress) -> list[str]:
    """How many levels stand how, and what kept means."""
    return [f"{kept_words(progress.stages)}.", LEVELS_KEPT]


def days_words(progress: Progress) -> list[str]:
    """On how many days there was practice, in all and within a year."""
    days = progress.days
    if not days:
        return []
    total = sum(count for _, count in days)
    of_late = sum(1 for day, _ in days if day > progress.today - YEAR)
    said = f"{_counted(len(days), 'day')} practised since {full_words(days[0][0])}"
    said += f", {_counted(total, 'repetition')}"
    if of_late < len(days):
        said += f"; {_counted(of_late, 'day')} in the last year"
    return [f"{said}."]


def _counted(count: int, name: str) -> str:
    return f"{count} {name}{'' if count == 1 else 's'}"
