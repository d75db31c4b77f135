"""Learning curve of one kind of drill: learning, flat, worse or no trend, and what is ahead.

A kind's repetitions come from ever harder levels. So everything is told of level-days, compared
with the same level on other days: the trend by their slope over the newest weeks, the present
value and the curve `A + B exp(-a N)` (Heathcote, Brown & Mewhort 2000) by day effects at today's
level. Error rates: `tests/bench/learning.py`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum
from math import exp, sqrt

import numpy as np

from engine.practice.course import LEFT_OUT, Course
from engine.practice.day_effects import WINDOW, DayEffects, day_effects, newest, slope
from engine.practice.level_days import LevelDays
from engine.practice.students_t import within
from engine.practice.weighted_slope import OverDays, over_days
from engine.progress.ahead import Ahead, Curve, Interval, ahead, best_curve
from engine.progress.curve_points import cells_of, days_a_bin, effect_bins
from engine.progress.round_numbers import rounded_down

CONFIDENCE = 0.95
"""Coverage of the interval of a present value, from 0 to 1."""
NOW_DAYS = 10
"""Newest days with an effect, as a count, that a present value is the mean of."""
FEWEST_NOW = 5
"""Days with an effect, as a count, from which a present value is told."""
FLAT_WITHIN = 0.25
"""Share: a foot is called flat where a fall or a rise this large in 50 days can be ruled out."""
FLAT_DAYS = 14
"""Shortest time for which a foot is called flat, in days."""
FLAT_UP_TO = 182
"""Longest time for which a foot is called flat, in days: half a year."""
FLAT_STEP = 21
"""Days by which the time over which a foot is flat is looked for is lengthened each time."""
MIX_DAYS = 14
"""Newest days of the calendar whose mix of levels is compared with that of the weeks before."""
MIX_MOVED = 0.3
"""Share of the repetitions that must be of other levels than before for the mix to have moved."""
AHEAD_DAYS = 28
"""Days of practice to come, at the present pace, that a curve is looked ahead for."""
AHEAD_SHARE = 0.5
"""Largest share of the repetitions done that a curve is looked ahead for."""
FEWEST_AHEAD = 20
"""Repetitions, as a count, below which there is no looking ahead."""


class Trend(Enum):
    """Trend of a foot in one kind of drill over the newest weeks."""

    TOO_EARLY = "too early to say"
    """There are too few days to compare."""
    LEARNING = "learning"
    """Levels are played better than they were."""
    NONE = "no trend"
    """Neither a fall nor a rise is found, and neither can be ruled out."""
    FLAT = "flat"
    """Any change that is worth telling can be ruled out."""
    WORSE = "getting worse"
    """Levels are played worse than they were."""


@dataclass(frozen=True)
class LearningCurve:
    """How a foot learns one kind of drill, since the first repetition or the last new beginning."""

    trend: Trend
    """Trend over the newest weeks, each level compared with itself."""
    repetitions: int
    """Number of repetitions since the curve began that are used, without a day's first."""
    days: int
    """Days on which levels were played that can be compared, in the newest weeks."""
    over_days: OverDays | None = None
    """Slope over the newest weeks; None if nothing can be compared."""
    now: Interval | None = None
    """Deviation of the newest days at today's level, in the unit of the measure."""
    curve: Curve | None = None
    """Fitted curve at today's level; None unless the foot is learning and the curve is sure."""
    ahead: Ahead | None = None
    """What the curve comes to; None without a curve."""
    flat_days: int = 0
    """Days back from the newest without a change; 0 unless the trend is flat."""
    mix_moved: bool = False
    """Whether the newest two weeks are of other levels than the weeks before."""
    changed: bool = False
    """Whether the curve begins at a change, not at the first repetition."""


def learning_curve(
    course: Course, least: float, since: int = 0, changed: bool = False
) -> LearningCurve:
    """Learning curve of a kind of drill over the repetitions numbered after `since`.

    The course is of a measure that is never negative, and of which less is better; values under
    `least`, in its unit, are raised to it. `changed` says that the curve begins at a change.
    """
    course = course.only(course.number > since)
    cells = cells_of(course, least)
    effects = day_effects(cells)
    recent = newest(cells)
    found = LearningCurve(
        Trend.TOO_EARLY,
        int(np.sum((course.place > LEFT_OUT) & np.isfinite(course.value))),
        np.unique(recent.day).size,
        over_days(recent),
        _now(effects),
        mix_moved=_has_mix_moved(course),
        changed=changed,
    )
    if found.over_days is None or not found.over_days.is_tested:
        return found
    if found.over_days.falls:
        return _with_curve(replace(found, trend=Trend.LEARNING), course, effects)
    if _does_a_level_fall(recent):
        return replace(found, trend=Trend.NONE)
    if found.over_days.rises:
        return replace(found, trend=Trend.WORSE)
    days = _flat_days(cells)
    return replace(found, trend=Trend.FLAT if days else Trend.NONE, flat_days=days)


def _now(effects: DayEffects) -> Interval | None:
    """Present value: geometric mean of the newest days' effects, with its t interval over days."""
    logs = effects.log[-NOW_DAYS:]
    if logs.size < FEWEST_NOW:
        return None
    mean, error = float(np.mean(logs)), float(np.std(logs, ddof=1)) / sqrt(logs.size)
    reach = within(CONFIDENCE, logs.size - 1) * error
    return exp(mean - reach), exp(mean), exp(mean + reach)


def _has_mix_moved(course: Course) -> bool:
    """Whether the mix of levels moved: half the summed differences of their shares, of repetitions
    in the newest `MIX_DAYS` days and in the rest of `WINDOW` days, reach `MIX_MOVED`."""
    if not len(course):
        return False
    back = course.day.max() - course.day
    levels, of = np.unique(course.level, return_inverse=True)
    new, old = (
        np.bincount(of[part], minlength=levels.size)
        for part in (back < MIX_DAYS, (back >= MIX_DAYS) & (back < WINDOW))
    )
    if not old.sum():
        return True
    return bool(np.abs(new / new.sum() - old / old.sum()).sum() / 2 >= MIX_MOVED)


def _does_a_level_fall(cells: LevelDays) -> bool:
    """Whether any level by itself falls over these level-days, by the plain slope."""
    alone = (slope(cells.only(cells.level == level)) for level in np.unique(cells.level))
    return any(found is not None and found.falls for found in alone)


def _flat_days(cells: LevelDays) -> int:
    """Longest time up to the newest day over which the foot is flat, in days; 0 if it is not.

    It is looked for over `WINDOW` days, then over `FLAT_STEP` more each time: more days rule out
    more.
    """
    flat = 0
    for back in range(WINDOW, FLAT_UP_TO + FLAT_STEP + 1, FLAT_STEP):
        part = newest(cells, back)
        found = over_days(part)
        if found is not None and found.is_flat(FLAT_WITHIN):
            flat = int(part.day.max() - part.day.min())
        if len(part) == len(cells):
            break
    return min(flat, FLAT_UP_TO) if flat >= FLAT_DAYS else 0


def _with_curve(learning: LearningCurve, course: Course, effects: DayEffects) -> LearningCurve:
    """The same foot that learns, with its curve and what is ahead where that is sure."""
    more = min(_to_come(course), AHEAD_SHARE * len(course))
    if more < FEWEST_AHEAD or learning.now is None:
        return learning
    bins = effect_bins(course, effects, days_a_bin(len(effects)))
    newest_days = np.array([day.n for day in effect_bins(course, effects, 1)[-NOW_DAYS:]])
    found = ahead(bins, newest_days, learning.now, len(course), rounded_down(more))
    return learning if found is None else replace(learning, curve=best_curve(bins), ahead=found)


def _to_come(course: Course) -> float:
    """Repetitions of the next `AHEAD_DAYS` days at the pace of the newest as many."""
    return float(np.sum(course.day > course.day.max() - AHEAD_DAYS))
